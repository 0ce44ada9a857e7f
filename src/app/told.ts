/** What people told of the fields, as the day needs it: from the book, or nothing. */

import type { Cut } from '#core/field/cut.ts'
import type { FieldEvent } from '#core/field/event.ts'
import type { Reading } from '#core/field/reading.ts'
import { ofThisSeason } from '#core/field/season.ts'
import type { SaidPoorRecord } from '#core/messages/morning.ts'
import type { Farm } from '#core/operation/farm.ts'
import { farmFromBook } from './farm-fields.ts'
import type { ForecastStore } from './forecasts-port.ts'
import { bodiesOf, type RecordStore } from './records-port.ts'
import { poorRecordOf } from './skill.ts'

export interface Told {
  readonly readings: readonly Reading[]
  readonly cuts: readonly Cut[]
  readonly events: readonly FieldEvent[]
  /** Where what was read of late did not bear out the forecasts. */
  readonly poorRecord?: SaidPoorRecord
}

export const NOTHING_TOLD: Told = { readings: [], cuts: [], events: [] }

/** What holds in the book of this season's crops, and the farm with its fields as the book has them. @param forecasts kept ones, if any. */
export async function toldInBook(
  file: Farm,
  store: Pick<RecordStore, 'current'>,
  nowEpochH: number,
  forecasts?: Pick<ForecastStore, 'forecasts'>,
): Promise<{ readonly farm: Farm; readonly told: Told }> {
  const [farm, readings, cuts, events] = await Promise.all([
    farmFromBook(file, store),
    bodiesOf(store, file.id, 'reading'),
    bodiesOf(store, file.id, 'cut'),
    bodiesOf(store, file.id, 'event'),
  ])
  const season = {
    readings: ofThisSeason(farm, readings),
    cuts: ofThisSeason(farm, cuts),
    events: ofThisSeason(farm, events),
  }
  const poorRecord = forecasts && (await poorRecordOf(file.id, readings, forecasts, nowEpochH))
  return { farm, told: { ...season, ...(poorRecord ? { poorRecord } : {}) } }
}

/** What had happened by a moment: a day in the past is not told what came after. */
export function toldBy({ readings, cuts, events, ...rest }: Told, epochH: number): Told {
  const happened = ({ atEpochH }: { readonly atEpochH: number }) => atEpochH <= epochH
  return {
    ...rest,
    readings: readings.filter(happened),
    cuts: cuts.filter(happened),
    events: events.filter(happened),
  }
}
