/** Bodies of records as JSON text and back. */
import type { RecordBodies, RecordKind } from '#app/records-port.ts'

/** @throws on a number that is not known: JSON would make it null, and null would be read back as something else. */
export function bodyText(body: RecordBodies[RecordKind]): string {
  return JSON.stringify(body, (key, value) => {
    if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`${key} of a record is ${value}`)
    return value
  })
}

export function bodyFrom<K extends RecordKind>(text: string): RecordBodies[K] {
  return JSON.parse(text, (name, value) => (DATES.has(name) ? Temporal.PlainDate.from(value) : value))
}

/** Names that stand for a date in any body. Kept by name, in place: a body kept again is the same text. */
const DATES: ReadonlySet<string> = new Set(['plantedOn', 'maturitySeenOn', 'cutOn', 'date', 'from', 'to'])
