/** Bodies of records as JSON text and back. */
import type { Field } from '#core/farm/farm.ts'
import type { RecordBodies, RecordKind } from '#work/records-port.ts'

/** @throws on a number that is not known: JSON would make it null, and null would be read back as something else. */
export function bodyText(body: RecordBodies[RecordKind]): string {
  return JSON.stringify(body, (key, value) => {
    if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`${key} of a record is ${value}`)
    return value
  })
}

export function bodyFrom<K extends RecordKind>(kind: K, text: string): RecordBodies[K] {
  const body: object = JSON.parse(text)
  return (kind === 'field' || kind === 'seed' ? withDates(body) : body) as RecordBodies[K]
}

const DATES: readonly string[] = ['plantedOn', 'maturitySeenOn', 'cutOn'] satisfies (keyof Field)[]

/** In the order they were stored in, so that a field kept again is the same text. */
const withDates = (stored: object): unknown =>
  Object.fromEntries(
    Object.entries(stored).map(([name, value]) => [
      name,
      DATES.includes(name) ? Temporal.PlainDate.from(value as string) : value,
    ]),
  )
