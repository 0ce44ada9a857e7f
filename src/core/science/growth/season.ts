/** The days of one season at one field: what was measured or forecast, filled up with what is usual. */
import type { ClimateNormal, DayTemps } from './normals.ts'

/** Temperatures of a civil day, by days since 1970-01-01. */
export type DailyTemps = (epochDay: number) => DayTemps

const EPOCH = Temporal.PlainDate.from('1970-01-01')
/** Nothing we deal with takes longer from its start than this [d]. */
const LONGEST_SEASON_D = 400

export const epochDayOf = (date: Temporal.PlainDate): number => EPOCH.until(date).days
export const dateOfEpochDay = (epochDay: number): Temporal.PlainDate => EPOCH.add({ days: Math.floor(epochDay) })

/** First of January of a year [epoch days], Gregorian. */
const newYearOf = (year: number): number =>
  365 * (year - 1970) +
  Math.floor((year - 1969) / 4) -
  Math.floor((year - 1901) / 100) +
  Math.floor((year - 1601) / 400)

/**
 * Day of the year of an epoch day, without making a date of it.
 *
 * @param epochDay whole days since 1970-01-01. @returns 1-366.
 *
 * Gregorian calendar. Checked: against `Temporal` from 1900 to 2100 (property test).
 */
export function dayOfYearOf(epochDay: number): number {
  const guess = 1970 + Math.floor(epochDay / 365.2425)
  const year = epochDay < newYearOf(guess) ? guess - 1 : epochDay >= newYearOf(guess + 1) ? guess + 1 : guess
  return epochDay - newYearOf(year) + 1
}

export interface DailySeries {
  readonly dailyStart: Temporal.PlainDate
  /** Highest temperature of each day [deg C]; NaN = not known. */
  readonly dailyMaxC: Float32Array
  /** Lowest temperature of each day [deg C]; NaN = not known. */
  readonly dailyMinC: Float32Array
  readonly normalC: ClimateNormal
}

/** @returns whether the series knows both temperatures of a day. */
export function isKnownDay(series: DailySeries, epochDay: number): boolean {
  const i = epochDay - epochDayOf(series.dailyStart)
  return Number.isFinite(series.dailyMaxC[i]) && Number.isFinite(series.dailyMinC[i])
}

/**
 * Temperatures of any day: the series where it knows both, the normal elsewhere.
 *
 * @param series what is known and what is usual. @param warmerC added to the normals, to see what they weigh [deg C].
 */
export function dailyTemps(series: DailySeries, warmerC = 0): DailyTemps {
  const start = epochDayOf(series.dailyStart)
  return (epochDay) => {
    const maxC = series.dailyMaxC[epochDay - start] ?? Number.NaN
    const minC = series.dailyMinC[epochDay - start] ?? Number.NaN
    if (Number.isFinite(maxC) && Number.isFinite(minC)) return { maxC, minC }
    const usual = series.normalC(dayOfYearOf(epochDay))
    return { maxC: usual.maxC + warmerC, minC: usual.minC + warmerC }
  }
}

/**
 * When a sum of daily progress is reached.
 *
 * @param startDay first day that counts [epoch days], fraction = part of the day already gone.
 * @param target what must be gathered, in the unit of `progress`. @param temps temperatures by day.
 * @param progress of a day, not negative.
 * @returns epoch day with fraction; NaN if not reached in 400 days or a temperature is unknown.
 */
export function whenReached(
  startDay: number,
  target: number,
  temps: DailyTemps,
  progress: (temps: DayTemps, epochDay: number) => number,
): number {
  let left = target
  let from = startDay
  while (from < startDay + LONGEST_SEASON_D) {
    const day = Math.floor(from)
    const gained = progress(temps(day), day) * (day + 1 - from)
    if (Number.isNaN(gained)) return Number.NaN
    if (gained > 0 && gained >= left) return from + (left / gained) * (day + 1 - from)
    left -= gained
    from = day + 1
  }
  return Number.NaN
}

/** 28 F for some hours ends the life of corn, soybean and sorghum leaves. Common practice, no single source. */
const KILLING_FREEZE_C = -2.2
/** Usual lowest temperature of the days in which the first killing freeze comes in half the years (Iowa, mid-October). From memory. */
const USUAL_AT_FIRST_FREEZE_C = 4

/**
 * The first killing freeze after a day.
 *
 * @param series what is known and what is usual. @param afterDay [epoch days]. @param beforeDay [epoch days].
 * @returns epoch day, or undefined if none comes in between.
 *
 * Known days freeze at -2.2 deg C. Unknown days do when their usual minimum has fallen to 4 deg C: half of the years have
 * had their freeze by then (from memory).
 */
export function firstKillingFreeze(series: DailySeries, afterDay: number, beforeDay: number): number | undefined {
  const temps = dailyTemps(series)
  for (let day = Math.floor(afterDay); day < beforeDay; day++) {
    const limitC = isKnownDay(series, day) ? KILLING_FREEZE_C : USUAL_AT_FIRST_FREEZE_C
    if (temps(day).minC <= limitC) return day
  }
  return undefined
}
