import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CROPS } from '#core/science/crop.ts'
import { equilibriumMoistureWb } from '#core/science/grain/equilibrium.ts'
import { type GrainDrivers, grainDrivers } from '#core/science/grain/exchange.ts'
import type { Weather } from '#core/units/weather.ts'
import { weatherOf } from './trials.ts'

const SERIES = ['dryTargetWb', 'wetTargetWb', 'dryRate', 'wetRate', 'greenDryingWb'] as const
const NOON = { airTempC: 20, relHumidity: 0.6, windMs: 3, solarWm2: 600 }
const driversOf = (hour: Partial<typeof NOON>, waterMm = 0, crop = 'soybean' as (typeof CROPS)[number]): GrainDrivers =>
  grainDrivers(
    crop,
    weatherOf(1, () => ({ ...NOON, ...hour })),
    Float32Array.of(waterMm),
  )

describe('weather-only drivers of standing grain', () => {
  // Equilibria checked against published tables in equilibrium.test.ts.
  it('dries towards the published equilibrium in the dark and dry', () => {
    const drivers = driversOf({ solarWm2: 0 })
    expect(drivers.dryTargetWb[0]).toBeCloseTo(equilibriumMoistureWb('soybean', 20, 0.6), 4)
  })

  it('is drier in the sun, slower in the cold, wetter under water', () => {
    expect(driversOf({}).dryTargetWb[0]!).toBeLessThan(driversOf({ solarWm2: 0 }).dryTargetWb[0]! - 1)
    expect(driversOf({ airTempC: 2 }).dryRate[0]!).toBeLessThan(driversOf({}).dryRate[0]!)
    expect(driversOf({ solarWm2: 0 }).dryRate[0]!).toBeCloseTo(1, 6)
    const wet = driversOf({}, 0.3)
    expect(wet.wetTargetWb[0]!).toBeGreaterThan(driversOf({ relHumidity: 1 }).wetTargetWb[0]!)
    expect(wet.greenDryingWb[0]).toBe(0)
  })

  it('takes frozen water on the plants for none', () => {
    const frozen = driversOf({ airTempC: -3 }, 0.3)
    expect(frozen.wetTargetWb[0]).toBe(driversOf({ airTempC: -3 }).wetTargetWb[0])
  })

  it('stays sane in any weather', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CROPS),
        fc.record({
          airTempC: fc.double({ min: -50, max: 55, noNaN: true }),
          relHumidity: fc.double({ min: 0, max: 1, noNaN: true }),
          windMs: fc.double({ min: 0, max: 45, noNaN: true }),
          solarWm2: fc.double({ min: 0, max: 1300, noNaN: true }),
        }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        (crop, hour, waterMm) => {
          const drivers = driversOf(hour, waterMm, crop)
          expect(drivers.dryTargetWb[0]).toBeGreaterThanOrEqual(drivers.wetTargetWb[0]!)
          expect(drivers.wetTargetWb[0]).toBeGreaterThanOrEqual(0)
          expect(drivers.dryTargetWb[0]).toBeLessThan(30)
          expect(drivers.dryRate[0]).toBeGreaterThan(0)
          expect(drivers.dryRate[0]).toBeLessThan(2)
          expect(drivers.wetRate[0]).toBeGreaterThan(0)
          expect(drivers.greenDryingWb[0]).toBeGreaterThanOrEqual(0)
          expect(drivers.greenDryingWb[0]).toBeLessThan(5)
        },
      ),
    )
  })

  it('does not know what it cannot know', () => {
    for (const gap of ['airTempC', 'relHumidity', 'solarWm2'] as const)
      for (const name of ['dryTargetWb', 'wetTargetWb', 'greenDryingWb'] as const)
        expect(driversOf({ [gap]: Number.NaN })[name][0]).toBeNaN()
    expect(driversOf({ windMs: Number.NaN }).greenDryingWb[0]).toBeNaN()
    for (const airTempC of [20, -5])
      for (const name of ['dryTargetWb', 'wetTargetWb', 'greenDryingWb'] as const)
        expect(driversOf({ airTempC }, Number.NaN)[name][0]).toBeNaN()
  })

  it('lays members out one after the other', () => {
    const one = weatherOf(24, (h) => ({ ...NOON, airTempC: h }))
    const two = weatherOf(24, (h) => ({ ...NOON, airTempC: 30 - h }))
    const joined = { ...one, members: 2 } as Record<string, unknown>
    for (const [name, value] of Object.entries(one))
      if (value instanceof Float32Array) joined[name] = Float32Array.of(...value, ...(two[name as 'airTempC'] ?? []))
    const both = grainDrivers('corn', joined as unknown as Weather, new Float32Array(48))
    const alone = [one, two].map((weather) => grainDrivers('corn', weather, new Float32Array(24)))
    for (const name of SERIES) expect(both[name]).toEqual(Float32Array.of(...alone[0]![name], ...alone[1]![name]))
  })
})
