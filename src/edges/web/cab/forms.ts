/** What is told from a cab: the forms, and what they become. */
import { html } from 'hono/html'
import { z } from 'zod'
import { LONGEST_TEXT, PROBLEM_KINDS } from '#app/problems.ts'
import type { Farm } from '#core/operation/farm.ts'
import { CAB_SCRIPT } from '#edges/web/assets.ts'
import { type Choice, select } from '#edges/web/choices.ts'
import { layout, type Markup, type Viewer } from '#edges/web/layout.ts'
import { type RefusedForm, refusedNote, type Typed, typedIn } from '#edges/web/refused-form.ts'
import { decimal } from '#edges/web/typed.ts'
import { wordsOf } from '#edges/web/words/of.ts'
import type { Words } from '#edges/web/words/words.ts'

export const TOLD = ['reading', 'cut', 'problem'] as const
export type ToldKind = (typeof TOLD)[number]

const INSTRUMENTS = ['combine', 'hand', 'ticket'] as const
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
  instrument: z.enum(INSTRUMENTS),
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
  readonly refused: RefusedForm | undefined
}

export function formPage(farm: Farm, viewer: Viewer, { kind, field, refused }: FormShown): Markup {
  const words = wordsOf(viewer.language)
  const typed = typedIn(refused)
  return layout({
    farm,
    viewer,
    title: words.cab.buttons[kind],
    current: 'cab',
    look: 'cab',
    script: CAB_SCRIPT.path,
    body: html`<h1>${words.cab.buttons[kind]}</h1>
${refused ? refusedNote(refused, undefined) : ''}
<p class="offline alarm" role="status" hidden data-text="${words.cab.offline}"></p>
<p class="waiting" role="status" hidden data-text="${words.cab.waiting}"></p>
<p class="answer" role="status" hidden data-kept="${words.cab.kept}" data-sent="${words.cab.told[kind]}" data-sign-in="${words.cab.signInAgain}"></p>
<form class="plain" method="post" action="/cab/${kind}" data-queue>
${kind === 'problem' ? html`<p class="alarm">${words.cab.emergency}</p>` : ''}
${select('field', words.column.field, places(farm), field, typed)}
${inputs(kind, farm, typed, words)}
<button class="big">${words.cab.send}</button>
</form>`,
  })
}

const places = (farm: Farm): Choice[] =>
  farm.fields.flatMap((field): Choice[] => [
    [field.id, field.name],
    ...field.patches.map((patch): Choice => [`${field.id}/${patch.id}`, `${field.name}, ${patch.name}`]),
  ])

function inputs(kind: ToldKind, farm: Farm, typed: Typed, { cab }: Words): Markup {
  const { text, all, asked, marks } = typed
  switch (kind) {
    case 'reading':
      return html`${asked('moisture', html`<label>${cab.moisture}<input name="moisture" value="${text('moisture', '')}" inputmode="decimal" required autocomplete="off" pattern="[0-9]{1,2}([.,][0-9]+)?"${marks('moisture')}></label>`)}
${select(
  'instrument',
  cab.instrument,
  INSTRUMENTS.map((one): Choice => [one, cab.instruments[one]]),
  undefined,
  typed,
)}`
    case 'cut':
      return html`${asked('area', html`<label>${cab.area[farm.units]}<input name="area" value="${text('area', '')}" inputmode="decimal" autocomplete="off" pattern="[0-9]+([.,][0-9]+)?"${marks('area')}></label>`)}
<label class="tick"><input type="checkbox" name="done" value="yes"${all('done', []).includes('yes') ? html` checked` : ''}>${cab.fieldDone}</label>`
    case 'problem':
      return html`${select(
        'kind',
        cab.what,
        PROBLEM_KINDS.map((one): Choice => [one, cab.problems[one]]),
        undefined,
        typed,
      )}
${asked('text', html`<label>${cab.words}<textarea name="text" rows="3" maxlength="${LONGEST_TEXT}"${marks('text')}>${text('text', '')}</textarea></label>`)}`
  }
}
