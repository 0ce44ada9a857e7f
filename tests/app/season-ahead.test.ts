import { beforeAll, describe, expect, it } from 'vitest'
import type { Day } from '#app/make-day.ts'
import type { EarlierYears } from '#app/ports.ts'
import { leftOver, type SeasonAhead, seasonOf } from '#app/season-ahead.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Weather } from '#core/units/weather.ts'
import { readRecordedWeather, recordedYears } from '#edges/sources/recorded/index.ts'
import { champaignAutumn } from '#tests/support/champaign.ts'
import { DEMO_NOW, type Demo, demoMorning, loadDemo } from '#tests/support/demo-day.ts'

const LATE_CORN = new Set(['lone-oak'])
const CREDIT = { source: 'recorded weather', attribution: '', licence: 'MIT', remarks: [] }

let demo: Demo
let day: Day
let years: EarlierYears
let season: SeasonAhead
beforeAll(async () => {
  demo = await loadDemo()
  day = demoMorning(demo)
  const recorded = demo.farm.weather.find((source) => source.kind === 'recorded')!
  if (recorded.kind !== 'recorded' || !recorded.years) throw new Error('The demo has no earlier years')
  const { years: file } = recorded
  years = recordedYears(() => readRecordedWeather(file, demo.farm.home, CREDIT))
  season = (await seasonOf(day, years, LATE_CORN))!
})

describe('the season ahead of the demo', () => {
  it('rests on the fourteen years before its autumn, and begins where the forecast ends', () => {
    expect([season.years, season.few]).toEqual([14, false])
    // Ten days from the morning of 30 September end in the morning of 10 October.
    expect(`${season.from} ${season.to}`).toBe('2010-10-11 2010-11-24')
  })

  it('has real dates for the late corn, in order, none before the forecast ends', () => {
    const [corn, ...others] = season.parts
    expect([corn!.partKey, others.length]).toEqual(['lone-oak', 0])
    const { early, middle, late, chance } = corn!.fit
    expect(chance).toBeGreaterThan(0.8)
    const inOrder = [season.from, early!, middle!, late!, season.to]
    for (let n = 1; n < inOrder.length; n++)
      expect(Temporal.PlainDate.compare(inOrder[n - 1]!, inOrder[n]!)).toBeLessThanOrEqual(0)
    expect(late!.since(early!).days).toBeGreaterThan(7)
    expect(Temporal.PlainDate.compare(corn!.ripe.early!, corn!.ripe.late!)).toBe(-1)
  })

  it('is the same each time', async () => {
    expect(await seasonOf(day, years, LATE_CORN)).toEqual(season)
  })

  it('never sees the future: what came afterwards, or in later years, changes nothing', async () => {
    const [from, to] = [1996, 2023]
    const autumns = Array.from({ length: to - from + 1 }, (_, n) => champaignAutumn(from + n))
    const asked = (all: readonly Weather[]): EarlierYears => {
      return async (request) => (await Promise.all(all.map((one) => recordedYears(() => one)(request)))).flat()
    }
    const upToNow = autumns.filter(({ startEpochH, hours }) => startEpochH + hours < DEMO_NOW)
    expect(upToNow).toHaveLength(14)
    const before = await seasonOf(day, asked(upToNow), LATE_CORN)
    const after = await seasonOf(day, asked(autumns), LATE_CORN)
    expect(before!.years).toBe(14)
    expect(after).toEqual(before)
  })

  it('wet years make it later than dry ones', async () => {
    const wet = await seasonOf(day, damper(years), LATE_CORN)
    const rank = (date: Temporal.PlainDate | undefined) => (date ? date.since(season.from).days : 999)
    expect(rank(wet!.parts[0]!.fit.late)).toBeGreaterThan(rank(season.parts[0]!.fit.late))
    expect(wet!.parts[0]!.fit.chance).toBeLessThanOrEqual(season.parts[0]!.fit.chance)
  })
})

/** Earlier years as they were, but damper. */
const damper =
  (from: EarlierYears): EarlierYears =>
  async (request) =>
    (await from(request)).map((weather) => ({
      ...weather,
      relHumidity: weather.relHumidity.map((value) => Math.min(1, value + 0.2)),
    }))

describe('what it is of interest for', () => {
  it('is what may be left over: all of it without a plan, of a plan what is not surely cut', () => {
    const keys = day.outlooks.map(({ part }) => part.key)
    expect([...leftOver({ outlooks: day.outlooks })]).toEqual(keys)
    const left = [
      { partKey: keys[0]!, chance: 0, meanHa: 0 },
      { partKey: keys[1]!, chance: 0.1, meanHa: 1 },
    ]
    const planned = { week: { left } } as unknown as NonNullable<Day['planned']>
    expect([...leftOver({ outlooks: day.outlooks, planned })]).toEqual(keys.slice(1))
  })
})

describe('without years', () => {
  it('nothing is guessed: no source of years, no year in it, no year that covers the season', async () => {
    expect(await seasonOf(day, undefined)).toBeUndefined()
    expect(await seasonOf(day, async () => [])).toBeUndefined()
    const short = champaignAutumn(2009)
    expect(await seasonOf(day, async () => [{ ...short, hours: 24 * 20 }])).toBeUndefined()
  })

  it('and without a part that stands there is nothing to tell', async () => {
    expect(await seasonOf(day, years, new Set(['no such part']))).toBeUndefined()
  })

  it('few years are told to be few', async () => {
    const three = await seasonOf(day, async (request) => (await years(request)).slice(0, 3), LATE_CORN)
    expect([three!.years, three!.few]).toEqual([3, true])
  })
})

it('keeps to the farm: an outfit that never works has no fit hours in any year', async () => {
  const idle: Farm = {
    ...demo.farm,
    outfits: demo.farm.outfits.map((outfit) => ({ ...outfit, daysOff: [1, 2, 3, 4, 5, 6, 7] })),
  }
  const none = await seasonOf({ ...day, farm: idle }, years, LATE_CORN)
  expect(none!.parts[0]!.fit).toMatchObject({ chance: 0, early: undefined, late: undefined })
})
