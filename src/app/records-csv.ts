/** Readings from a table: each row is taken in by itself and answered by itself. */
import { CsvError, parse } from 'csv-parse/sync'
import type { InstrumentKind } from '#core/field/reading.ts'
import type { RecordFault } from './record-faults.ts'
import { type Answer, type Book, type ToldReading, takeReading } from './records.ts'

/** Columns of the table; the first row names them, in any order. */
const READING_COLUMNS = ['field', 'patch', 'time', 'moisture', 'instrument', 'offset', 'by', 'key'] as const
type Column = (typeof READING_COLUMNS)[number]
const NEEDED: readonly Column[] = ['field', 'time', 'moisture']

export interface RowAnswer {
  /** Line of the file on which the row starts, from 1. */
  readonly line: number
  readonly answer: Answer<'reading'>
}

export type CsvAnswer =
  | { readonly kind: 'read'; readonly rows: readonly RowAnswer[] }
  /** Not a table of readings: nothing was taken in. */
  | { readonly kind: 'unreadable'; readonly what: string }

/**
 * Takes in a table of readings: commas, semicolons or tabs between the columns, decimals with point or comma, times with
 * their offset or by the farm's clock. A row without a key is known by what it says, so the same file sent again changes
 * nothing. Ended half way, it is finished by sending it again.
 *
 * @param by who sends it, for rows that name nobody.
 */
export async function takeReadingsCsv(book: Book, text: string, by: string): Promise<CsvAnswer> {
  const table = readTable(text)
  if (typeof table === 'string') return { kind: 'unreadable', what: table }
  const rows: RowAnswer[] = []
  for (const { line, cells } of table) {
    const told = typeof cells === 'string' ? unreadable(cells) : toldOf(cells, by)
    const answer: Answer<'reading'> = 'code' in told ? { kind: 'refused', fault: told } : await takeReading(book, told)
    rows.push({ line, answer })
  }
  return { kind: 'read', rows }
}

interface Row {
  readonly line: number
  /** By column, or what is wrong with the row. */
  readonly cells: Cells | string
}
type Cells = ReadonlyMap<Column, string>

const unreadable = (what: string): RecordFault => ({ code: 'row-unreadable', what })

/** @returns the rows, or what is wrong with the table as a whole. */
function readTable(text: string): Row[] | string {
  let records: { record: string[]; info: { lines: number } }[]
  try {
    records = parse(text, {
      bom: true,
      delimiter: delimiterOf(text),
      info: true,
      relax_column_count: true,
      trim: true,
    }) as unknown as typeof records
  } catch (fault) {
    if (fault instanceof CsvError) return `It is not a table: ${fault.message}.`
    throw fault
  }
  // Blank lines are left in until their lines are counted.
  const ends = records.map(({ info }) => info.lines)
  const [head, ...rest] = records
    .map(({ record }, n) => ({ cells: record, line: n === 0 ? 1 : ends[n - 1]! + 1 }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''))
  if (!head) return 'It is empty.'
  const columns = head.cells.map((name) => name.toLowerCase() as Column)
  const strange = columns.filter((name) => !READING_COLUMNS.includes(name))
  if (strange.length > 0) {
    return `Column "${strange[0]}" is not known. Columns: ${READING_COLUMNS.join(', ')}.`
  }
  const missing = NEEDED.filter((name) => !columns.includes(name))
  if (missing.length > 0) return `Column "${missing[0]}" is missing. The first row names the columns.`
  return rest.map(({ cells, line }) =>
    // A decimal comma that nobody quoted would shift a digit into the next column.
    cells.length > columns.length
      ? { line, cells: 'It has more cells than there are columns.' }
      : { line, cells: new Map(cells.map((cell, c) => [columns[c]!, cell] as const)) },
  )
}

/** Of the separators in the first line with anything in it the commonest. */
function delimiterOf(text: string): string {
  const [first = ''] = text.trimStart().split('\n', 1)
  const count = (separator: string) => first.split(separator).length
  return [',', ';', '\t'].sort((a, b) => count(b) - count(a))[0]!
}

function toldOf(cells: Cells, by: string): ToldReading | RecordFault {
  const cell = (column: Column) => cells.get(column) || undefined
  for (const column of NEEDED) {
    if (!cell(column)) return unreadable(`It has no ${column}.`)
  }
  const moistureWb = numberOf(cell('moisture')!)
  if (Number.isNaN(moistureWb)) {
    return unreadable(`"${cell('moisture')}" is not a moisture; write it like 11.8.`)
  }
  const offset = cell('offset')
  const offsetWb = offset === undefined ? undefined : numberOf(offset)
  if (offsetWb !== undefined && Number.isNaN(offsetWb)) {
    return unreadable(`"${offset}" is not an offset; write it like 0.4.`)
  }
  const instrument = instrumentOf(cell('instrument') ?? 'hand')
  if (!instrument) {
    return unreadable(
      `"${cell('instrument')}" is not an instrument: combine, hand or ticket, with a name like hand:blue.`,
    )
  }
  return {
    field: cell('field')!,
    patch: cell('patch'),
    moistureWb,
    at: cell('time'),
    instrument: { ...instrument, offsetWb },
    by: cell('by') ?? by,
    key: cell('key'),
  }
}

/** `combine`, `hand` or `ticket`, and after a colon which one. */
export function instrumentOf(text: string): { kind: InstrumentKind; id: string | undefined } | undefined {
  const [kind = '', ...name] = text.trim().split(':')
  const known = (['combine', 'hand', 'ticket'] as const).find((candidate) => candidate === kind.trim().toLowerCase())
  return known && { kind: known, id: name.join(':').trim() || undefined }
}

/** @returns NaN where the text is not one number; a comma may stand for the point, a percent sign may follow. */
export function numberOf(text: string): number {
  const plain = text.trim().replace(/\s*%$/, '').replace(',', '.')
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN
}
