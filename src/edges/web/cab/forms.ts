/** What is told from a cab: the forms, and what they become. */
import { html } from 'hono/html'
import { z } from 'zod'
import { LONGEST_TEXT, PROBLEM_KINDS } from '#app/problems.ts'
import type { Farm } from '#core/operation/farm.ts'
import { CAB_SCRIPT } from '#edges/web/assets.ts'
import { layout, type Markup, type Viewer } from '#edges/web/layout.ts'
import { decimal } from '#edges/web/typed.ts'
import { wordsOf } from '#edges/web/words/of.ts'
import type { Words } from '#edges/web/words/words.ts'

export const TOLD = ['reading', 'cut', 'problem'] as const
export type ToldKind = (typeof TOLD)[number]

const number = z.string().transform(decimal)
/** What the script adds: a key of its own, so that sending it twice counts once, and how long ago it was typed [s]. */
const sent = {
  key: z
    .string()
    .regex(/^[\w-]{16,64}$/)
    .optional(),
  agoS: number
    .pipe(
      z
        .number()
        .min(0)
        .max(60 * 86_400),
    )
    .optional(),
}

export const READING_FORM = z.object({
  ...sent,
  field: z.string(),
  moisture: number.pipe(z.number()),
  instrument: z.enum(['combine', 'hand', 'ticket']),
})
export const CUT_FORM = z.object({
  ...sent,
  field: z.string(),
  area: z.union([z.literal('').transform(() => undefined), number.pipe(z.number().positive())]).optional(),
  done: z.literal('yes').optional(),
})
export const PROBLEM_FORM = z.object({
  ...sent,
  field: z.string(),
  kind: z.enum(PROBLEM_KINDS),
  text: z.string().trim().max(LONGEST_TEXT).default(''),
})

export interface FormShown {
  readonly kind: ToldKind
  /** Chosen before anybody touches it. */
  readonly field: string | undefined
  /** Why what was sent was not taken. */
  readonly fault: string | undefined
}

export function formPage(farm: Farm, viewer: Viewer, { kind, field, fault }: FormShown): Markup {
  const words = wordsOf(viewer.language)
  return layout({
    farm,
    viewer,
    title: words.cab.buttons[kind],
    current: 'cab',
    look: 'cab',
    script: CAB_SCRIPT.path,
    body: html`<h1>${words.cab.buttons[kind]}</h1>
${fault ? html`<p class="alarm" role="alert">${fault}</p>` : ''}
<p class="offline alarm" role="status" hidden data-text="${words.cab.offline}"></p>
<p class="waiting" role="status" hidden data-text="${words.cab.waiting}"></p>
<p class="answer" role="status" hidden data-kept="${words.cab.kept}" data-sent="${words.cab.told[kind]}" data-sign-in="${words.cab.signInAgain}"></p>
<form class="plain" method="post" action="/cab/${kind}" data-queue>
${kind === 'problem' ? html`<p class="alarm">${words.cab.emergency}</p>` : ''}
<label>${words.column.field}<select name="field">${fieldOptions(farm, field)}</select></label>
${inputs(kind, farm, words)}
<button class="big">${words.cab.send}</button>
</form>`,
  })
}

function fieldOptions(farm: Farm, chosen: string | undefined): Markup[] {
  return farm.fields.flatMap((field) => {
    const places = [
      { key: field.id, name: field.name },
      ...field.patches.map((patch) => ({ key: `${field.id}/${patch.id}`, name: `${field.name}, ${patch.name}` })),
    ]
    return places.map(({ key, name }) =>
      key === chosen
        ? html`<option value="${key}" selected>${name}</option>`
        : html`<option value="${key}">${name}</option>`,
    )
  })
}

function inputs(kind: ToldKind, farm: Farm, { cab }: Words): Markup {
  switch (kind) {
    case 'reading':
      return html`<label>${cab.moisture}<input name="moisture" inputmode="decimal" required autocomplete="off" pattern="[0-9]{1,2}([.,][0-9]+)?"></label>
<label>${cab.instrument}<select name="instrument"><option value="combine">${cab.instruments.combine}</option><option value="hand">${cab.instruments.hand}</option><option value="ticket">${cab.instruments.ticket}</option></select></label>`
    case 'cut':
      return html`<label>${cab.area[farm.units]}<input name="area" inputmode="decimal" autocomplete="off" pattern="[0-9]+([.,][0-9]+)?"></label>
<label class="tick"><input type="checkbox" name="done" value="yes">${cab.fieldDone}</label>`
    case 'problem':
      return html`<label>${cab.what}<select name="kind">${PROBLEM_KINDS.map((each) => html`<option value="${each}">${cab.problems[each]}</option>`)}</select></label>
<label>${cab.words}<textarea name="text" rows="3" maxlength="${LONGEST_TEXT}"></textarea></label>`
  }
}
