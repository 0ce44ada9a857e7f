/**
 * At what share of its usual pace an outfit gets on, hour by hour: what care for fire and dust takes of the time.
 *
 * Both shares are common practice, no source; they serve to plan by and permit nothing. A stop is a holdback, not a pace.
 */
import type { Field } from '#core/operation/farm.ts'
import { LEVEL_CARE } from '#core/science/fire/care.ts'
import { angleBetweenLines } from '#core/units/angles.ts'
import type { Weather } from '#core/units/weather.ts'
import type { Outlook } from './outlook.ts'

/** Blowing off at every fill, someone on watch: about one minute in ten. */
export const CARE_PACE = 0.9
/** Wider gaps, slower turns, waits for the cloud to clear where the wind lies along the rows. */
export const DUST_PACE = 0.9
/** Wind this near to the rows lays the dust along them [deg]; straw under the crop doubles the dust and widens it. */
const ALONG_DEG = 30
const STRAW_ALONG_DEG = 45
/** Under this the wind has no direction to plan by [m/s]. */
const CALM_BELOW_MS = 1

/** Wind by hour over the members: where it comes from [deg, -180 to 180] and how strong its mean is [m/s]; NaN = not known. */
export interface MeanWind {
  readonly fromDeg: Float32Array
  readonly ms: Float32Array
}

export function meanWind({ hours, members, windMs, windFromDeg }: Weather): MeanWind {
  const fromDeg = new Float32Array(hours)
  const ms = new Float32Array(hours)
  for (let h = 0; h < hours; h++) {
    let east = 0
    let north = 0
    for (let m = 0; m < members; m++) {
      const i = m * hours + h
      const radians = (windFromDeg[i]! * Math.PI) / 180
      east += windMs[i]! * Math.sin(radians)
      north += windMs[i]! * Math.cos(radians)
    }
    fromDeg[h] = (Math.atan2(east, north) * 180) / Math.PI
    ms[h] = Math.hypot(east, north) / members
  }
  return { fromDeg, ms }
}

/**
 * @param level fire level by hour (code of FIRE_LEVELS).
 * @returns share of the usual pace by hour [above 0, at most 1]; 1 where nothing is known.
 */
export function paceOf(
  field: Pick<Field, 'rowBearingDeg' | 'followsWheat'>,
  level: Uint8Array,
  wind: MeanWind,
): Float32Array {
  const { rowBearingDeg, followsWheat } = field
  const near = followsWheat ? STRAW_ALONG_DEG : ALONG_DEG
  return Float32Array.from(level, (code, h) => {
    const care = code === LEVEL_CARE ? CARE_PACE : 1
    if (rowBearingDeg === undefined || !(wind.ms[h]! >= CALM_BELOW_MS)) return care
    return angleBetweenLines(wind.fromDeg[h]!, rowBearingDeg) <= near ? care * DUST_PACE : care
  })
}

export const paceAt = ({ pace }: Pick<Outlook, 'pace'>, hour: number): number => pace?.[hour] ?? 1

/** Mean pace between two moments, hours since the epoch; that of the first hour where they are the same. */
export function paceBetween(outlook: Outlook, fromEpochH: number, toEpochH: number): number {
  const first = Math.max(0, Math.floor(fromEpochH - outlook.startEpochH))
  const last = Math.min(outlook.hours, Math.max(first + 1, Math.ceil(toEpochH - outlook.startEpochH)))
  let sum = 0
  for (let h = first; h < last; h++) sum += paceAt(outlook, h)
  return last > first ? sum / (last - first) : 1
}
