/** The API's own page, written from its OpenAPI document. */
import { html } from 'hono/html'
import type { Farm } from '#core/operation/farm.ts'
import { PROBLEMS } from '#edges/web/errors.ts'
import { layout, type Markup, type Viewer } from '#edges/web/layout.ts'

interface Operation {
  readonly summary?: string
  readonly parameters?: readonly { readonly name?: string; readonly in?: string; readonly description?: string }[]
  readonly requestBody?: { readonly content?: Record<string, { readonly schema?: { readonly $ref?: string } }> }
  readonly responses?: Record<string, { readonly description?: string }>
}

interface Property {
  readonly type?: unknown
  readonly description?: string
  readonly enum?: readonly unknown[]
}

export interface ApiDocument {
  readonly info: { readonly description?: string }
  readonly paths?: Record<string, Record<string, Operation>>
  readonly components?: { readonly schemas?: Record<string, { readonly properties?: Record<string, Property> }> }
}

export function docsPage(farm: Farm, viewer: Viewer, document: ApiDocument): Markup {
  const operations = Object.entries(document.paths ?? {}).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method: method.toUpperCase(), operation })),
  )
  return layout({
    farm,
    viewer,
    title: 'API',
    language: 'en',
    body: html`<h1>What programs can ask and tell.</h1>
<p>${document.info.description}</p>
<p><a href="/api/openapi.json">OpenAPI 3.1 document</a></p>
${operations.map(
  ({ path, method, operation }) => html`<section>
<h2><code>${method} ${path}</code></h2>
<p>${operation.summary}</p>
${list(
  (operation.parameters ?? []).map(
    ({ name, in: place, description }) => html`<li><code>${name}</code> (${place}) ${description ?? ''}</li>`,
  ),
)}
${body(operation, document)}
<dl class="facts">${Object.entries(operation.responses ?? {}).map(
    ([status, { description }]) => html`<div><dt>${status}</dt><dd>${description}</dd></div>`,
  )}</dl>
</section>`,
)}
<section><h2 id="problems">Problems</h2>
<ul>${Object.entries(PROBLEMS).map(([type, { status, title }]) => html`<li id="${type}"><code>${type}</code>: ${status}, ${title}</li>`)}</ul></section>`,
  })
}

const list = (items: readonly Markup[]): Markup | string => (items.length > 0 ? html`<ul>${items}</ul>` : '')

function body({ requestBody }: Operation, { components }: ApiDocument): Markup | string {
  const ref = requestBody?.content?.['application/json']?.schema?.$ref
  const properties = ref && components?.schemas?.[ref.split('/').at(-1)!]?.properties
  if (!properties) return ''
  return html`<ul>${Object.entries(properties).map(
    ([name, property]) =>
      html`<li><code>${name}</code> ${property.enum ? property.enum.join(', ') : String(property.type ?? '')} ${property.description ?? ''}</li>`,
  )}</ul>`
}
