/** What people told of the fields, as the day needs it: from the book, or nothing. */
import type { Farm } from '#core/farm/farm.ts'
import type { Cut } from '#core/field/cut.ts'
import type { FieldEvent } from '#core/field/event.ts'
import type { Reading } from '#core/field/reading.ts'
import { farmFromBook } from './farm-fields.ts'
import type { RecordStore } from './records-port.ts'

export interface Told {
  readonly readings: readonly Reading[]
  readonly cuts: readonly Cut[]
  readonly events: readonly FieldEvent[]
}

export const NOTHING_TOLD: Told = { readings: [], cuts: [], events: [] }

/** What holds in the book now, and the farm with its fields as the book has them. */
export async function toldInBook(
  file: Farm,
  store: Pick<RecordStore, 'current'>,
): Promise<{ readonly farm: Farm; readonly told: Told }> {
  const bodies = async <K extends 'reading' | 'cut' | 'event'>(kind: K) =>
    (await store.current(file.id, kind)).map(({ body }) => body)
  const [farm, readings, cuts, events] = await Promise.all([
    farmFromBook(file, store),
    bodies('reading'),
    bodies('cut'),
    bodies('event'),
  ])
  return { farm, told: { readings, cuts, events } }
}

/** What had happened by a moment: a day in the past is not told what came after. */
export function toldBy({ readings, cuts, events }: Told, epochH: number): Told {
  const happened = ({ atEpochH }: { readonly atEpochH: number }) => atEpochH <= epochH
  return { readings: readings.filter(happened), cuts: cuts.filter(happened), events: events.filter(happened) }
}
