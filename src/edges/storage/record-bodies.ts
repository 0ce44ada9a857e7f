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
  const body: unknown = JSON.parse(text)
  return (kind === 'field' || kind === 'seed' ? fieldFrom(body as StoredField) : body) as RecordBodies[K]
}

type Dated = 'plantedOn' | 'maturitySeenOn' | 'cutOn'
type StoredField = Omit<Field, Dated> & { plantedOn: string; maturitySeenOn?: string; cutOn?: string }

function fieldFrom({ plantedOn, maturitySeenOn, cutOn, ...rest }: StoredField): Field {
  return {
    ...rest,
    plantedOn: Temporal.PlainDate.from(plantedOn),
    ...(maturitySeenOn === undefined ? {} : { maturitySeenOn: Temporal.PlainDate.from(maturitySeenOn) }),
    ...(cutOn === undefined ? {} : { cutOn: Temporal.PlainDate.from(cutOn) }),
  }
}
