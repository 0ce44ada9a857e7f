/** `event`: what someone saw happen in a field: mature, still green, green again. */
import { parseArgs } from 'node:util'
import { type Book, noteEvent, type ToldEvent, takeBack } from '#app/records.ts'
import type { FieldEvent } from '#core/field/event.ts'
import { BOOK_OPTIONS, needed, numberTyped, type Printed, printAnswer, printList, type Say } from './records.ts'

export interface EventCommand {
  readonly name: 'event'
  readonly farm: string | undefined
  readonly by: string | undefined
  readonly action:
    | { readonly kind: 'note'; readonly told: Omit<ToldEvent, 'by'> }
    | { readonly kind: 'take-back'; readonly key: string }
    | { readonly kind: 'list' }
}

const SEEN: { readonly [word: string]: FieldEvent['kind'] } = {
  mature: 'maturity-seen',
  green: 'still-green-seen',
  regreened: 'regreened',
}

export const EVENT_USAGE = `  npm run event -- --field F [--patch P] --seen mature|green|regreened [--later DAYS] [--at TIME] [--by NAME] [--key K]
                   [--corrects KEY] [--farm FILE]
                                                   notes what was seen; regreened ripens DAYS later than it would have;
                                                   --list and --take-back KEY as with reading
`

/** @throws with what is wrong. */
export function readEvent(args: readonly string[]): EventCommand {
  const { values } = parseArgs({
    args: [...args],
    options: { ...BOOK_OPTIONS, seen: { type: 'string' }, later: { type: 'string' } },
  })
  const base = { name: 'event', farm: values.farm, by: values.by } as const
  if (values.list) return { ...base, action: { kind: 'list' } }
  const back = values['take-back']
  if (back !== undefined) return { ...base, action: { kind: 'take-back', key: back } }
  const kind = SEEN[needed('seen', values.seen)]
  if (!kind) throw new Error(`--seen "${values.seen}" is none of ${Object.keys(SEEN).join(', ')}`)
  const laterDays = numberTyped('later', values.later)
  const told = {
    field: needed('field', values.field),
    patch: values.patch,
    kind,
    laterDays: kind === 'regreened' ? needed('later', laterDays) : undefined,
    at: values.at,
    key: values.key,
    replaces: values.corrects,
  }
  return { ...base, action: { kind: 'note', told } }
}

/** @param by who tells it. */
export async function runEvent({ action }: EventCommand, book: Book, by: string): Promise<Printed> {
  switch (action.kind) {
    case 'note':
      return printAnswer(await noteEvent(book, { ...action.told, by }), book, say)
    case 'take-back':
      return printAnswer(await takeBack(book, 'event', action.key, by), book, say)
    case 'list':
      return await printList('event', book, say)
  }
}

const say: Say<'event'> = (event) => {
  switch (event.kind) {
    case 'maturity-seen':
      return 'seen mature'
    case 'still-green-seen':
      return 'seen still green'
    case 'regreened':
      return `green again, ${event.laterDays} days later`
  }
}
