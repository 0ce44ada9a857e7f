/** `reading`: take a reading, a table of them, correct one, take one back, list them. */
import { parseArgs } from 'node:util'
import { type Book, type ToldReading, takeBack, takeReading } from '#app/records.ts'
import { instrumentOf, takeReadingsCsv } from '#app/records-csv.ts'
import {
  BOOK_OPTIONS,
  needed,
  numberTyped,
  type Printed,
  printAnswer,
  printList,
  type Say,
  sayAnswer,
} from './records.ts'

export interface ReadingCommand {
  readonly name: 'reading'
  readonly farm: string | undefined
  readonly by: string | undefined
  readonly action:
    | { readonly kind: 'take'; readonly told: Omit<ToldReading, 'by'> }
    | { readonly kind: 'table'; readonly file: string }
    | { readonly kind: 'take-back'; readonly key: string }
    | { readonly kind: 'list' }
}

export const READING_USAGE = `  npm run reading -- --field F [--patch P] --moisture 11.8 [--at TIME] [--instrument hand|combine|ticket[:NAME]]
                     [--offset POINTS] [--error POINTS] [--by NAME] [--key K] [--corrects KEY] [--farm FILE]
                                                   takes a reading; --csv FILE takes a table of them, --list shows all,
                                                   --take-back KEY takes one back
`

/** @throws with what is wrong. */
export function readReading(args: readonly string[]): ReadingCommand {
  const { values } = parseArgs({
    args: [...args],
    options: {
      ...BOOK_OPTIONS,
      moisture: { type: 'string' },
      instrument: { type: 'string', default: 'hand' },
      offset: { type: 'string' },
      error: { type: 'string' },
      csv: { type: 'string' },
    },
  })
  const base = { name: 'reading', farm: values.farm, by: values.by } as const
  if (values.list) return { ...base, action: { kind: 'list' } }
  if (values.csv !== undefined) return { ...base, action: { kind: 'table', file: values.csv } }
  const back = values['take-back']
  if (back !== undefined) return { ...base, action: { kind: 'take-back', key: back } }
  const instrument = instrumentOf(values.instrument)
  if (!instrument) {
    throw new Error(`--instrument "${values.instrument}" is none of hand, combine, ticket, with a name like hand:blue`)
  }
  const told = {
    field: needed('field', values.field),
    patch: values.patch,
    moistureWb: needed('moisture', numberTyped('moisture', values.moisture)),
    instrument: {
      ...instrument,
      offsetWb: numberTyped('offset', values.offset),
      sdWb: numberTyped('error', values.error),
    },
    at: values.at,
    key: values.key,
    replaces: values.corrects,
  }
  return { ...base, action: { kind: 'take', told } }
}

/** @param by who tells it. @param read gives the text of a file, nothing where it cannot be read. */
export async function runReading(
  { action }: ReadingCommand,
  book: Book,
  by: string,
  read: (file: string) => Promise<string | undefined>,
): Promise<Printed> {
  switch (action.kind) {
    case 'take':
      return printAnswer(await takeReading(book, { ...action.told, by }), book, say)
    case 'take-back':
      return printAnswer(await takeBack(book, 'reading', action.key, by), book, say)
    case 'list':
      return await printList('reading', book, say)
    case 'table': {
      const text = await read(action.file)
      if (text === undefined) return { text: `Nothing taken. ${action.file} cannot be read.\n`, refused: true }
      return await takeTable(book, text, by)
    }
  }
}

const say: Say<'reading'> = ({ moistureWb, instrument }) =>
  `${moistureWb} % by ${instrument.kind}${instrument.id === instrument.kind ? '' : ` (${instrument.id})`}`

async function takeTable(book: Book, text: string, by: string): Promise<Printed> {
  const read = await takeReadingsCsv(book, text, by)
  if (read.kind === 'unreadable') return { text: `Nothing taken. ${read.what}\n`, refused: true }
  const count = (kind: string) => read.rows.filter(({ answer }) => answer.kind === kind).length
  const lines = read.rows.map(({ line, answer }) => `line ${line}: ${sayAnswer(answer, book, say)}\n`)
  const refused = count('refused')
  const sum = `${count('kept')} kept, ${count('known')} known already, ${refused} not taken\n`
  return { text: lines.join('') + sum, refused: refused > 0 }
}
