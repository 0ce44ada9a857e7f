/** Why what was told from a cab was not taken, and which inputs of the form are to blame. */
import type { z } from 'zod'
import { LONGEST_TEXT } from '#app/problems.ts'
import type { RecordFault } from '#app/record-faults.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Reason } from '#edges/web/refused-form.ts'
import type { Words } from '#edges/web/words/words.ts'
import type { WrongWords } from '#edges/web/words/wrong.ts'

const WRONG: Readonly<Record<string, (wrong: WrongWords) => string>> = {
  field: ({ choice }) => choice,
  moisture: ({ number }) => number,
  instrument: ({ choice }) => choice,
  area: ({ number }) => number,
  kind: ({ choice }) => choice,
  text: ({ long }) => long(LONGEST_TEXT),
}

/** Of a form that can not be read. */
export function unread({ issues }: z.ZodError, words: Words): readonly Reason[] {
  const inputs = new Set(issues.map(({ path }) => String(path[0])))
  const reasons = [...inputs].flatMap((input) => {
    const says = WRONG[input]
    return says ? [{ text: says(words.wrong), inputs: [input] }] : []
  })
  return reasons.length > 0 ? reasons : [{ text: words.failures['bad-request'].title, inputs: [] }]
}

const BLAMED: { readonly [C in RecordFault['code']]?: readonly string[] } = {
  'unknown-field': ['field'],
  'unknown-patch': ['field'],
  'part-finished': ['field'],
  'moisture-impossible': ['moisture'],
  'area-impossible': ['area'],
  'area-too-large': ['area'],
}

/** Of what the book does not take. */
export const untaken = (fault: RecordFault, farm: Farm, words: Words): Reason => ({
  text: words.refusal(fault, farm),
  inputs: BLAMED[fault.code] ?? [],
})
