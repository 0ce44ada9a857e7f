import fc from 'fast-check'
import { expect, it } from 'vitest'
import { humidityPercent, notNegative, possibleTempC, windKmh } from '#core/science/fire/inputs.ts'

it('lets possible weather through', () => {
  // 1 m/s is 3.6 km/h by definition.
  expect(windKmh(1)).toBeCloseTo(3.6, 12)
  expect(humidityPercent(0.42)).toBe(42)
  expect(humidityPercent(1.005)).toBe(100)
  expect(possibleTempC(-40)).toBe(-40)
  expect(notNegative(0)).toBe(0)
})

it('takes everything else as unknown', () => {
  for (const bad of [Number.NaN, -0.01, 1.02, 42]) expect(humidityPercent(bad)).toBeNaN()
  for (const bad of [Number.NaN, -0.1]) expect(windKmh(bad)).toBeNaN()
  for (const bad of [Number.NaN, -91, 66, 293]) expect(possibleTempC(bad)).toBeNaN()
  for (const bad of [Number.NaN, -0.1]) expect(notNegative(bad)).toBeNaN()
  fc.assert(
    fc.property(fc.double(), (x) => {
      const percent = humidityPercent(x)
      expect(Number.isNaN(percent) || (percent >= 0 && percent <= 100)).toBe(true)
    }),
  )
})
