/** From values at instants to whole hours: a straight line between steps, read at the middle of each hour. */
import type { Grid } from './spans.ts'

export interface Step {
  readonly atEpochH: number
  readonly value: number
}

const MIDDLE = 0.5

/** @param longestH larger gaps between steps stay unknown [h]. @returns the line at the middle of each hour. */
export function alongSteps(steps: readonly Step[], grid: Grid, longestH: number): Float32Array {
  return eachHour(steps, grid, longestH, (from, to, share) => from + (to - from) * share)
}

/** The same for a direction [deg], the short way round. */
export function directionAlongSteps(steps: readonly Step[], grid: Grid, longestH: number): Float32Array {
  return eachHour(steps, grid, longestH, (from, to, share) => {
    const turn = ((((to - from) % 360) + 540) % 360) - 180
    return (((from + turn * share) % 360) + 360) % 360
  })
}

/** The same for gusts: between hourly steps the stronger of the two, between distant ones the line. */
export function highestAlongSteps(steps: readonly Step[], grid: Grid, longestH: number): Float32Array {
  return eachHour(steps, grid, longestH, (from, to, share, stepH) =>
    stepH <= 1 ? Math.max(from, to) : from + (to - from) * share,
  )
}

function eachHour(
  steps: readonly Step[],
  { startEpochH, hours }: Grid,
  longestH: number,
  between: (from: number, to: number, share: number, stepH: number) => number,
): Float32Array {
  const values = new Float32Array(hours).fill(Number.NaN)
  let at = 0
  for (let hour = 0; hour < hours; hour++) {
    const middle = startEpochH + hour + MIDDLE
    while (at + 1 < steps.length && steps[at + 1]!.atEpochH <= middle) at++
    const from = steps[at]
    const to = steps[at + 1]
    if (from === undefined || to === undefined || middle < from.atEpochH) continue
    const stepH = to.atEpochH - from.atEpochH
    if (stepH <= longestH) values[hour] = between(from.value, to.value, (middle - from.atEpochH) / stepH, stepH)
  }
  return values
}
