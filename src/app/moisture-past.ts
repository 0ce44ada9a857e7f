/** How the moisture of a part went since it ripened, as its state was run through the weather that was seen. */
import type { PartState } from '#core/field/state.ts'
import { quantilesAcrossCourses } from '#core/outlook/quantile.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Day } from './make-day.ts'

export interface MoisturePast {
  /** First hour, whole hours since the epoch; the last ends now. */
  readonly startEpochH: number
  readonly hours: number
  /** At the end of each hour: median and the ends of the middle 80 % [% wet basis]; NaN = not known. */
  readonly medianWb: Float32Array
  readonly lowWb: Float32Array
  readonly highWb: Float32Array
}

/** A crop that is not ripe shows its last days all the same; one that has long been, no more than can be read. */
const SHORTEST_H = 3 * HOURS_PER_DAY
const LONGEST_H = 21 * HOURS_PER_DAY

/** @returns undefined where no weather of the past is known. */
export function moisturePast({ ahead }: Pick<Day, 'ahead'>, state: PartState): MoisturePast | undefined {
  const count = state.particles.length
  const all = state.past.moistureWb
  const known = count === 0 ? 0 : all.length / count
  const nowEpochH = ahead.startEpochH
  const ripeEpochH = middleOf(state.particles.map(({ matureEpochH }) => matureEpochH))
  const sinceRipe = Number.isNaN(ripeEpochH) ? 0 : Math.ceil(nowEpochH - ripeEpochH)
  const hours = Math.min(known, LONGEST_H, Math.max(SHORTEST_H, sinceRipe))
  if (hours === 0) return undefined
  const shown = new Float32Array(count * hours)
  for (let p = 0; p < count; p++) shown.set(all.subarray((p + 1) * known - hours, (p + 1) * known), p * hours)
  const [lowWb, medianWb, highWb] = quantilesAcrossCourses(shown, count, hours, [0.1, 0.5, 0.9])
  return { startEpochH: nowEpochH - hours, hours, medianWb: medianWb!, lowWb: lowWb!, highWb: highWb! }
}

function middleOf(values: readonly number[]): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN
}
