import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type GrowthOptions, growMembers } from '#core/science/spread/grow-members.ts'
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { autumnOf, cut, trialForecast } from '#tests/support/trial-forecasts.ts'

const options: GrowthOptions = { members: 50, seed: 42, usualRainDayShare: 0.29, ageH: 0 }
const { forecast } = trialForecast(2009, 80 * 24 + 11, 240, 7)
const grown = growMembers(forecast, options)
const memberOf = (values: Float32Array, m: number, hours = 240) => values.subarray(m * hours, (m + 1) * hours)
const sorted = (values: Iterable<number>) => Float64Array.from(values).sort()
const columnOf = (values: Float32Array, h: number, members: number, hours = 240) =>
  sorted(Array.from({ length: members }, (_, m) => values[m * hours + h]!))

test('the same inputs give the same bytes, another seed other members', () => {
  expect(growMembers(forecast, options).airTempC).toEqual(grown.airTempC)
  expect(growMembers(forecast, { ...options, seed: 43 }).airTempC).not.toEqual(grown.airTempC)
})

test('one member asked for is the forecast itself; several members are refused', () => {
  expect(growMembers(forecast, { ...options, members: 1 })).toBe(forecast)
  expect(() => growMembers(grown, options)).toThrow(RangeError)
})

test('the members lie around the forecast', () => {
  for (const [name, within] of [
    ['airTempC', 0.45],
    ['relHumidity', 0.03],
    ['windMs', 0.4],
  ] as const) {
    let apart = 0
    for (let h = 0; h < 240; h++) {
      let mean = 0
      for (let m = 0; m < 50; m++) mean += grown[name][m * 240 + h]! / 50
      apart += (mean - forecast[name][h]!) / 240
    }
    expect(Math.abs(apart), name).toBeLessThan(within)
  }
})

test('a rainy hour is moist and dark in its own member; wet members have moister, darker days than dry ones', () => {
  const wet = { humidity: 0, sun: 0, hours: 0 }
  const dry = { humidity: 0, sun: 0, hours: 0 }
  for (let m = 0; m < 50; m++) {
    for (let day = 5; day < 9; day++) {
      const from = m * 240 + day * 24
      let rain = 0
      for (let h = 0; h < 24; h++) rain += grown.rainMm[from + h]!
      const group = rain > 0.25 ? wet : dry
      for (let h = 0; h < 24; h++) {
        group.humidity += grown.relHumidity[from + h]!
        group.sun += grown.solarWm2[from + h]!
        group.hours++
        if (grown.rainMm[from + h]! > 0) expect(grown.relHumidity[from + h]!).toBeGreaterThanOrEqual(0.85 - 1e-6)
      }
    }
  }
  // At Champaign wet days are 12 points moister and get 0.6 of the sun of dry ones.
  expect(wet.humidity / wet.hours - dry.humidity / dry.hours).toBeGreaterThan(0.05)
  expect(wet.sun / wet.hours / (dry.sun / dry.hours)).toBeLessThan(0.8)
})

test('chances of the source are met: share of wet members and the said range of temperature and wind', () => {
  const hours = 48
  const base = cut(autumnOf(2015), 90 * 24, hours)
  const fill = (value: number) => new Float32Array(hours).fill(value)
  const single: Weather = { ...base, airTempC: fill(18), windMs: fill(5), rainMm: fill(0) }
  const chances = {
    popPct: fill(40),
    popBlockH: fill(6),
    airTempP10C: fill(15),
    airTempP90C: fill(24),
    windP10Ms: fill(3),
    windP90Ms: fill(8),
  }
  const members = 400
  const made = growMembers(single, { ...options, members, chances })
  for (let from = 0; from < hours; from += 6) {
    let wet = 0
    for (let m = 0; m < members; m++) {
      let total = 0
      for (let h = from; h < from + 6; h++) total += made.rainMm[m * hours + h]!
      if (total >= 0.25 * 0.999) wet++
    }
    expect(Math.abs(wet / members - 0.4)).toBeLessThan(0.004)
  }
  for (const [name, low, high] of [
    ['airTempC', 15, 24],
    ['windMs', 3, 8],
  ] as const) {
    let below = 0
    let above = 0
    for (let h = 0; h < hours; h++) {
      const column = columnOf(made[name], h, members, hours)
      below += column.filter((value) => value < low).length / members / hours
      above += column.filter((value) => value > high).length / members / hours
    }
    expect(Math.abs(below - 0.1), name).toBeLessThan(0.03)
    expect(Math.abs(above - 0.1), name).toBeLessThan(0.03)
  }
})

