/** What was told and decided of one field this season, and how the forecasts did there. */

import { seasonStart } from '#core/field/season.ts'
import type { Field } from '#core/operation/farm.ts'
import type { Skill } from '#core/outlook/skill.ts'
import type { ForecastStore } from './forecasts-port.ts'
import type { RecordStore, Standing } from './records-port.ts'
import { nearSkill } from './skill.ts'

/** Newest first; only what holds. */
export interface ToldOfField {
  readonly readings: readonly Standing<'reading'>[]
  readonly cuts: readonly Standing<'cut'>[]
  readonly decisions: readonly Standing<'decision'>[]
  /** Forecasts up to two days ahead against the readings; absent where no forecasts are kept. */
  readonly skill: Skill | undefined
}

export async function toldOfField(
  farmId: string,
  field: Field,
  records: Pick<RecordStore, 'current'> | undefined,
  forecasts: Pick<ForecastStore, 'forecasts'> | undefined,
): Promise<ToldOfField> {
  const since = seasonStart(field)
  const of = async <K extends 'reading' | 'cut' | 'decision'>(kind: K) =>
    ((await records?.current(farmId, kind)) ?? [])
      .filter(({ fieldId, atEpochH }) => fieldId === field.id && atEpochH >= since)
      .reverse()
  const [readings, cuts, decisions] = await Promise.all([of('reading'), of('cut'), of('decision')])
  const bodies = readings.map(({ body }) => body)
  return { readings, cuts, decisions, skill: forecasts && (await nearSkill(farmId, bodies, forecasts)) }
}
