/** The hours that a day's ribbons show: from a little before dew-off to dark, the work planned included. */

import type { Day } from '#app/make-day.ts'
import type { HourMark } from '#core/messages/draw-axis.ts'
import { daylightOf } from '#core/science/sun/daylight.ts'
import { zonedAt } from '#core/units/time.ts'

export interface DayFrame {
  /** Whole hours since the epoch. */
  readonly fromEpochH: number
  readonly toEpochH: number
  readonly dewOffEpochH: number
  readonly dewBackEpochH: number
  readonly darkEpochH: number
}

/** Wet hours shown before the dew is off, so that its end is seen [h]. */
const BEFORE_DEW_OFF_H = 2
const SHORTEST_H = 4
/** Where the sun neither rises nor sets, the day is taken from 7 to 20 [h]. */
const NO_SUN = { from: 7, to: 20 }
const TICK_EVERY_H = 2

export function dayFrame({ farm, date, dew, plan, nowEpochH }: Day): DayFrame {
  const { sunriseEpochH, civilDuskEpochH } = daylightOf(farm.home, date, farm.timeZone)
  const midnight = date.toZonedDateTime(farm.timeZone).epochMilliseconds / 3_600_000
  const sunrise = Number.isNaN(sunriseEpochH) ? midnight + NO_SUN.from : sunriseEpochH
  const dark = Number.isNaN(civilDuskEpochH) ? midnight + NO_SUN.to : civilDuskEpochH
  const opens = Math.min(
    Number.isNaN(dew.offEpochH) ? sunrise : dew.offEpochH - BEFORE_DEW_OFF_H,
    ...plan.runs.map(({ startEpochH }) => startEpochH),
  )
  const to = Math.ceil(Math.max(dark, ...plan.runs.map(({ endEpochH }) => endEpochH)))
  const from = Math.floor(Math.max(opens, Math.min(nowEpochH, to - SHORTEST_H)))
  return {
    fromEpochH: from,
    toEpochH: Math.max(to, from + SHORTEST_H),
    dewOffEpochH: dew.offEpochH,
    dewBackEpochH: dew.onEpochH,
    darkEpochH: civilDuskEpochH,
  }
}

/** Even hours of the clock within the frame. */
export function hourTicks({ fromEpochH, toEpochH }: DayFrame, timeZone: string): HourMark[] {
  const ticks: HourMark[] = []
  for (let epochH = fromEpochH; epochH <= toEpochH; epochH++) {
    const { hour } = zonedAt(epochH, timeZone)
    if (hour % TICK_EVERY_H === 0) ticks.push({ epochH, text: String(hour) })
  }
  return ticks
}
