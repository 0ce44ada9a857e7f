/** Two witnesses of the same thing: relative humidity and dew point. */
import { relHumidityFromDewPoint } from '#core/science/air/vapour.ts'

/**
 * Further apart than this, one of the two is wrong and neither is believed. Rounding to whole degrees and the choice
 * of ice or water below freezing explain up to about 0.15. Common practice, no source.
 */
const FARTHEST_APART = 0.25

/**
 * Fills humidity from the dew point where it is missing, and drops it where the two contradict each other.
 *
 * @param relHumidity by hour [0-1]; changed in place
 * @returns remarks on what was done
 */
export function reconcileHumidity(
  relHumidity: Float32Array,
  dewPointC: Float32Array,
  airTempC: Float32Array,
): string[] {
  let filled = 0
  let dropped = 0
  for (let i = 0; i < relHumidity.length; i++) {
    const fromDew = relHumidityFromDewPoint(airTempC[i]!, dewPointC[i]!)
    if (Number.isNaN(fromDew)) continue
    if (Number.isNaN(relHumidity[i]!)) {
      relHumidity[i] = fromDew
      filled++
    } else if (Math.abs(relHumidity[i]! - fromDew) > FARTHEST_APART) {
      relHumidity[i] = Number.NaN
      dropped++
    }
  }
  return [
    ...(filled > 0 ? [`${filled} h of humidity worked out from the dew point.`] : []),
    ...(dropped > 0 ? [`${dropped} h of humidity left out: the dew point contradicts it.`] : []),
  ]
}
