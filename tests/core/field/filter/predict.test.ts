import { beforeAll, describe, expect, it } from 'vitest'
import { Cell } from '#core/field/cell.ts'
import { moistureAtTimes } from '#core/field/filter/predict.ts'
import { fillGaps } from '#core/field/gaps.ts'
import type { GrainDrivers } from '#core/science/grain/exchange.ts'
import { type GrainParticle, runGrain } from '#core/science/grain/standing.ts'
import { champaignAutumn } from '#tests/support/champaign.ts'

let drivers: GrainDrivers
beforeAll(() => {
  drivers = new Cell(fillGaps(champaignAutumn(2011)).weather).crop('soybean').grain
})
const START = () => drivers.startEpochH
const particleAt = (hour: number): GrainParticle => ({
  matureEpochH: START() + hour,
  moistureAtMaturityWb: 57,
  dryingFactor: 1,
  exchangeHours: 13,
  equilibriumOffsetWb: 0.4,
})
const nowhere = () => Number.NaN

/** The whole course from the first hour of the weather, as the outlook runs it. */
function courseOf(particle: GrainParticle): Float32Array {
  const out = new Float32Array(drivers.hours)
  runGrain(drivers, 0, particle, particle.moistureAtMaturityWb, out)
  return out
}
function shownAt(particle: GrainParticle, hours: readonly number[], restart = nowhere): Float64Array {
  const out = new Float64Array(hours.length)
  const times = Float64Array.from(hours, (h) => START() + h)
  moistureAtTimes(drivers, particle, restart, times, out)
  return out
}

describe('moisture at the times of the readings', () => {
  it('is that of the course run hour by hour from the start, before maturity and after', () => {
    const particle = particleAt(24 * 60 + 0.37)
    const course = courseOf(particle)
    const hours = [24 * 40, 24 * 60, 24 * 62, 24 * 75 + 7, 24 * 90]
    const shown = shownAt(particle, hours)
    for (const [k, h] of hours.entries()) expect(shown[k]!).toBeCloseTo(course[h - 1]!, 4)
  })

  it('lies straight between whole hours', () => {
    const particle = particleAt(24 * 60)
    const [before, between, after] = shownAt(particle, [24 * 70, 24 * 70 + 0.25, 24 * 70 + 1])
    expect(between!).toBeCloseTo(0.75 * before! + 0.25 * after!, 9)
  })

  it('stands still after the end of the weather, and restarts where no weather leads', () => {
    const particle = particleAt(24 * 60)
    const [last, later] = shownAt(particle, [drivers.hours, drivers.hours + 2.5])
    expect(later).toBe(last)
    expect(shownAt(particleAt(-48), [-3], () => 23)[0]).toBe(23)
  })
})
