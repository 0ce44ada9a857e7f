/** What the commands that write in the farm's book share: options, and how an answer is told. */
import type { ParseArgsOptionsConfig } from 'node:util'
import { sayFault, sayTime } from '#app/record-faults.ts'
import type { Answer, Book } from '#app/records.ts'
import type { FarmRecord, RecordBodies, RecordKind } from '#app/records-port.ts'
import { partOfKey } from '#core/field/parts.ts'
import { partName } from '#core/messages/names.ts'

/** Options of every such command. */
export const BOOK_OPTIONS = {
  farm: { type: 'string' },
  field: { type: 'string' },
  patch: { type: 'string' },
  at: { type: 'string' },
  by: { type: 'string' },
  key: { type: 'string' },
  corrects: { type: 'string' },
  'take-back': { type: 'string' },
  list: { type: 'boolean', default: false },
} as const satisfies ParseArgsOptionsConfig

/** What is printed and whether all of it was taken. */
export interface Printed {
  readonly text: string
  readonly refused: boolean
}

type Told = 'reading' | 'cut' | 'event'
/** Says in a few words what a record holds, without its part, time and teller. */
export type Say<K extends RecordKind> = (body: RecordBodies[K], book: Book) => string

export function printAnswer<K extends Told>(answer: Answer<K>, book: Book, say: Say<K>): Printed {
  return { text: `${sayAnswer(answer, book, say)}\n`, refused: answer.kind === 'refused' }
}

export function sayAnswer<K extends Told>(answer: Answer<K>, book: Book, say: Say<K>): string {
  if (answer.kind === 'refused') return `Not taken. ${sayFault(answer.fault, book.farm)}`
  const { record } = answer
  if (!record.body) return `${answer.kind === 'kept' ? 'Taken back' : 'Was taken back already'}: ${record.replaces}`
  return `${answer.kind === 'kept' ? 'Kept' : 'Known already'}: ${sayRecord(record, book, say)}`
}

/** The records that hold, oldest first, each with its key for a correction. */
export async function printList<K extends Told>(kind: K, book: Book, say: Say<K>): Promise<Printed> {
  const records = await book.store.current(book.farm.id, kind)
  const lines = records.map((record) => `${sayRecord(record, book, say)}\n    key ${record.key}\n`)
  return { text: lines.join('') || 'Nothing yet.\n', refused: false }
}

function sayRecord<K extends Told>({ body, atEpochH, by }: FarmRecord<K>, book: Book, say: Say<K>): string {
  const { farm } = book
  const key = body!.partKey
  const part = partOfKey(farm, key)
  const name = part ? partName(part) : key
  return `${name}, ${sayTime(atEpochH, farm.timeZone)}: ${say(body!, book)}, by ${by}`
}

/** @throws with what to type instead. */
export function numberTyped(option: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined
  const value = Number(text)
  if (text.trim() === '' || !Number.isFinite(value)) throw new Error(`--${option} "${text}" is not a number`)
  return value
}

/** @throws where an option that the command cannot do without is not there. */
export function needed<T>(option: string, value: T | undefined): T {
  if (value === undefined) throw new Error(`--${option} is missing`)
  return value
}
