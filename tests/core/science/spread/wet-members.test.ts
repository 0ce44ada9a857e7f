import { expect, test } from 'vitest'
import { MEASURABLE_MM, type RainBlock } from '#core/science/spread/rain-blocks.ts'
import { rainInto, wetMembers } from '#core/science/spread/wet-members.ts'
import { seededRandom } from '#core/units/random.ts'
import { AIRPORTS, airportAutumn } from '#tests/support/newark.ts'

const blockAt = (index: number, chance: number): RainBlock => ({
  fromH: 6 * index,
  toH: 6 * index + 6,
  chance,
  fromForecast: 0,
  amountMm: 3,
})
const dice = (members: number) => Array.from({ length: members }, (_, m) => seededRandom(11 + m))

test('as many members are wet as the chance says, to within one', () => {
  const blocks = Array.from({ length: 40 }, (_, b) => blockAt(b, b / 39))
  const wet = wetMembers(blocks, dice(50), seededRandom(1))
  for (const [b, { chance }] of blocks.entries()) {
    const count = wet.subarray(b * 50, b * 50 + 50).reduce((sum, one) => sum + one, 0)
    expect(Math.abs(count - 50 * chance)).toBeLessThan(1)
  }
})

test('an unknown chance makes nobody wet', () => {
  expect(wetMembers([blockAt(0, Number.NaN)], dice(20), seededRandom(1)).some((one) => one === 1)).toBe(false)
})

test('the first member is wet where most are', () => {
  const blocks = Array.from({ length: 60 }, (_, b) => blockAt(b, b % 2 === 0 ? 0.7 : 0.3))
  const wet = wetMembers(blocks, dice(50), seededRandom(2))
  for (const b of blocks.keys()) expect(wet[b * 50]).toBe(b % 2 === 0 ? 1 : 0)
})

test('wet blocks come in spells, as at three airports', () => {
  // Correlation of wet six-hour blocks with the next one, true hourly rain (tests/fixtures/newark).
  const stations = AIRPORTS.map((airport) => {
    const { rainMm } = airportAutumn(airport).weather
    const flags: number[] = []
    for (let h = 0; h + 6 <= rainMm.length; h += 6)
      flags.push(rainMm.subarray(h, h + 6).reduce((sum, mm) => sum + (mm || 0), 0) >= MEASURABLE_MM ? 1 : 0)
    return next(flags)
  })
  const blocks = Array.from({ length: 400 }, (_, b) => blockAt(b, 0.1))
  const wet = wetMembers(blocks, dice(50), seededRandom(3))
  const ours: number[] = []
  for (let m = 1; m < 50; m++) ours.push(next(blocks.map((_, b) => wet[b * 50 + m]!)))
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
  expect(mean(ours)).toBeGreaterThan(Math.min(...stations) - 0.05)
  expect(mean(ours)).toBeLessThan(Math.max(...stations) + 0.05)
})

function next(flags: readonly number[]): number {
  const share = flags.reduce((sum, flag) => sum + flag, 0) / flags.length
  let product = 0
  for (let i = 1; i < flags.length; i++) product += (flags[i]! - share) * (flags[i - 1]! - share)
  return product / (flags.length - 1) / (share * (1 - share))
}

test('uncalled rain has as many hours and as much water as at three airports', () => {
  const hoursPerBlock: number[] = []
  const amounts: number[] = []
  for (const airport of AIRPORTS) {
    const { rainMm } = airportAutumn(airport).weather
    for (let h = 0; h + 6 <= rainMm.length; h += 6) {
      const block = rainMm.subarray(h, h + 6)
      const total = block.reduce((sum, mm) => sum + (mm || 0), 0)
      if (total < MEASURABLE_MM) continue
      hoursPerBlock.push(block.filter((mm) => mm >= MEASURABLE_MM).length)
      amounts.push(total)
    }
  }
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
  const random = seededRandom(5)
  const ours = Array.from({ length: 4000 }, () => {
    const out = new Float32Array(6)
    rainInto(blockAt(0, 0.1), new Float32Array(6), 3, out, 0, random)
    return out
  })
  const wetHours = ours.map((block) => block.filter((mm) => mm > 0).length)
  const totals = ours.map((block) => block.reduce((sum, mm) => sum + mm, 0))
  // Airports: 2.3 wet hours and 4.6 mm in a wet block.
  expect(Math.abs(mean(wetHours) - mean(hoursPerBlock))).toBeLessThan(0.4)
  expect(mean(totals) / mean(amounts)).toBeGreaterThan(0.85)
  expect(mean(totals) / mean(amounts)).toBeLessThan(1.2)
  expect(Math.min(...totals)).toBeGreaterThanOrEqual(MEASURABLE_MM * 0.999)
})

test('called rain falls in the hours of the forecast, where it names hours', () => {
  const rainMm = Float32Array.from([0, 0, 4, 2, 0, 0])
  const out = new Float32Array(6)
  rainInto({ ...blockAt(0, 1), fromForecast: 1, amountMm: 6 }, rainMm, 0, out, 0, seededRandom(4))
  expect(Array.from(out, (mm) => mm > 0)).toEqual([false, false, true, true, false, false])
  expect(out[2]! / out[3]!).toBeCloseTo(2, 5)
})

test('no draw of a hundred thousand rains more than any sky has: 305 mm in an hour (World Meteorological Organization)', () => {
  const random = seededRandom(11)
  let wettestHourMm = 0
  let wettestBlockMm = 0
  const draw = (block: Parameters<typeof rainInto>[0], rainMm: Float32Array) => {
    const out = new Float32Array(6)
    rainInto(block, rainMm, 9, out, 0, random)
    wettestHourMm = Math.max(wettestHourMm, ...out)
    return out.reduce((sum, mm) => sum + mm, 0)
  }
  for (let n = 0; n < 100_000; n++)
    wettestBlockMm = Math.max(wettestBlockMm, draw(blockAt(0, 0.1), new Float32Array(6)))
  // Uncalled rain has 4.6 mm in the mean and 1.4 for the sd of its logarithm: three sd out are 115 mm.
  expect(wettestBlockMm).toBeGreaterThan(80)
  expect(wettestBlockMm).toBeLessThanOrEqual(4.6 * Math.exp(3 * 1.4 - 0.98) + 0.01)
  for (let n = 0; n < 1000; n++) {
    draw({ ...blockAt(0, 1), fromForecast: 1, amountMm: 600 }, Float32Array.of(300, 0, 0, 0, 0, 300))
  }
  expect(wettestHourMm).toBeLessThanOrEqual(305)
})
