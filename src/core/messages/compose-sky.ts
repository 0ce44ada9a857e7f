/** What the message says of fire, dust and the weather it rests on. */

import type { FieldPart } from '#core/field/parts.ts'
import type { Farm } from '#core/operation/farm.ts'
import { dustThrough } from '#core/outlook/day-dust.ts'
import { banAt, fireThrough } from '#core/outlook/day-fire.ts'
import type { DayPlan, Run } from '#core/planning/plan.ts'
import { epochHoursAtMinute, hoursOfLocalDay } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { type ComposeInput, NOTHING_OFFICIAL } from './compose-input.ts'
import type { MorningMessage, SaidDust, SaidFire, SaidOfficials, SaidRows } from './morning.ts'

/** The working part of the day, for which fire is told. */
const MIDDAY = { fromMinute: 10 * 60, toMinute: 19 * 60 }

/** The working day, and the runs where they reach beyond it: a fire stop keeps runs away and must be told all the more. */
export function workSpan(plan: DayPlan, date: Temporal.PlainDate, timeZone: string, nowEpochH: number) {
  const { endEpochH } = hoursOfLocalDay(date, timeZone)
  const starts = plan.runs.map((run) => run.startEpochH)
  const ends = plan.runs.map((run) => run.endEpochH)
  const from = Math.min(Math.max(nowEpochH, epochHoursAtMinute(date, MIDDAY.fromMinute, timeZone)), ...starts)
  const to = Math.max(from + 1, epochHoursAtMinute(date, MIDDAY.toMinute, timeZone), ...ends)
  return { from, to: Math.min(to, endEpochH) }
}

export function sayFire(
  { farm, fire, weather, date, plan, official = NOTHING_OFFICIAL }: ComposeInput,
  span: { from: number; to: number },
): SaidFire {
  const day = fireThrough(weather, fire, span.from, span.to)
  return {
    ...day,
    strawUnder: plan.runs.some((run) => run.part.field.followsWheat),
    banText: banTextOf(farm, date, official),
  }
}

/** Of the farm's own rules, else of the day's official bans. */
const banTextOf = (farm: Farm, date: Temporal.PlainDate, official: SaidOfficials): string | undefined =>
  banAt(farm.fireRules, date)?.text ?? official.quoted.find(({ notice }) => notice === 'ban')?.headline

export const unknownFire = (farm: Farm, date: Temporal.PlainDate, official: SaidOfficials): SaidFire => {
  const banText = banTextOf(farm, date, official)
  return {
    level: banText ? 'stop' : 'unknown',
    fromEpochH: Number.NaN,
    untilEpochH: Number.NaN,
    relHumidity: Number.NaN,
    gustMs: Number.NaN,
    grassIndex: Number.NaN,
    strawUnder: false,
    banText,
  }
}

export function sayDust(run: Run, farm: Farm, weather: Weather): SaidDust | undefined {
  const head = headFor(run.part, farm, run.outfitId)
  const found = head && dustThrough(weather, run.part.field, head, run.startEpochH, run.endEpochH)
  if (!found) return undefined
  const { wind, advice } = found
  return {
    calm: advice.calm,
    windFromDeg: wind.windFromDeg,
    windLowMs: wind.windLowMs,
    windHighMs: wind.windHighMs,
    preferBearingDeg: advice.preferBearingDeg,
    alongSight: advice.along,
    rows: advice.rows && {
      bearingDeg: advice.rows.bearingDeg,
      lie: lieOf(advice.rows.offBestDeg),
      sight: advice.rows.visibility,
    },
    staggerM: advice.staggerM,
    staggerFails: advice.staggerFails,
    doubled: run.part.field.followsWheat,
  }
}

/** Eighths of a circle, as the compass is told: rows within half of one of a direction lie that way. */
const HALF_EIGHTH_DEG = 22.5

/** @param offBestDeg how far the rows are off the best direction, which is across the wind [deg, 0-90]. */
function lieOf(offBestDeg: number): SaidRows['lie'] {
  if (offBestDeg <= HALF_EIGHTH_DEG) return 'across'
  return offBestDeg < 90 - HALF_EIGHTH_DEG ? 'aslant' : 'along'
}

function headFor(part: FieldPart, farm: Farm, outfitId: string) {
  const outfit = farm.outfits.find(({ id }) => id === outfitId)
  return outfit?.combines.flatMap(({ heads }) => heads).find(({ crops }) => crops.includes(part.field.crop))
}

export function sayWeather({ weather, past, agreement, nowEpochH }: ComposeInput): MorningMessage['weather'] {
  const { source, attribution, spread, issuedAtEpochH, remarks } = weather.provenance
  return {
    ageH: Math.max(0, nowEpochH - issuedAtEpochH),
    source,
    attribution,
    credits: [...new Set([weather, past].map(creditOf))].filter((credit) => credit !== ''),
    spread,
    members: weather.members,
    ...(agreement && { agreement }),
    remarks,
  }
}

/** A supplier of nothing, such as the one of an empty past, asks for no credit. */
function creditOf(weather: Weather | undefined): string {
  if (weather === undefined) return ''
  const { attribution, licence } = weather.provenance
  return attribution === '' || licence === '' ? attribution : `${attribution} (${licence})`
}
