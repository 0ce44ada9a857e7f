import { describe, expect, it } from 'vitest'
import { Cell } from '#core/field/cell.ts'
import { runToNow } from '#core/field/state.ts'
import type { GrainParticle } from '#core/science/grain/standing.ts'
import { testPart } from '#tests/support/fields.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const NOW = 357_000
const PAST_H = 24 * 12
const particle = (daysAgo: number): GrainParticle => ({
  matureEpochH: NOW - 24 * daysAgo,
  moistureAtMaturityWb: 57,
  dryingFactor: 1,
  exchangeHours: 13,
  equilibriumOffsetWb: 0,
})
const past = new Cell(plainWeather({ startEpochH: NOW - PAST_H, hours: PAST_H }))
const none = new Cell(plainWeather({ startEpochH: NOW, hours: 0 }))
const ahead = new Cell(plainWeather({ startEpochH: NOW, hours: 48 }), past)

describe('the state now', () => {
  it('is drier the longer ago the grain matured, and moist grain is not ripe', () => {
    const { moistureWb, standing } = runToNow(testPart(), [particle(-5), particle(4), particle(11)], past, ahead)
    expect(moistureWb[0]!).toBeGreaterThan(50)
    expect(moistureWb[1]!).toBeLessThan(moistureWb[0]!)
    expect(moistureWb[2]!).toBeLessThan(13)
    expect(standing[0]!.ripeEpochH).toBeNaN()
    expect(standing[2]!.ripeEpochH).toBeLessThan(NOW)
  })

  it('is the end of the course driven through the past, particle by particle', () => {
    const { moistureWb, depletionMm, past: series } = runToNow(testPart(), [particle(4), particle(11)], past, ahead)
    expect(moistureWb[1]).toBe(series.moistureWb[2 * PAST_H - 1])
    expect(depletionMm[0]).toBe(series.depletionMm[PAST_H - 1])
    expect(depletionMm[0]!).toBeGreaterThan(0)
  })
})

describe('where the past does not lead to now', () => {
  it('grain restarts from its usual dry-down, towards rest with the coming day', () => {
    const { moistureWb, depletionMm } = runToNow(testPart(), [particle(-2), particle(3), particle(40)], none, ahead)
    expect(moistureWb[0]).toBe(57)
    expect(moistureWb[1]!).toBeLessThan(57)
    expect(moistureWb[1]!).toBeGreaterThan(moistureWb[2]!)
    expect(moistureWb[2]!).toBeLessThan(13)
    expect(depletionMm[0]).toBe(0)
  })

  it('is not known when neither past nor the coming day is known', () => {
    const unknown = plainWeather({
      startEpochH: NOW,
      hours: 48,
      set: { airTempC: Number.NaN, relHumidity: Number.NaN },
    })
    const { moistureWb } = runToNow(testPart(), [particle(3)], none, new Cell(unknown))
    expect(moistureWb[0]).toBeNaN()
  })

  it('restarts after a hole in the middle of the past rather than staying unknown', () => {
    const holed = plainWeather({
      startEpochH: NOW - PAST_H,
      hours: PAST_H,
      set: { airTempC: (_, h) => (h === 100 ? Number.NaN : 20) },
    })
    const { moistureWb, standing } = runToNow(testPart(), [particle(11)], new Cell(holed), ahead)
    expect(moistureWb[0]!).toBeGreaterThan(5)
    expect(moistureWb[0]!).toBeLessThan(20)
    expect(standing[0]!.loss).toBeGreaterThanOrEqual(0)
  })
})
