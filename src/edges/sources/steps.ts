/** From values at instants to whole hours: a straight line between steps, read at the middle of each hour. */
import type { Grid } from './spans.ts'

/** Known values in order of time, as two columns: an ensemble has some hundred thousand of them. */
export interface Steps {
  readonly atEpochH: Float64Array
  readonly value: Float64Array
}

const MIDDLE = 0.5

/**
 * @param longestH larger gaps between steps stay unknown [h]
 * @param into where to write, one value for each hour
 * @returns the line at the middle of each hour
 */
export function alongSteps(
  steps: Steps,
  grid: Grid,
  longestH: number,
  into: Float32Array = new Float32Array(grid.hours),
) {
  return eachHour(steps, grid, longestH, straight, into)
}

/** The same for a direction [deg], the short way round. */
export function directionAlongSteps(
  steps: Steps,
  grid: Grid,
  longestH: number,
  into: Float32Array = new Float32Array(grid.hours),
) {
  return eachHour(steps, grid, longestH, theShortWay, into)
}

/** The same for gusts: between hourly steps the stronger of the two, between distant ones the line. */
export function highestAlongSteps(
  steps: Steps,
  grid: Grid,
  longestH: number,
  into: Float32Array = new Float32Array(grid.hours),
) {
  return eachHour(steps, grid, longestH, strongerOfTwo, into)
}

type Between = (from: number, to: number, share: number, stepH: number) => number

const straight: Between = (from, to, share) => from + (to - from) * share

const strongerOfTwo: Between = (from, to, share, stepH) =>
  stepH <= 1 ? Math.max(from, to) : from + (to - from) * share

/** For directions of 0 to 360 deg; what lies outside stays outside and is screened out later. */
function theShortWay(from: number, to: number, share: number): number {
  const turn = to - from
  const shortest = turn > 180 ? turn - 360 : turn < -180 ? turn + 360 : turn
  const direction = from + shortest * share
  return direction < 0 ? direction + 360 : direction >= 360 ? direction - 360 : direction
}

function eachHour(
  { atEpochH, value }: Steps,
  { startEpochH, hours }: Grid,
  longestH: number,
  between: Between,
  into: Float32Array,
): Float32Array {
  let next = 0
  let from = Number.NaN
  let to = atEpochH[0] ?? Number.NaN
  for (let hour = 0; hour < hours; hour++) {
    const middle = startEpochH + hour + MIDDLE
    while (to <= middle) {
      from = to
      to = atEpochH[++next] ?? Number.NaN
    }
    const stepH = to - from
    into[hour] =
      stepH <= longestH ? between(value[next - 1]!, value[next]!, (middle - from) / stepH, stepH) : Number.NaN
  }
  return into
}
