/** How good the forecasts of moisture have been, by crop and days ahead, and whether of late they were poor. */
import type { Reading } from '#core/field/reading.ts'
import type { SaidPoorRecord } from '#core/messages/morning.ts'
import { type Skill, skillOf } from '#core/outlook/skill.ts'
import { CROPS, type CropName } from '#core/science/crop.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { ForecastStore } from './forecasts-port.ts'
import { type HeldForecast, heldAgainst, leadDays } from './held-forecasts.ts'
import { bodiesOf, type RecordStore } from './records-port.ts'

export interface SkillRow {
  readonly crop: CropName
  /** Whole days from forecast to reading; 0 is the day it was made. */
  readonly leadDays: number
  /** Bias, errors and score in points of moisture; what was read has the meter's own error in it. */
  readonly skill: Skill
}

export interface SkillReport {
  /** By crop, then days ahead; only what was read. */
  readonly rows: readonly SkillRow[]
  readonly recent: RecentRecord
}

/** The last two weeks, up to two days ahead: what a person may remember of the messages. */
export interface RecentRecord {
  readonly skill: Skill
  /** Worth a line in the message. */
  readonly poor: boolean
}

const RECENT_DAYS = 14
const RECENT_LEAD_DAYS = 2
/** Fewer readings prove nothing. */
const ENOUGH_READINGS = 10
/** Nine in ten are meant to fall inside; of ten, fewer than seven do by chance once in 78 times (binomial). */
const POOR_INSIDE_90 = 0.7
/** So much too wet or too dry on average changes what is cut [points]; choice. */
const POOR_BIAS_WB = 1

export async function skillReport(
  farmId: string,
  store: Pick<RecordStore, 'current'>,
  forecasts: Pick<ForecastStore, 'forecasts'>,
  nowEpochH: number,
): Promise<SkillReport> {
  const readings = await bodiesOf(store, farmId, 'reading')
  const held = await heldReadings(farmId, readings, forecasts)
  return { rows: skillRows(held), recent: recentRecord(held, nowEpochH) }
}

export function skillRows(held: readonly HeldForecast[]): SkillRow[] {
  return CROPS.flatMap((crop) => {
    const byLead = Map.groupBy(
      held.filter((one) => one.crop === crop),
      leadDays,
    )
    return [...byLead]
      .sort(([a], [b]) => a - b)
      .map(([days, ones]) => ({ crop, leadDays: days, skill: skillOf(ones.map(scored)) }))
  })
}

/** What the message says of a poor record; nothing where it is not poor. */
export async function poorRecordOf(
  farmId: string,
  readings: readonly Reading[],
  forecasts: Pick<ForecastStore, 'forecasts'>,
  nowEpochH: number,
): Promise<SaidPoorRecord | undefined> {
  if (readings.length < ENOUGH_READINGS) return undefined
  const since = nowEpochH - (RECENT_DAYS + RECENT_LEAD_DAYS + 1) * HOURS_PER_DAY
  const { poor, skill } = recentRecord(await heldReadings(farmId, readings, forecasts, since), nowEpochH)
  return poor ? { inside90: skill.inside90, biasWb: skill.bias } : undefined
}

export function recentRecord(held: readonly HeldForecast[], nowEpochH: number): RecentRecord {
  const since = nowEpochH - RECENT_DAYS * HOURS_PER_DAY
  const recent = held.filter(
    (one) => one.readAtEpochH >= since && one.readAtEpochH <= nowEpochH && leadDays(one) <= RECENT_LEAD_DAYS,
  )
  // A reading is held against up to three forecasts, which err together: it counts as one.
  const readings = new Set(recent.map(({ partKey, readAtEpochH }) => `${partKey}@${readAtEpochH}`)).size
  const skill = skillOf(recent.map(scored))
  const off = skill.inside90 < POOR_INSIDE_90 || Math.abs(skill.bias) >= POOR_BIAS_WB
  return { skill, poor: readings >= ENOUGH_READINGS && off }
}

/** Scores of the forecasts up to two days ahead against these readings. @param readings of a season, or of a field in it. */
export async function nearSkill(
  farmId: string,
  readings: readonly Reading[],
  forecasts: Pick<ForecastStore, 'forecasts'>,
): Promise<Skill> {
  const since = Math.min(...readings.map(({ atEpochH }) => atEpochH)) - (RECENT_LEAD_DAYS + 1) * HOURS_PER_DAY
  const held = await heldReadings(farmId, readings, forecasts, since)
  return skillOf(held.filter((one) => leadDays(one) <= RECENT_LEAD_DAYS).map(scored))
}

/** Only what was read is looked up: a season of forecasts is large. */
async function heldReadings(
  farmId: string,
  readings: readonly Reading[],
  forecasts: Pick<ForecastStore, 'forecasts'>,
  sinceEpochH?: number,
): Promise<HeldForecast[]> {
  const partKeys = [...new Set(readings.map(({ partKey }) => partKey))]
  if (partKeys.length === 0) return []
  return heldAgainst(await forecasts.forecasts(farmId, sinceEpochH, partKeys), readings)
}

const scored = ({ forecastWb, readWb }: HeldForecast) => ({ values: forecastWb, truth: readWb })
