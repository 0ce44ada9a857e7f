/** From the state of a part and the weather ahead to its outlook: moisture, holdbacks and windows, hour by hour. */

import type { Cell } from '#core/field/cell.ts'
import { groundOf, noGoBelowMm } from '#core/field/ground.ts'
import type { FieldPart } from '#core/field/parts.ts'
import { followStanding } from '#core/field/standing.ts'
import type { PartNow } from '#core/field/state.ts'
import type { Field } from '#core/operation/farm.ts'
import { emptySeries, runCourses } from '#core/science/engine/courses.ts'
import { DRY_BELOW_MM } from '#core/science/wetness/drying-off.ts'
import { HOLDBACK_BIT } from './holdback.ts'
import type { Outlook } from './outlook.ts'
import { quantilesAcrossCourses } from './quantile.ts'
import { findWindows } from './windows.ts'

/** What holds every field back alike, by hour (`always`) or by member and hour (`fireStop`). */
export interface SharedHoldbacks {
  /** Holdback bits by hour: crew off, dark. */
  readonly always: Uint16Array
  /** 1 where fire says stop, member by member. */
  readonly fireStop: Uint8Array
}

/** Rain in an hour that stops a combine: the smallest amount a gauge reads [mm]. */
const RAIN_STOPS_MM = 0.25
/** Mean wind beyond which heads lose too much and dust cannot be kept off (common practice, no source) [m/s]. */
const WIND_STOPS_MS = 15
/** Straw this tough wraps and plugs: 1 on the scale of `strawToughness`. */
const TOUGH = 1

export function makeOutlook(state: PartNow, ahead: Cell, shared: SharedHoldbacks, buyerShut: Uint8Array): Outlook {
  const { part, particles } = state
  const { field } = part
  const { weather } = ahead
  const { hours, startEpochH, members } = weather
  const count = particles.length
  const { grain, waterMm, toughness } = ahead.crop(field.crop)
  const ground = groundOf(part)
  const courses = particles.map((particle, c) => ({
    particle,
    member: c % members,
    startMoistureWb: state.moistureWb[c]!,
    startDepletionMm: state.depletionMm[c]!,
  }))
  const series = emptySeries(count, hours)
  runCourses(grain, ahead.soil(field), ground, courses, series)

  const standingLoss = new Float32Array(count * hours)
  for (let c = 0; c < count; c++) {
    const span = (values: Float32Array) => values.subarray(c * hours, (c + 1) * hours)
    followStanding(field.crop, field.band, span(series.moistureWb), startEpochH, state.standing[c]!, span(standingLoss))
  }

  const holdbackBits = new Uint16Array(count * hours)
  const noGoMm = noGoBelowMm(part, ground)
  for (let c = 0; c < count; c++) {
    const { member, particle } = courses[c]!
    for (let h = 0; h < hours; h++) {
      const i = c * hours + h
      const w = member * hours + h
      let bits = shared.always[h]!
      const moistureWb = series.moistureWb[i]!
      const rainMm = weather.rainMm[w]!
      const windMs = weather.windMs[w]!
      if (Number.isNaN(moistureWb + rainMm + windMs + waterMm[w]!)) bits |= HOLDBACK_BIT.unknown
      if (startEpochH + h < particle.matureEpochH) bits |= HOLDBACK_BIT.unripe
      if (moistureWb > field.band.highWb) bits |= HOLDBACK_BIT['wet-grain']
      if (rainMm >= RAIN_STOPS_MM) bits |= HOLDBACK_BIT.rain
      if (waterMm[w]! >= DRY_BELOW_MM) bits |= HOLDBACK_BIT['wet-plants']
      if (toughness[w]! >= TOUGH) bits |= HOLDBACK_BIT['tough-stems']
      if (series.depletionMm[i]! < noGoMm) bits |= HOLDBACK_BIT['soft-ground']
      if (shared.fireStop[w]! === 1) bits |= HOLDBACK_BIT['fire-stop']
      if (windMs > WIND_STOPS_MS) bits |= HOLDBACK_BIT.wind
      if (buyerShut[h] === 1) bits |= HOLDBACK_BIT['buyer-shut']
      holdbackBits[i] = bits
    }
  }

  return outlookOf(part, {
    startEpochH,
    hours,
    courses: count,
    moistureWb: series.moistureWb,
    standingLoss,
    holdbackBits,
  })
}

/** Courses of a part with what can be said of them together: chances, quantiles and windows. */
export function outlookOf(
  part: FieldPart,
  courses: Pick<Outlook, 'startEpochH' | 'hours' | 'courses' | 'moistureWb' | 'standingLoss' | 'holdbackBits'>,
): Outlook {
  const { hours, courses: count, moistureWb, holdbackBits } = courses
  const fitChance = shareFit(holdbackBits, count, hours)
  const [lowWb, medianWb, highWb] = quantilesAcrossCourses(moistureWb, count, hours, [0.1, 0.5, 0.9])
  const base = { part, ...courses, fitChance, medianWb: medianWb!, lowWb: lowWb!, highWb: highWb! }
  return { ...base, windows: findWindows(base) }
}

function shareFit(holdbackBits: Uint16Array, courses: number, hours: number): Float32Array {
  const share = new Float32Array(hours)
  for (let h = 0; h < hours; h++) {
    let fit = 0
    for (let c = 0; c < courses; c++) if (holdbackBits[c * hours + h] === 0) fit++
    share[h] = fit / courses
  }
  return share
}

/** 1 for each hour of a day on which the buyer of the field is shut all day. */
export function buyerShutHours(
  field: Field,
  closedOnOf: (buyerId: string) => readonly number[],
  weekdays: Uint8Array,
): Uint8Array {
  const closed = new Set(closedOnOf(field.buyerId))
  return weekdays.map((weekday) => (closed.has(weekday) ? 1 : 0))
}
