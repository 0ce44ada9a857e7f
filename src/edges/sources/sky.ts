/** Sunlight from cloud cover, where a service gives no sunlight itself. */
import { clearSkyWm2, extraterrestrialWm2, solarFromCloudWm2 } from '#core/science/air/radiation.ts'
import type { Place } from '#core/units/weather.ts'
import type { Grid } from './spans.ts'

/** The remark that belongs to weather with such sunlight. */
export const SUN_FROM_CLOUD = 'Sunlight is estimated from cloud cover.'

/** @param cloudFraction by hour, 0-1. @returns [W/m2], unknown where the cloud is, unless it is night. */
export function sunlightUnder(cloudFraction: ArrayLike<number>, place: Place, grid: Grid): Float32Array {
  return Float32Array.from({ length: grid.hours }, (_, hour) => {
    const above = extraterrestrialWm2(place.latDeg, place.lonDeg, grid.startEpochH + hour)
    return above === 0 ? 0 : solarFromCloudWm2(clearSkyWm2(above, place.elevationM), cloudFraction[hour]!)
  })
}
