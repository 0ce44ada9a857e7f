/** How the moisture of a part went since it ripened, as its state was run through the weather that was seen. */
import type { PartNow, PartState } from '#core/field/state.ts'
import { quantilesAcrossCourses } from '#core/outlook/quantile.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Day } from './make-day.ts'

/** A part as the day keeps it: of the way there, the moisture of the hours that are shown. */
export interface KeptState extends PartNow {
  readonly past: Pick<PartState['past'], 'moistureWb'>
}

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

/** A season of every particle's hours is large, and what is kept of it is not: a day that stands holds this alone. */
export function keptState(state: PartState, nowEpochH: number): KeptState {
  const { particles, past, ...now } = state
  const count = particles.length
  const known = count === 0 ? 0 : past.moistureWb.length / count
  const ripeEpochH = middleOf(particles.map(({ matureEpochH }) => matureEpochH))
  const sinceRipe = Number.isNaN(ripeEpochH) ? 0 : Math.ceil(nowEpochH - ripeEpochH)
  const hours = Math.min(known, LONGEST_H, Math.max(SHORTEST_H, sinceRipe))
  const moistureWb = new Float32Array(count * hours)
  for (let p = 0; p < count; p++) {
    moistureWb.set(past.moistureWb.subarray((p + 1) * known - hours, (p + 1) * known), p * hours)
  }
  return { ...now, particles, past: { moistureWb } }
}

/** @returns undefined where no weather of the past is known. */
export function moisturePast({ ahead }: Pick<Day, 'ahead'>, { particles, past }: KeptState): MoisturePast | undefined {
  const count = particles.length
  const hours = count === 0 ? 0 : past.moistureWb.length / count
  if (hours === 0) return undefined
  const [lowWb, medianWb, highWb] = quantilesAcrossCourses(past.moistureWb, count, hours, [0.1, 0.5, 0.9])
  return { startEpochH: ahead.startEpochH - hours, hours, medianWb: medianWb!, lowWb: lowWb!, highWb: highWb! }
}

function middleOf(values: readonly number[]): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN
}
