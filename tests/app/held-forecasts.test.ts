import { describe, expect, it } from 'vitest'
import type { KeptForecast } from '#app/forecasts-port.ts'
import { heldAgainst, leadDays } from '#app/held-forecasts.ts'
import type { Reading } from '#core/field/reading.ts'

const START = 356_938
const HOURS = 48
/** Value of hour h and share s is h + s / 10, so that each tells where it came from. */
const forecast = (more: Partial<KeptForecast> = {}): KeptForecast => ({
  farmId: 'f',
  partKey: 'alpha',
  crop: 'soybean',
  madeOn: Temporal.PlainDate.from('2010-09-20'),
  madeAtEpochH: START + 0.5,
  startEpochH: START,
  hours: HOURS,
  moistureWb: Float32Array.from({ length: HOURS * 10 }, (_, i) => Math.floor(i / 10) + (i % 10) / 10),
  ...more,
})
const reading = (atEpochH: number, more: Partial<Reading> = {}): Reading => ({
  id: String(atEpochH),
  partKey: 'alpha',
  atEpochH,
  moistureWb: 13,
  instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 },
  who: 'ann',
  ...more,
})

describe('a reading', () => {
  it('is held against the hour whose end is nearest', () => {
    for (const [after, hour] of [
      [0.5, 0],
      [1.4, 0],
      [1.6, 1],
      [10, 9],
      [10.4, 9],
      [10.6, 10],
      [48, 47],
    ] as const) {
      const [held] = heldAgainst([forecast()], [reading(START + after)])
      expect(Math.floor(held!.forecastWb[0]!)).toBe(hour)
      expect(held!.forecastWb).toHaveLength(10)
      expect(held!.leadH).toBeCloseTo(after - 0.5, 9)
    }
  })

  it('is not held against forecasts made after it, that do not reach to it, or of another part', () => {
    expect(
      heldAgainst([forecast()], [reading(START + 0.4), reading(START + 49), reading(START + 9, { partKey: 'beta' })]),
    ).toEqual([])
  })

  it('is held against each earlier forecast, by its lead', () => {
    const older = forecast({ madeAtEpochH: START - 23.5, startEpochH: START - 24 })
    const held = heldAgainst([older, forecast()], [reading(START + 20)])
    expect(held.map(leadDays)).toEqual([1, 0])
  })

  it('counts without the offset its instrument is known to have', () => {
    const meter = { id: 'red', kind: 'combine', sdWb: 0.5, offsetWb: 0.7 } as const
    expect(heldAgainst([forecast()], [reading(START + 9, { instrument: meter })])[0]!.readWb).toBeCloseTo(12.3, 9)
  })

  it('of a blended load, or of an hour the forecast knew nothing of, is left out', () => {
    const blend = [{ partKey: 'alpha/hole', share: 0.2 }]
    expect(heldAgainst([forecast()], [reading(START + 9, { blend })])).toEqual([])
    const holed = forecast()
    holed.moistureWb[8 * 10 + 3] = Number.NaN
    expect(heldAgainst([holed], [reading(START + 9)])).toEqual([])
    expect(heldAgainst([holed], [reading(START + 10)])).toHaveLength(1)
  })
})