test('an old forecast strays more, and a source that has done badly more still', () => {
  const spreadAt = (changed: Partial<GrowthOptions>) => {
    const { airTempC } = growMembers(forecast, { ...options, ...changed })
    const column = columnOf(airTempC, 30, 50)
    return column[44]! - column[5]!
  }
  expect(spreadAt({ ageH: 96 })).toBeGreaterThan(spreadAt({}) * 1.3)
  expect(spreadAt({ errorScale: { airTempC: 1.5, dewPointC: 1.5, windMs: 1.5 } })).toBeGreaterThan(spreadAt({}) * 1.3)
})

test('a warm member stays warm: its error a day later is still like it', () => {
  let ab = 0
  let aa = 0
  for (let m = 1; m < 50; m++) {
    const error = (h: number) => grown.airTempC[m * 240 + h]! - forecast.airTempC[h]!
    for (let h = 96; h < 200; h++) {
      ab += error(h) * error(h + 24)
      aa += error(h) ** 2
    }
  }
  expect(ab / aa).toBeGreaterThan(0.45)
})

test('unknown hours stay unknown and do not reach their neighbours', () => {
  const arrays = unknownWeatherArrays(1, 240)
  for (const name of WEATHER_VARIABLES) {
    arrays[name].set(forecast[name])
    arrays[name].fill(Number.NaN, 50, 60)
  }
  const made = growMembers({ ...forecast, ...arrays }, options)
  for (const name of ['airTempC', 'relHumidity', 'windMs', 'solarWm2'] as const)
    for (let m = 0; m < 50; m++)
      for (let h = 0; h < 240; h++) {
        const isKnown = !Number.isNaN(memberOf(made[name], m)[h]!)
        expect(isKnown, `${name} ${h}`).toBe(h < 50 || h >= 60)
      }
})

test('whatever the forecast, members are possible weather', () => {
  const hour = fc.record({
    airTempC: fc.double({ min: -50, max: 55, noNaN: true }),
    relHumidity: fc.double({ min: 0.02, max: 1, noNaN: true }),
    rainMm: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 200, noNaN: true })),
    windMs: fc.double({ min: 0, max: 60, noNaN: true }),
    windFromDeg: fc.double({ min: 0, max: 359, noNaN: true }),
    solarWm2: fc.double({ min: 0, max: 1200, noNaN: true }),
  })
  fc.assert(
    fc.property(
      fc.array(hour, { minLength: 1, maxLength: 60 }),
      fc.double({ min: -60, max: 66, noNaN: true }),
      fc.double({ min: 0, max: 300, noNaN: true }),
      (hours, latDeg, ageH) => {
        const arrays = unknownWeatherArrays(1, hours.length)
        for (const name of ['airTempC', 'relHumidity', 'rainMm', 'windMs', 'windFromDeg', 'solarWm2'] as const)
          arrays[name].set(hours.map((each) => each[name]))
        arrays.gustMs.set(hours.map(({ windMs }) => windMs * 1.5))
        const single = { ...forecast, ...arrays, hours: hours.length, place: { latDeg, lonDeg: 10, elevationM: 100 } }
        const made = growMembers(single, { ...options, members: 5, ageH })
        for (let i = 0; i < 5 * hours.length; i++) {
          expect(Math.abs(made.airTempC[i]!)).toBeLessThan(90)
          expect(made.relHumidity[i]!).toBeGreaterThanOrEqual(0)
          expect(made.relHumidity[i]!).toBeLessThanOrEqual(1)
          expect(made.rainMm[i]!).toBeGreaterThanOrEqual(0)
          expect(made.windMs[i]!).toBeGreaterThanOrEqual(0)
          expect(made.gustMs[i]!).toBeGreaterThanOrEqual(made.windMs[i]! * 0.99)
          expect(made.windFromDeg[i]!).toBeGreaterThanOrEqual(0)
          expect(made.windFromDeg[i]!).toBeLessThan(360.001)
          expect(made.solarWm2[i]!).toBeGreaterThanOrEqual(0)
          expect(made.solarWm2[i]!).toBeLessThanOrEqual(1500)
        }
      },
    ),
    { numRuns: 60 },
  )
})
