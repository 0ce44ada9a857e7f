import fc from 'fast-check'
import { expect, test } from 'vitest'
import { MEASURABLE_MM, rainBlocks, usualBlockChance } from '#core/science/spread/rain-blocks.ts'
import { AIRPORTS, airportAutumn } from '#tests/support/newark.ts'

const dry = (hours: number) => new Float32Array(hours)
const options = { usualRainDayShare: 0.29, ageH: 0 }

function blockShare(rainMm: Float32Array, hours: number): number {
  let wet = 0
  let blocks = 0
  for (let h = 0; h + hours <= rainMm.length; h += hours) {
    const total = rainMm.subarray(h, h + hours).reduce((sum, mm) => sum + (mm || 0), 0)
    if (total >= MEASURABLE_MM) wet++
    blocks++
  }
  return wet / blocks
}

test('shorter blocks are wet less often, as at three airports', () => {
  const rains = AIRPORTS.map((airport) => airportAutumn(airport).weather.rainMm)
  const mean = (hours: number) => rains.reduce((sum, rain) => sum + blockShare(rain, hours), 0) / rains.length
  for (const hours of [3, 6, 12])
    expect(Math.abs(usualBlockChance(mean(24), hours) - mean(hours)), `${hours} h`).toBeLessThan(0.02)
})

test('a chance that the source says stands, in blocks of the length it says', () => {
  const popPct = Float32Array.from({ length: 30 }, (_, h) => (h < 8 ? 40 : h < 20 ? 70 : Number.NaN))
  const popBlockH = Float32Array.from({ length: 30 }, (_, h) => (h < 8 ? 6 : h < 20 ? 12 : Number.NaN))
  const blocks = rainBlocks(dry(30), { ...options, chances: { popPct, popBlockH } })
  const said = blocks.filter(({ toH }) => toH <= 20)
  expect(said.map(({ fromH, toH }) => [fromH, toH])).toEqual([
    [0, 2],
    [2, 8],
    [8, 20],
  ])
  expect(said[1]!.chance).toBeCloseTo(0.4, 6)
  expect(said[2]!.chance).toBeCloseTo(0.7, 6)
  // Two of its six hours are left: less than the whole chance.
  expect(said[0]!.chance).toBeCloseTo(1 - 0.6 ** (1 / 3), 6)
})

test('a said amount is kept in the mean: amount if wet, times the chance, is the amount', () => {
  const rainMm = dry(6).fill(0.5)
  const chances = { popPct: dry(6).fill(60), popBlockH: dry(6).fill(6) }
  const [block] = rainBlocks(rainMm, { ...options, chances })
  expect(block!.chance * block!.amountMm).toBeCloseTo(3, 4)
})

test('without a said chance, a called rain is likely, less so later, and never sure', () => {
  const chanceAt = (startH: number) => {
    const rainMm = dry(240)
    rainMm.fill(1, startH, startH + 6)
    return rainBlocks(rainMm, options).find(({ fromH }) => fromH === startH)!.chance
  }
  expect(chanceAt(12)).toBeGreaterThan(0.6)
  expect(chanceAt(12)).toBeLessThan(0.9)
  expect(chanceAt(96)).toBeLessThan(chanceAt(12))
  expect(chanceAt(216)).toBeCloseTo(usualBlockChance(0.29, 6), 1)
})

test('a dry forecast keeps a chance of rain, small at first', () => {
  const blocks = rainBlocks(dry(240), options)
  expect(blocks[0]!.chance).toBeLessThan(0.05)
  expect(blocks.at(-1)!.chance).toBeLessThan(usualBlockChance(0.29, 6))
  expect(blocks.at(-1)!.chance).toBeGreaterThan(0.8 * usualBlockChance(0.29, 6))
})

test('rain that is not known has no chance unless the source says one', () => {
  const unknown = dry(12).fill(Number.NaN)
  for (const block of rainBlocks(unknown, options)) expect(block.chance).toBeNaN()
  const chances = { popPct: dry(12).fill(30), popBlockH: dry(12).fill(6) }
  for (const block of rainBlocks(unknown, { ...options, chances })) expect(block.chance).toBeCloseTo(0.3, 6)
})

test('blocks follow each other without a gap and chances stay within 0 and 1', () => {
  const hour = fc.record({
    rain: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 60, noNaN: true }), fc.constant(Number.NaN)),
    pop: fc.oneof(fc.integer({ min: 0, max: 100 }), fc.constant(Number.NaN)),
    block: fc.constantFrom(1, 3, 6, 12, Number.NaN),
  })
  fc.assert(
    fc.property(
      fc.array(hour, { minLength: 1, maxLength: 80 }),
      fc.double({ min: 0, max: 96, noNaN: true }),
      (hours, ageH) => {
        const chances = {
          popPct: Float32Array.from(hours, ({ pop }) => pop),
          popBlockH: Float32Array.from(hours, ({ block }) => block),
        }
        let at = 0
        for (const block of rainBlocks(
          Float32Array.from(hours, ({ rain }) => rain),
          { usualRainDayShare: 0.29, ageH, chances },
        )) {
          expect(block.fromH).toBe(at)
          expect(block.toH).toBeGreaterThan(at)
          at = block.toH
          if (Number.isNaN(block.chance)) continue
          expect(block.chance).toBeGreaterThanOrEqual(0)
          expect(block.chance).toBeLessThanOrEqual(1)
          expect(block.fromForecast).toBeGreaterThanOrEqual(0)
          expect(block.fromForecast).toBeLessThanOrEqual(1)
          expect(block.amountMm).toBeGreaterThanOrEqual(0)
        }
        expect(at).toBe(hours.length)
      },
    ),
  )
})
