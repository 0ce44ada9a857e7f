/** The morning message as mail: one column, inline style, legible at 320 px, in the dark, and with pictures off. */

import type { MorningMessage } from './morning.ts'
import { type Line, mannerOf, sayMorning } from './render-text.ts'
import { longDate } from './words/format.ts'
import { wordsOf } from './words/words.ts'

/** As wide as the sheet at most. */
export const PICTURE_WIDTH_PX = 560

const STYLE = {
  body: 'margin:0;padding:0;background:#fbf8f1;color:#26221b',
  sheet: 'max-width:34em;margin:0 auto;padding:16px;font:17px/1.45 Georgia,serif',
  date: 'margin:0 0 4px;font-size:14px;color:#6b6353',
  headline: 'margin:0 0 8px;font-size:24px;line-height:1.25;font-weight:bold',
  work: 'margin:0 0 14px',
  line: 'margin:0 0 8px',
  label: 'font-weight:bold',
  fire: 'margin:0 0 8px;padding:6px 10px;border-left:4px solid #a3462b',
  picture: 'display:block;width:100%;height:auto;border:0',
  quiet: 'margin:14px 0 0;font-size:14px;color:#6b6353',
} as const

export const escapeHtml = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;')

/** @param picture a picture that travels with the mail: its content id, and its words. */
export function renderHtml(message: MorningMessage, picture?: { readonly cid: string; readonly alt: string }): string {
  const manner = mannerOf(message)
  const lines = sayMorning(message)
  const { labels } = wordsOf(message.language)
  const alarming = message.fire.level === 'care' || message.fire.level === 'stop'
  const say = (line: Line) => paragraph(line, alarming, labels[line.kind])
  // What to do stands first; the picture comes before the details.
  const top = lines.findLastIndex(({ kind }) => kind === 'headline' || kind === 'work') + 1
  return `<!doctype html>
<html lang="${message.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta name="color-scheme" content="light dark">
<meta name="supported-color-schemes" content="light dark">
<title>${escapeHtml(lines[0]!.text)}</title>
<style>@media (prefers-color-scheme: dark) { body, .sheet { background: #1d1b17 !important; color: #ece6d8 !important } .quiet, .date { color: #b3aa97 !important } }</style>
</head>
<body style="${STYLE.body}">
<div class="sheet" style="${STYLE.sheet}">
<p class="date" style="${STYLE.date}">${escapeHtml(message.farmName)}, ${escapeHtml(longDate(message.date, manner))}</p>
${[...lines.slice(0, top).map(say), ...(picture ? [image(picture)] : []), ...lines.slice(top).map(say)].join('\n')}

</div>
</body>
</html>
`
}

function paragraph(line: Line, alarming: boolean, word: string | undefined): string {
  const text = escapeHtml(line.text)
  switch (line.kind) {
    case 'headline':
      return `<h1 style="${STYLE.headline}">${text}</h1>`
    case 'work':
      return `<p style="${STYLE.work}">${text}</p>`
    case 'source':
    case 'credit':
    case 'caution':
      return `<p class="quiet" style="${STYLE.quiet}">${text}</p>`
    default:
      return `<p style="${line.kind === 'fire' && alarming ? STYLE.fire : STYLE.line}">${label(word)}${text}</p>`
  }
}

const image = ({ cid, alt }: { readonly cid: string; readonly alt: string }): string =>
  `<p style="${STYLE.line}"><img src="cid:${cid}" alt="${escapeHtml(alt)}" width="${PICTURE_WIDTH_PX}" style="${STYLE.picture}"></p>`

const label = (word: string | undefined): string => (word ? `<span style="${STYLE.label}">${word}</span> · ` : '')
