import { describe, expect, it } from 'vitest'
import { savedBy, savedFromPlans } from '#app/saved.ts'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import { parseFarm } from '#edges/config/load.ts'
import { BASE } from '#tests/edges/config/base-farm.ts'

const { farm } = parseFarm(BASE, 'farm.yaml')
const date = (day: number, month = 9) => Temporal.PlainDate.from({ year: 2010, month, day })

/** A plan of a day, published at an hour of it, with what it and each rule would bring. */
function planned(
  on: Temporal.PlainDate,
  hour: number,
  value: number,
  rules: Record<string, number> | undefined,
  partKey = 'beta',
): PlanRecord {
  const publishedAtEpochH = on.toZonedDateTime('UTC').epochMilliseconds / 3_600_000 + hour
  const against = rules && Object.entries(rules).map(([rule, worth]) => ({ rule, value: worth, loss: 0 }))
  const plan = { day: { date: on, runs: [] }, value, visits: [{ outfitId: 'outfit', partKey }], later: [], against }
  return { publishedAtEpochH, reason: { kind: 'first' }, difference: undefined, plan } as unknown as PlanRecord
}

describe('what the plans saved', () => {
  it('is added up over the days, rule by rule, the best rule first', () => {
    const records = [
      planned(date(20), 5, 1000, { 'driest-first': 900, 'ripest-first': 700 }),
      planned(date(21), 5, 800, { 'driest-first': 820, 'ripest-first': 750 }),
      planned(date(22), 5, 500, { 'driest-first': 450 }),
    ]
    // By hand: 100 - 20 + 50 = 130 and 300 + 50 = 350.
    expect(savedBy(farm, records)).toEqual({
      from: date(20),
      to: date(22),
      days: 3,
      against: [
        { rule: 'driest-first', days: 3, money: 130 },
        { rule: 'ripest-first', days: 2, money: 350 },
      ],
    })
  })

  it('takes the first plan of each day: what comes later speaks of the rest of the day', () => {
    const morning = planned(date(20), 5, 1000, { 'driest-first': 900 })
    const noon = planned(date(20), 12, 990, { 'driest-first': 300 })
    for (const records of [
      [morning, noon],
      [noon, morning],
    ]) {
      expect(savedBy(farm, records)!.against).toEqual([{ rule: 'driest-first', days: 1, money: 100 }])
    }
  })

  it('is not known where no plan was priced, or only those of the year before', () => {
    expect(savedBy(farm, [])).toBeUndefined()
    expect(savedBy(farm, [planned(date(20), 5, 1000, undefined)])).toBeUndefined()
    expect(savedBy(farm, [planned(date(20), 5, Number.NaN, { 'driest-first': 900 })])).toBeUndefined()
    const lastYear = date(20).subtract({ years: 1 })
    expect(savedBy(farm, [planned(lastYear, 5, 1000, { 'driest-first': 900 })])).toBeUndefined()
    expect(savedBy(farm, [planned(date(20), 5, 1000, { 'driest-first': 900 }, 'sold-since')])).toBeUndefined()
  })

  it('reads as many plans as the season has, page by page', async () => {
    const days = Array.from({ length: 130 }, (_, n) => date(1, 6).add({ days: n }))
    const records = days.map((on) => planned(on, 5, 10, { 'driest-first': 9 })).reverse()
    let asked = 0
    const plans = {
      history: (_: string, most: number, before = Number.MAX_VALUE) => {
        asked++
        return Promise.resolve(records.filter(({ publishedAtEpochH }) => publishedAtEpochH < before).slice(0, most))
      },
    }
    const saved = await savedFromPlans(farm, plans, date(9, 10))
    expect(saved).toMatchObject({ days: 130, against: [{ money: 130 }] })
    expect(asked).toBe(3)
  })
})
