import { expect, it } from 'vitest'
import { departFrom } from '#core/field/filter/depart.ts'
import { DEPARTURE_SD_WB } from '#core/field/filter/reading-error.ts'
import { UNRIPE } from '#core/field/standing.ts'
import type { PartState } from '#core/field/state.ts'
import { emptySeries } from '#core/science/engine/courses.ts'
import { testPart } from '#tests/support/fields.ts'

const COUNT = 4000
const stateAt = (moistureWb: number): PartState => ({
  part: testPart(),
  particles: Array.from({ length: COUNT }, () => ({
    matureEpochH: 0,
    moistureAtMaturityWb: 57,
    dryingFactor: 1,
    exchangeHours: 13,
    equilibriumOffsetWb: 0.3,
  })),
  moistureWb: new Float32Array(COUNT).fill(moistureWb),
  depletionMm: new Float32Array(COUNT),
  standing: Array.from({ length: COUNT }, () => UNRIPE),
  past: emptySeries(COUNT, 0),
})
const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
const sdOf = (values: readonly number[]) => Math.sqrt(meanOf(values.map((value) => (value - meanOf(values)) ** 2)))

it('sets ripe particles off by as much as their rest, by chance, none on the whole', () => {
  const { particles, moistureWb } = departFrom(stateAt(12))
  const offsets = particles.map(({ equilibriumOffsetWb }) => equilibriumOffsetWb - 0.3)
  expect(Math.abs(meanOf(offsets))).toBeLessThan((4 * DEPARTURE_SD_WB) / Math.sqrt(COUNT))
  expect(Math.abs(sdOf(offsets) / DEPARTURE_SD_WB - 1)).toBeLessThan(4 / Math.sqrt(2 * COUNT))
  for (const [p, offset] of offsets.entries()) expect(moistureWb[p]! - 12).toBeCloseTo(offset, 4)
})

it('leaves green grain where it is, and is the same for the same part', () => {
  const green = departFrom(stateAt(40))
  expect(green.moistureWb.every((wb) => wb === 40)).toBe(true)
  expect(sdOf(green.particles.map(({ dryingFactor }) => dryingFactor))).toBeGreaterThan(0.03)
  expect(departFrom(stateAt(12))).toEqual(departFrom(stateAt(12)))
})
