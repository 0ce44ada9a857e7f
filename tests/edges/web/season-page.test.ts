import { beforeAll, describe, expect, it } from 'vitest'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import type { WebOptions } from '#edges/web/app.ts'
import { demoService } from './support/demo-service.ts'
import { type Site, siteOf } from './support/people.ts'
import { type ToldSeason, toldSeason } from './support/told-season.ts'

const ACRES_PER_HA = 2.4710538
/** A plan of 1 October, priced: nothing else of it is looked at. */
const PRICED = {
  publishedAtEpochH: 357_218,
  plan: {
    day: { date: Temporal.PlainDate.from('2010-10-01'), runs: [] },
    value: 10_000,
    visits: [{ outfitId: 'main-outfit', partKey: 'dry-slough' }],
    later: [],
    against: [
      { rule: 'nearest-first', value: 9_100, loss: 0 },
      { rule: 'driest-first', value: 9_654, loss: 0 },
    ],
  },
} as unknown as PlanRecord

let told: ToldSeason
const siteWith = async (options: WebOptions = {}): Promise<Site> =>
  await siteOf(told.service, { forecasts: told.forecasts, ...options }, undefined, { records: told.records })
const plansOf = (records: readonly PlanRecord[]) => ({ plans: { history: () => Promise.resolve(records) } })
let site: Site
let page: string
beforeAll(async () => {
  told = await toldSeason()
  site = await siteWith()
  page = await (await site.as('crew', '/season')).text()
}, 60_000)

