import { describe, expect, test } from 'vitest'
import { apartMarkdown, compare, comparisonMarkdown, comparisonSvg, type Year } from '#app/replay/compare.ts'
import { foresightPolicy, SIMPLE_POLICIES } from '#app/replay/policies.ts'
import { runSeason, seasonBound } from '#app/replay/run-season.ts'
import { makeSeason } from '#app/replay/season.ts'
import { fillGaps } from '#core/field/gaps.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { champaignAutumn } from '#tests/support/champaign.ts'
import { smallFarm, smallField, smallOutfit } from '#tests/support/small-outlook.ts'

const year = 2010
const firstDay = Temporal.PlainDate.from({ year, month: 9, day: 10 })
const planted = (month: number, day: number) => Temporal.PlainDate.from({ year, month, day })
const fields = [
  smallField('early', { plantedOn: planted(4, 28), maturityGroup: 2.4, areaHa: 60 }),
  smallField('late', {
    plantedOn: planted(5, 25),
    maturityGroup: 3.2,
    areaHa: 60,
    centre: { latDeg: 40.1, lonDeg: -88 },
  }),
]
const farm = smallFarm(fields, [smallOutfit('outfit')])
const weather = fillGaps(champaignAutumn(year)).weather
const season = makeSeason({ farm, weather, firstDay, seed: 1 })
const morning = (day: number) =>
  Math.floor(firstDay.add({ days: day }).toZonedDateTime('America/Chicago').epochMilliseconds / 3_600_000) + 5

describe('a season replayed', () => {
  test('a morning sees nothing of the weather beyond its forecast', () => {
    const now = morning(12)
    const beyond = now + 10 * HOURS_PER_DAY + 1 - weather.startEpochH
    const other: Weather = {
      ...weather,
      airTempC: weather.airTempC.map((value, h) => (h >= beyond ? value - 15 : value)),
    }
    const keys = new Set(['early', 'late'])
    const [a, b] = [season, makeSeason({ farm, weather: other, firstDay, seed: 1 })].map((one) =>
      one.outlooksOn(now, keys),
    )
    expect(b!.map(({ moistureWb }) => moistureWb)).toEqual(a!.map(({ moistureWb }) => moistureWb))
    expect(b!.map(({ holdbackBits }) => holdbackBits)).toEqual(a!.map(({ holdbackBits }) => holdbackBits))
  })

  test('what is true is not among what is believed, and the truth differs from the forecast', () => {
    const [outlook] = season.outlooksOn(morning(12), new Set(['early']))
    const truth = season.truth.find(({ part }) => part.key === 'early')!
    const offset = outlook!.startEpochH - truth.startEpochH
    const same = Array.from({ length: outlook!.courses }, (_, c) =>
      truth.moistureWb
        .subarray(offset, offset + 48)
        .every((wb, h) => wb === outlook!.moistureWb[c * outlook!.hours + h]),
    )
    expect(same.some(Boolean)).toBe(false)
  })

  test('all policies harvest the same fields; none beats the bound of the season', { timeout: 60_000 }, async () => {
    const foresight = foresightPolicy(undefined)
    const results = await runSeason(season, [...SIMPLE_POLICIES, foresight])
    const bound = await seasonBound(season, undefined)
    expect(results).toHaveLength(6)
    for (const { money, leftHa } of results) {
      expect(leftHa).toBeLessThanOrEqual(120)
      expect(money).toBeGreaterThan(0)
      // Block means against single hours: a crew may by chance do a little better in a block than its mean.
      expect(money).toBeLessThanOrEqual(bound * 1.01)
    }
  })
})

describe('years compared', () => {
  const result = (policy: string, money: number) => ({ policy, money, leftHa: 0, doneOn: firstDay, roadH: 10 })
  const years: Year[] = [
    {
      year: 2001,
      bound: 120,
      apart: [result('me and more', 98)],
      results: [result('a', 80), result('b', 90), result('me', 95), result('best', 100)],
    },
    {
      year: 2002,
      bound: 120,
      apart: [],
      results: [result('a', 90), result('b', 80), result('me', 85), result('best', 100)],
    },
  ]
  const comparison = compare(years, 'me', 'best')

  test('worked by hand: 15 of 20 and 5 of 20 captured; better than the best rule once', () => {
    expect(comparison.captured).toBeCloseTo(0.5, 9)
    expect(comparison.capturedOfSums).toBeCloseTo(0.5, 9)
    expect(comparison.betterThanBestRule).toBe(1)
  })

  test('what is short is taken apart in the years that have it: 5 of the planner, 2 with more known', () => {
    const thousands = years.map((year) => ({
      ...year,
      results: year.results.map((one) => ({ ...one, money: 1000 * one.money })),
      apart: year.apart.map((one) => ({ ...one, money: 1000 * one.money })),
    }))
    const text = apartMarkdown(thousands, 'me', 'best').replaceAll(' ', '')
    expect(apartMarkdown(years.slice(1), 'me', 'best')).toBe('')
    expect(text).toContain('|knows|mean|2001|')
    expect(text).toContain('|me|5.0|5.0|')
    expect(text).toContain('|meandmore|2.0|2.0|')
  })

  test('the table has a row for each policy and year, the picture a mark', () => {
    const text = comparisonMarkdown(years, comparison, [])
    expect(text.match(/^\| (a|b|me|best) \|/gm)).toHaveLength(4)
    expect(text).toContain('50.0 %')
    const svg = comparisonSvg(years, comparison)
    expect(svg.match(/<circle/g)).toHaveLength(6)
    expect(svg).not.toContain('NaN')
  })
})
