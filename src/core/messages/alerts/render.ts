/** Alerts of one moment for one person as text and HTML. */
import { escapeHtml } from '#core/messages/render-html.ts'
import type { AlertText } from '#core/messages/words/english-alerts.ts'
import type { Manner } from '#core/messages/words/format.ts'
import { alertWordsOf } from '#core/messages/words/words.ts'
import type { Alert } from './alert.ts'

export interface AlertMessage {
  /** Fits a lock screen. */
  readonly title: string
  /** One paragraph an alert, the most pressing first. */
  readonly paragraphs: readonly string[]
}

/** @param alerts at least one. @param acknowledgeUrl where the reader says that he has read it, if that is asked. */
export function renderAlerts(
  alerts: readonly Alert[],
  manner: Manner,
  acknowledgeUrl: string | undefined,
): AlertMessage {
  const words = alertWordsOf(manner.language)
  const texts = alerts.map(({ phase, said }) =>
    phase === 'start' ? words.alertStart(said, manner) : words.alertEnd(said),
  )
  const paragraphs = texts.map(({ text }) => text)
  if (acknowledgeUrl) paragraphs.push(words.acknowledgeHere(acknowledgeUrl))
  return { title: titleOf(texts, words.alertDigest), paragraphs }
}

/** The first title tells the most pressing; of the others only that there are some. */
const titleOf = (texts: readonly AlertText[], digest: (first: string, others: number) => string): string =>
  texts.length === 1 ? texts[0]!.title : digest(texts[0]!.title, texts.length - 1)

export const alertText = ({ paragraphs }: AlertMessage): string => `${paragraphs.join('\n\n')}\n`

export function alertHtml({ title, paragraphs }: AlertMessage, language: string): string {
  const link = /https?:\/\/\S+$/
  const body = paragraphs
    .map((text) => escapeHtml(text).replace(link, (url) => `<a href="${url}">${url}</a>`))
    .map((html) => `<p style="margin:0 0 12px">${html}</p>`)
    .join('\n')
  return `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta name="color-scheme" content="light dark">
<title>${escapeHtml(title)}</title>
</head>
<body style="margin:0;padding:16px;font:17px/1.45 Georgia,serif">
<h1 style="margin:0 0 12px;font-size:24px;line-height:1.25">${escapeHtml(title)}</h1>
${body}
</body>
</html>
`
}
