import { expect, it } from 'vitest'
import { sunlightUnder } from '#edges/sources/sky.ts'

// Kasten and Czeplak 1980 (Solar Energy 24:177-189): an overcast sky lets through a quarter of the clear-sky sunlight.
it('lets a quarter through an overcast sky, all through a clear one, nothing at night, nothing known without cloud', () => {
  const grid = { startEpochH: 20_000 * 24 + 6, hours: 24 }
  const place = { latDeg: 41, lonDeg: 0, elevationM: 0 }
  const under = (cloud: number) => sunlightUnder(new Float32Array(24).fill(cloud), place, grid)
  const noon = 6
  expect(under(1)[noon]! / under(0)[noon]!).toBeCloseTo(0.25, 5)
  expect(under(0)[18]).toBe(0)
  expect(under(Number.NaN)[18]).toBe(0)
  expect(under(Number.NaN)[noon]).toBeNaN()
})
