/** What every page has around its text. */
import { html } from 'hono/html'
import { ICON, STYLE } from './assets.ts'
import type { PageName, Words } from './words/words.ts'

export type Markup = ReturnType<typeof html>

export interface Page {
  readonly title: string
  readonly farmName: string
  readonly date: string
  readonly language: string
  readonly current: PageName | undefined
  readonly words: Words
  readonly body: Markup
}

const PATHS: { readonly [P in PageName]: string } = { today: '/', fields: '/fields' }
/** The pages that are ready to be linked, in the order of the line at the top. */
const LINKED: readonly PageName[] = ['today', 'fields']

export function layout({ title, farmName, date, language, current, words, body }: Page): Markup {
  return html`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="theme-color" content="#fbf8f1" media="(prefers-color-scheme: light)">
<meta name="theme-color" content="#1b1916" media="(prefers-color-scheme: dark)">
<title>${title}</title>
<link rel="stylesheet" href="${STYLE.path}">
<link rel="icon" href="${ICON.path}" type="image/svg+xml">
</head>
<body>
<a class="skip" href="#text">${words.skip}</a>
<header class="top">
<p class="farm">${date === '' ? farmName : `${farmName} · ${date}`}</p>
<nav aria-label="${words.pagesLabel}"><ul>${LINKED.map((name) => link(name, current, words))}</ul></nav>
</header>
<main id="text">
${body}
</main>
</body>
</html>
`
}

const link = (name: PageName, current: PageName | undefined, words: Words): Markup =>
  name === current
    ? html`<li><a href="${PATHS[name]}" aria-current="page">${words.pages[name]}</a></li>`
    : html`<li><a href="${PATHS[name]}">${words.pages[name]}</a></li>`
