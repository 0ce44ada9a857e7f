import { describe, expect, it } from 'vitest'
import { alongSteps, directionAlongSteps, highestAlongSteps } from '#edges/sources/steps.ts'

const GRID = { startEpochH: 10, hours: 4 }
const steps = (...pairs: [number, number][]) => ({
  atEpochH: Float64Array.from(pairs, ([at]) => at),
  value: Float64Array.from(pairs, ([, value]) => value),
})
const GONE = Number.NaN

describe('steps brought to hours', () => {
  it('are read at the middle of the hour', () => {
    expect([...alongSteps(steps([10, 0], [11, 2], [13, 6], [14, 6]), GRID, 6)]).toEqual([1, 3, 5, 6])
  })

  it('are unknown before the first, after the last, and across a gap that is too long', () => {
    expect([...alongSteps(steps([11, 0], [12, 2]), GRID, 6)]).toEqual([GONE, 1, GONE, GONE])
    expect([...alongSteps(steps([10, 0], [14, 8]), GRID, 3)]).toEqual([GONE, GONE, GONE, GONE])
    expect([...alongSteps(steps(), GRID, 3)]).toEqual([GONE, GONE, GONE, GONE])
    expect([...alongSteps(steps([0, 0], [2, 2]), GRID, 3)]).toEqual([GONE, GONE, GONE, GONE])
  })

  it('turn the short way round', () => {
    expect([...directionAlongSteps(steps([10, 350], [11, 10], [12, 350], [14, 350]), GRID, 6)]).toEqual([
      0, 0, 350, 350,
    ])
    expect([...directionAlongSteps(steps([10, 90], [14, 190]), GRID, 6)]).toEqual([102.5, 127.5, 152.5, 177.5])
  })

  it('take the stronger of two hourly gusts, the line between distant ones', () => {
    expect([...highestAlongSteps(steps([10, 5], [11, 9], [12, 3], [14, 7]), GRID, 6)]).toEqual([9, 9, 4, 6])
  })
})