describe('the season', () => {
  it('says first how much is off, as the farm file and the told cuts add up', () => {
    // Told: 39 + 60 + 56 + 90 + 110 + 20 acres. Of the file: 150.7, 139.7, 313.2 and 58 acres cut, as `npm run check` says.
    const acres = 39 + 60 + 56 + 90 + 110 + 20 + 150.7 + 139.7 + 313.2 + 58
    const heading = /<h1>([\d,]+) of 2,182 acres are off, (\d+)%\.<\/h1>/.exec(page)!
    expect(Number(heading[1]!.replace(',', ''))).toBeCloseTo(acres, -0.5)
    expect(Number(heading[2])).toBe(Math.round((100 * acres) / 2182.5))
  })

  it('says of each crop what is left and when it is likely done, and of a finished one when it was', async () => {
    const { day } = await told.service.current()
    const { later } = day!.planned!.week
    const lastSeen = later
      .map(({ date }) => date)
      .toSorted(Temporal.PlainDate.compare)
      .at(-1)!
    expect(page).toMatch(/Beans: 645 of 1,657 acres off; (likely done by|about \d+ acres likely still stand after) /)
    expect(page).toContain(`October ${lastSeen.day}`)
    expect(page).toContain('Wheat: all 58 acres off since Saturday, July 3.')
  })

  it('draws a bar for each day on which something was cut, and says the same in words', async () => {
    const beans = /<svg class="ribbon season"[^>]*aria-label="beans: ([^"]*)"(.*?)<\/svg>(?=<\/li>)/s.exec(page)!
    // Fields of the file on 18 and 20 September, told cuts on 29 and 30 September and 1 October.
    expect(beans[2]!.match(/<rect class="grain-/g)).toHaveLength(5)
    expect(beans[2]!.match(/<rect class="grain-fit/g)).toHaveLength(3)
    expect(beans[2]!.match(/<rect class="grain-unknown/g)).toHaveLength(2)
    expect(beans[1]).toMatch(
      /645 of 1,657 acres off by Saturday, October 2, 39%; most on one day 200 acres, Friday, October 1/,
    )
    const { day } = await told.service.current()
    const fields = new Set(told.service.farm.fields.filter(({ crop }) => crop === 'soybean').map(({ id }) => id))
    const expected = day!.planned!.week.later.filter(
      ({ partKey, meanHa }) => fields.has(partKey.split('/')[0]!) && meanHa > 0,
    )
    const days = new Set(expected.map(({ date }) => date.toString()))
    expect(beans[2]!.match(/class="expected"/g)).toHaveLength(days.size)
    expect(page).not.toMatch(/NaN|Infinity/)
  })

  it('lists the loads with weight and moisture as told, newest first', () => {
    const rows = [...page.matchAll(/<tr><th scope="row">(\w+ \d+ \d+:\d\d)<small>([^<]*)<\/small><\/th>(.*?)<\/tr>/gs)]
    expect(rows.map(([, when, place]) => `${when} ${place}`)).toEqual([
      'Oct 1 19:30 Dry Slough',
      'Oct 1 15:00 Dry Slough',
      'Sep 30 17:10 Twin Elms',
      'Sep 30 13:40 Twin Elms',
      'Sep 29 18:00 Mill Forty',
    ])
    expect(rows[1]![3]).toMatch(/90 acres.*4,500 bu.*13\.6%/s)
    expect(rows[0]![3]).toMatch(/110 acres.*–.*11\.2%/s)
  })

  it('says what the plans saved against the best of the rules, and that it is not known where none was priced', async () => {
    expect(page).toContain('Not known yet: no plan of this season has been held against the simple rules.')
    const priced = await (await (await siteWith(plansOf([PRICED]))).as('crew', '/season')).text()
    expect(priced).toContain(
      'The plans were expected to bring $346 more than the best simple rule, driest first, on Friday, October 1.',
    )
    expect(priced).toMatch(/nearest first<\/th><td class="amount">1<\/td><td class="amount">\$900/)
    const worse = { ...PRICED, plan: { ...PRICED.plan, value: 9_600 } }
    const lost = await (await (await siteWith(plansOf([worse]))).as('crew', '/season')).text()
    expect(lost).toContain(
      'The best simple rule, driest first, was expected to bring $54 more than the plans, on Friday',
    )
  })

  it('says how good the forecasts were, by the readings told', () => {
    // Creek Bottom on 29 September by the mornings of the 28th and 29th; on 1 October, for it, the slump and Dry Slough
    // each by those of the 29th, 30th and 1st.
    expect(page).toMatch(/off by \d\.\d points \(root mean square of 11 checks\); \d+% fell inside the 90% band/)
  })

  it('is told in Spanish, and in hectares and tonnes where the farm counts so', async () => {
    expect(await (await site.as('spanish', '/season')).text()).toMatch(
      /<h1>Van 1,0\d\d de 2,182 acres, el 4\d%\.<\/h1>/,
    )
    const metric = { ...told.service, farm: { ...told.service.farm, units: 'metric' as const } }
    const made = await told.service.current()
    const day = made.day && { ...made.day, farm: { ...made.day.farm, units: 'metric' as const } }
    const current = () => Promise.resolve({ ...made, day, message: { ...made.message, units: 'metric' as const } })
    const there = await siteOf({ ...metric, current }, {}, undefined, { records: told.records })
    const text = await (await there.as('crew', '/season')).text()
    expect(text).toMatch(/<h1>\d+ of 883 ha are off/)
    // 4,500 bushels at 60 lb are 122.5 t.
    expect(text).toContain('122.5 t')
  })

  it('stands on the morning of the demo, with nothing told and no plan', async () => {
    const bare = await siteOf(await demoService())
    const text = await (await bare.as('crew', '/season')).text()
    const cut = told.service.farm.fields.filter(({ cutOn }) => cutOn).reduce((sum, { areaHa }) => sum + areaHa, 0)
    expect(text).toContain(`<h1>${Math.round(cut * ACRES_PER_HA)} of 2,182 acres are off`)
    expect(text).toContain('when it is done is not known yet')
    expect(text).toContain('No load has been told')
  })

  it('stands without weather', async () => {
    const none = await siteOf(await demoService({ noWeather: true }))
    const answer = await none.as('crew', '/season')
    expect(answer.status).toBe(200)
    expect(await answer.text()).toMatch(/<h1>662 of 2,182 acres are off/)
  })
})
