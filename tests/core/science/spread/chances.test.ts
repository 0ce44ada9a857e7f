import { expect, test } from 'vitest'
import { saidSpread } from '#core/science/spread/chances.ts'

test('a said range is met at one in ten on each side', () => {
  // 1.2816: upper tenth of the standard normal law, any table.
  const spread = saidSpread(14, 12, 18)!
  expect(spread.middle).toBe(14)
  expect(spread.middle - 1.2816 * spread.down).toBeCloseTo(12, 6)
  expect(spread.middle + 1.2816 * spread.up).toBeCloseTo(18, 6)
})

test('a middle outside its range moves into it; a range that is none is not used', () => {
  expect(saidSpread(30, 10, 20)!.middle).toBe(15)
  expect(saidSpread(15, 20, 10)).toBeUndefined()
  expect(saidSpread(15, Number.NaN, 20)).toBeUndefined()
  expect(saidSpread(15, undefined, 20)).toBeUndefined()
})
