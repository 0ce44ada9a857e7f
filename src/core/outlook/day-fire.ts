/** Fire care of the farm, hour by hour over the members, with bans and official notices on top. */
import type { FireRules } from '#core/operation/farm.ts'
import { LEVEL_CARE, LEVEL_STOP, LEVEL_UNKNOWN, OFFICIAL_NOTICES } from '#core/science/fire/care.ts'
import { fireCareHours } from '#core/science/fire/care-hours.ts'
import { grassIndexMark4 } from '#core/science/fire/grass.ts'
import { localDateOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'

export interface FireOutlook {
  /** 1 where a member says stop, and for all members where stop is called; laid out as the weather. */
  readonly stop: Uint8Array
  /** Level by hour (code of FIRE_LEVELS): the one reached in at least a third of the members. */
  readonly level: Uint8Array
}

/** A level is called when this share of the members reach it: sooner than even odds, for the cost of missing it. */
const CALLED_SHARE = 1 / 3
const BAN = OFFICIAL_NOTICES.indexOf('ban')

/** @param strawDry whether straw lies under what is cut. @param official notice codes by hour, none unless told. */
export function fireOutlook(
  weather: Weather,
  rules: FireRules,
  timeZone: string,
  strawDry: boolean,
  official?: Uint8Array,
): FireOutlook {
  const { hours, members } = weather
  const notices = new Uint8Array(hours)
  for (let h = 0; h < hours; h++) {
    const banned = banAt(rules, localDateOf(weather.startEpochH + h, timeZone)) !== undefined
    notices[h] = Math.max(official?.[h] ?? 0, banned ? BAN : 0)
  }
  const stop = new Uint8Array(members * hours)
  const counts = new Uint16Array(hours * 4)
  const options = { official: notices, strawDry: new Uint8Array(hours).fill(strawDry ? 1 : 0) }
  for (let m = 0; m < members; m++) {
    const { level } = fireCareHours(weather, m, rules, options)
    for (let h = 0; h < hours; h++) {
      counts[h * 4 + level[h]!]!++
      if (level[h] === LEVEL_STOP) stop[m * hours + h] = 1
    }
  }
  const level = new Uint8Array(hours)
  for (let h = 0; h < hours; h++) {
    const stops = counts[h * 4 + LEVEL_STOP]!
    const cares = stops + counts[h * 4 + LEVEL_CARE]!
    if (stops >= CALLED_SHARE * members) {
      level[h] = LEVEL_STOP
      // What the farm is told to leave alone must not be planned for it, however many members would allow it.
      for (let m = 0; m < members; m++) stop[m * hours + h] = 1
    } else if (cares >= CALLED_SHARE * members) level[h] = LEVEL_CARE
    else if (counts[h * 4 + LEVEL_UNKNOWN]! > 0) level[h] = LEVEL_UNKNOWN
  }
  return { stop, level }
}

export const banAt = (rules: FireRules, date: Temporal.PlainDate) =>
  rules.bans.find(
    ({ from, to }) => Temporal.PlainDate.compare(from, date) <= 0 && Temporal.PlainDate.compare(date, to) <= 0,
  )

export interface FireDay {
  readonly level: 'ordinary' | 'care' | 'stop' | 'unknown'
  readonly fromEpochH: number
  readonly untilEpochH: number
  readonly relHumidity: number
  readonly gustMs: number
  readonly grassIndex: number
}

/**
 * The worst level of a span, when it holds, and how dry and windy it gets.
 * Hours that are not known are passed over; NaN where none is known.
 */
export function fireThrough(weather: Weather, fire: FireOutlook, fromEpochH: number, toEpochH: number): FireDay {
  const first = Math.max(0, Math.floor(fromEpochH - weather.startEpochH))
  const last = Math.min(weather.hours, Math.ceil(toEpochH - weather.startEpochH))
  let worst = 0
  let known = true
  let lowestHumidity = Number.NaN
  let highestGust = Number.NaN
  let highestIndex = Number.NaN
  for (let h = first; h < last; h++) {
    const level = fire.level[h]!
    if (level === LEVEL_UNKNOWN) known = false
    else worst = Math.max(worst, level)
    const mean = (values: Float32Array) => meanOfMembers(values, weather, h)
    const humidity = mean(weather.relHumidity)
    const index = grassIndexMark4(mean(weather.airTempC), humidity, mean(weather.windMs))
    lowestHumidity = -highestKnown(-lowestHumidity, -humidity)
    highestGust = highestKnown(highestGust, mean(weather.gustMs))
    highestIndex = highestKnown(highestIndex, index)
  }
  const at = (wanted: number, step: 1 | -1): number => {
    for (let h = step > 0 ? first : last - 1; h >= first && h < last; h += step) if (fire.level[h] === wanted) return h
    return Number.NaN
  }
  const levelName =
    worst === LEVEL_STOP ? 'stop' : worst === LEVEL_CARE ? 'care' : known && last > first ? 'ordinary' : 'unknown'
  return {
    level: levelName,
    fromEpochH: weather.startEpochH + at(worst, 1),
    untilEpochH: weather.startEpochH + at(worst, -1) + 1,
    relHumidity: lowestHumidity,
    gustMs: highestGust,
    grassIndex: highestIndex,
  }
}

const highestKnown = (a: number, b: number): number => (Number.isNaN(a) ? b : Number.isNaN(b) ? a : Math.max(a, b))

function meanOfMembers(values: Float32Array, weather: Weather, hour: number): number {
  let sum = 0
  for (let m = 0; m < weather.members; m++) sum += values[m * weather.hours + hour]!
  return sum / weather.members
}
