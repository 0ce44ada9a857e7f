import { expect, test } from 'vitest'
import { toBlockAndMember } from '#core/planning/optimiser/block-and-member.ts'

const X = Number.NaN

test('worked by hand: 10, 20 and 30 for the blocks, 5 up and 5 down for the members', () => {
  const values = Float64Array.of(15, 5, 25, 15, 35, 25)
  const left = Float64Array.of(8, 8)
  toBlockAndMember(values, left, 3, 3, 2)
  expect([...values]).toEqual([15, 5, 25, 15, 35, 25].map((value) => expect.closeTo(value, 6)))
  expect(left[0]! - left[1]!).toBeCloseTo(10, 6)
})

test('a block in which only the poor member is fit is not taken for a poor block', () => {
  const values = Float64Array.of(15, 5, 15, 5, X, 5)
  const left = Float64Array.of(0, 0)
  toBlockAndMember(values, left, 3, 3, 2)
  // The third block is worth as much as the first two: 5 to the poor member.
  expect(values[5]).toBeCloseTo(5, 1)
  expect(values[4]).toBeNaN()
})

test('a surprise in one member and block is shared out: nobody waits for it', () => {
  const values = Float64Array.of(10, 10, 10, 22)
  toBlockAndMember(values, Float64Array.of(0, 0), 2, 2, 2)
  expect(values[3]).toBeLessThan(22)
  expect(values[0]! + values[3]!).toBeCloseTo(values[1]! + values[2]!, 6)
})
