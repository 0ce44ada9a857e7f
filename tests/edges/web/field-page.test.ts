import { beforeAll, describe, expect, it } from 'vitest'
import { decide } from '#app/decisions.ts'
import { moisturePast } from '#app/moisture-past.ts'
import { toldOfField } from '#app/told-of-field.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import { asked, type Site, siteOf } from './support/people.ts'
import { type ToldSeason, toldSeason } from './support/told-season.ts'

let told: ToldSeason
let site: Site
let page: string
beforeAll(async () => {
  told = await toldSeason()
  site = await siteOf(told.service, { forecasts: told.forecasts }, undefined, { records: told.records })
  page = await (await site.as('crew', '/fields/creek-bottom')).text()
}, 60_000)

const chartOf = (text: string) => /<svg class="moisture-chart".*?<\/svg>(?=\s*<ul class="key">)/s.exec(text)![0]
const numbers = (path: string) =>
  path
    .split(/[ML]/)
    .slice(1)
    .map((point) => point.split(' ').map(Number))

describe('the page of a field', () => {
  it('draws the past up to now and the days ahead as one line, on one scale of time', async () => {
    const { day } = await told.service.current()
    const outlook = day!.partOutlooks.find(({ part }) => part.key === 'creek-bottom')!
    const state = day!.states.find(({ part }) => part.key === 'creek-bottom')!
    const past = moisturePast(day!, state)!
    const chart = chartOf(page)
    const lines = [...chart.matchAll(/<path class="moisture" d="([^"]*)"/g)].map(([, path]) => numbers(path!))
    expect(lines).toHaveLength(2)
    // Counted by hand: past hours of all hours shown lie left of now.
    const now = (100 * past.hours) / (past.hours + outlook.hours)
    expect(lines[0]!.at(-1)![0]).toBeCloseTo(now, 1)
    expect(lines[1]!.at(-1)![0]).toBeCloseTo(100, 1)
    expect(Number(/<line class="now" x1="([\d.]+)%"/.exec(chart)![1])).toBeCloseTo(now, 1)
    // Wetter is higher: the past of a drying field runs down to where it is now.
    expect(lines[0]![0]![1]!).toBeLessThan(lines[0]!.at(-1)![1]!)
    expect(page).not.toMatch(/NaN|Infinity/)
  })

  it('names who told, though he joined and stands in no farm file', async () => {
    const reading = { field: 'long-eighty', moistureWb: 14.5, instrument: { kind: 'hand' } }
    expect((await asked(site, 'crew', 'POST /api/readings', reading)).status).toBe(201)
    expect(await (await site.as('crew', '/fields/long-eighty')).text()).toContain('14.5%, a hand meter, Cal Crew</li>')
  })

  it('shows the readings of the part as dots where and when they were read, those of no other part', async () => {
    const chart = chartOf(page)
    const dots = [
      ...chart.matchAll(/<circle class="reading( doubted)?" cx="([\d.]+)%" cy="([\d.]+)" r="4.5"><title>([^<]*)/g),
    ]
    expect(dots.map(([, , , , text]) => text)).toEqual([
      'Oct 1 14:00: 12.6%, a hand meter',
      'Sep 29 15:00: 14.2%, a hand meter',
    ])
    const [later, earlier] = dots.map(([, , x, y]) => ({ x: Number(x), y: Number(y) }))
    expect(later!.x).toBeGreaterThan(earlier!.x)
    expect(later!.y).toBeGreaterThan(earlier!.y)
    // The band lies from 10 to 13 %, so that its edges give the scale: 12.6 stands within it.
    const band = /<rect class="band-ground"[^>]*y="([\d.]+)" height="([\d.]+)"/.exec(chart)!
    const [top, height] = [Number(band[1]), Number(band[2])]
    expect(later!.y).toBeCloseTo(top + (height * (13 - 12.6)) / 3, 0)
  })

  it('says when the next window is, and folds the patches', async () => {
    const { day } = await told.service.current()
    const outlook = day!.partOutlooks.find(({ part }) => part.key === 'creek-bottom')!
    expect(outlook.windows.length).toBeGreaterThan(0)
    expect(page).toMatch(
      /<p class="lede">Next window (today|\w+) \d+:\d\d–\d+:\d\d: holds \d in 10, [\d.]+–[\d.]+%\.<\/p>/,
    )
    expect(page.match(/<details class="part"><summary>/g)).toHaveLength(2)
    expect(page).toMatch(/<summary>The slump, wet hole, 7 acres: about [\d.]+% now, /)
  })

  it('says what was decided of it, by whom, and what is over', async () => {
    expect(page).toMatch(/cut on Tuesday, October 5<small>Wim Tallow/)
    expect(page).toMatch(/keep off from Saturday, October 2 to Sunday, October 3<small>Wim Tallow/)
    expect(page).not.toContain('(over)')
    const other = await (await site.as('crew', '/fields/dry-slough')).text()
    expect(other).toContain('Nothing: the plan is free to choose.')
    const { service, records } = told
    const made = await service.current()
    const later = {
      ...service,
      current: () =>
        Promise.resolve({ ...made, message: { ...made.message, date: made.message.date.add({ days: 2 }) } }),
    }
    const there = await siteOf(later, {}, undefined, { records })
    const text = await (await there.as('crew', '/fields/creek-bottom')).text()
    expect(text.match(/\(over\)/g)).toHaveLength(1)
  })

  it('says beside the window what binds the plan, the last word alone', async () => {
    expect(page).toContain(
      '<p class="next">Decided: cut on Tuesday, October 5; keep off from Saturday, October 2 to Sunday, October 3.</p>',
    )
    const { service } = told
    const { records } = await toldSeason()
    const book = { farm: service.farm, store: records, nowEpochH: service.clock() + 1 }
    const decided = async (change: PlanChange) => {
      expect(await decide(book, change, 'wim-tallow')).toMatchObject({ kind: 'kept' })
      const there = await siteOf(
        { ...service, current: async () => ({ ...(await service.current()) }) },
        {},
        undefined,
        {
          records,
        },
      )
      const text = await (await there.as('crew', '/fields/creek-bottom')).text()
      return /<p class="next">([^<]*)<\/p>/.exec(text)?.[1]
    }
    expect(await decided({ kind: 'allow', partKey: 'creek-bottom' })).toBe('Decided: cut on Tuesday, October 5.')
    expect(await decided({ kind: 'unpin', partKey: 'creek-bottom' })).toBeUndefined()
  })

  it('says how good the forecasts were here, by the readings of this field alone', async () => {
    // Two readings of the field and one of its slump, held against 2 + 3 + 3 mornings.
    expect(page).toMatch(/off by \d\.\d points \(root mean square of 8 checks\)/)
    const field = told.service.farm.fields.find(({ id }) => id === 'dry-slough')!
    const { skill, readings } = await toldOfField(told.service.farm.id, field, told.records, told.forecasts)
    expect([readings.length, skill!.count]).toEqual([1, 3])
    const none = await (await site.as('crew', '/fields/twin-elms')).text()
    expect(none).toContain('no reading of this field has been told that a forecast spoke of')
  })

  it('says what came off it', async () => {
    const slough = await (await site.as('crew', '/fields/dry-slough')).text()
    // 90 acres at 13.6 % on the scale and 110 acres at 11.2 % at the same yield.
    const moisture = ((90 * 13.6 + 110 * 11.2) / 200).toFixed(1)
    expect(slough).toContain(`200 of 373 acres, ${moisture}%`)
  })

  it('is told in Spanish', async () => {
    const text = await (await site.as('spanish', '/fields/creek-bottom')).text()
    expect(text).toMatch(/<p class="lede">Próxima ventana /)
    expect(text).toContain('cortar el martes, 5 de octubre')
  })
})
