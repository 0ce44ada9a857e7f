/** Windows: unbroken runs of hours that are more likely fit than not. */
import { HOLDBACK_BIT, HOLDBACKS, type Holdback } from './holdback.ts'
import type { FitWindow } from './outlook.ts'
import { medianOf, quantileOfSorted } from './quantile.ts'

export interface WindowInput {
  readonly startEpochH: number
  readonly hours: number
  readonly courses: number
  readonly moistureWb: Float32Array
  readonly holdbackBits: Uint16Array
  readonly fitChance: Float32Array
}

/** An hour belongs to a window when it is fit in at least half of the courses. */
export const LIKELY = 0.5
/** A course keeps a window when it is fit in four hours of five. */
const HOLDS_SHARE = 0.8
/** Shorter runs are not worth moving an outfit for (common practice, no source) [h]. */
const SHORTEST_H = 1

export function findWindows(input: WindowInput): FitWindow[] {
  const windows: FitWindow[] = []
  let from = -1
  for (let h = 0; h <= input.hours; h++) {
    const likely = h < input.hours && input.fitChance[h]! >= LIKELY
    if (likely && from < 0) from = h
    if (!likely && from >= 0) {
      const window = describeWindow(input, from, h)
      if (window.endEpochH - window.startEpochH >= SHORTEST_H) windows.push(window)
      from = -1
    }
  }
  return windows
}

function describeWindow(input: WindowInput, from: number, to: number): FitWindow {
  const { hours, courses, startEpochH } = input
  let holding = 0
  const inside = new Float32Array(courses * (to - from))
  let fitAll = 0
  for (let c = 0; c < courses; c++) {
    let fit = 0
    for (let h = from; h < to; h++) {
      const i = c * hours + h
      if (input.holdbackBits[i] !== 0) continue
      fit++
      inside[fitAll++] = input.moistureWb[i]!
    }
    if (fit >= HOLDS_SHARE * (to - from)) holding++
  }
  const sorted = inside.subarray(0, fitAll).sort()
  return {
    startEpochH: startEpochH + from + edgeShare(input.fitChance, from - 1, from),
    endEpochH: startEpochH + to - edgeShare(input.fitChance, to, to - 1),
    chance: holding / courses,
    startMoistureWb: fitMoistureWb(input, from),
    endMoistureWb: fitMoistureWb(input, to - 1),
    lowWb: quantileOfSorted(sorted, 0.1),
    highWb: quantileOfSorted(sorted, 0.9),
    opensAfter: commonestHoldback(input, from - 1),
    closesWith: commonestHoldback(input, to),
  }
}

/**
 * Median moisture of an hour over the courses in which it is fit: what the crew meets if it can cut at all. A field that
 * may still be green would else be told at a moisture that no course has. All courses where none is fit.
 */
export function fitMoistureWb(
  input: Pick<WindowInput, 'hours' | 'courses' | 'moistureWb' | 'holdbackBits'>,
  hour: number,
): number {
  const fit: number[] = []
  const all: number[] = []
  for (let c = 0; c < input.courses; c++) {
    const i = c * input.hours + hour
    all.push(input.moistureWb[i]!)
    if (input.holdbackBits[i] === 0) fit.push(input.moistureWb[i]!)
  }
  return medianOf(fit.length > 0 ? fit : all)
}

/**
 * Where inside its first (or last) hour a window opens: an hour fit in all courses opens on the stamp, one fit in half
 * of them half an hour later, as the courses turn fit one after another through that hour.
 */
function edgeShare(fitChance: Float32Array, outside: number, inside: number): number {
  if (outside < 0 || outside >= fitChance.length) return 0
  return Math.min(0.75, Math.max(0, 1 - fitChance[inside]!))
}

/** The holdback met in most courses of an hour. */
export function commonestHoldback(
  input: Pick<WindowInput, 'hours' | 'courses' | 'holdbackBits'>,
  hour: number,
): Holdback | undefined {
  if (hour < 0 || hour >= input.hours) return undefined
  let best: Holdback | undefined
  let bestCount = 0
  for (const name of HOLDBACKS) {
    let count = 0
    for (let c = 0; c < input.courses; c++) {
      if ((input.holdbackBits[c * input.hours + hour]! & HOLDBACK_BIT[name]) !== 0) count++
    }
    if (count > bestCount) {
      best = name
      bestCount = count
    }
  }
  return best
}
