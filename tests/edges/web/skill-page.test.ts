import { describe, expect, it } from 'vitest'
import type { ForecastStore, KeptForecast } from '#app/forecasts-port.ts'
import { takeReading } from '#app/records.ts'
import type { Service } from '#app/service.ts'
import type { Reading } from '#core/field/reading.ts'
import { demoService } from './support/demo-service.ts'
import { siteOf } from './support/people.ts'

const service = await demoService()
const now = service.clock()

/** Ten values from 2 points below 13 to 2 above it, hour after hour. */
const kept: KeptForecast = {
  farmId: service.farm.id,
  partKey: 'mill-forty',
  crop: 'soybean',
  madeOn: Temporal.PlainDate.from('2010-09-28'),
  madeAtEpochH: now - 40,
  startEpochH: Math.floor(now) - 40,
  hours: 48,
  moistureWb: Float32Array.from({ length: 480 }, (_, i) => 11 + ((i % 10) * 4) / 9),
}
const forecasts = { forecasts: async () => [kept] }

async function withReadings(values: readonly number[], from: Pick<ForecastStore, 'forecasts'> = forecasts) {
  // A day of its own, so that no page made for another test is kept ready.
  const day = { ...(await service.current()) }
  const site = await siteOf({ ...service, current: async () => day }, { forecasts: from })
  const book = { farm: service.farm, store: site.records, nowEpochH: now }
  for (const [n, moistureWb] of values.entries()) {
    const at = now - 1 - n
    const told = { field: 'Mill Forty', instrument: { kind: 'hand' }, by: 'wim-tallow', moistureWb, at, key: `r${n}` }
    const answer = await takeReading(book, told as Parameters<typeof takeReading>[1])
    if (answer.kind === 'refused') throw new Error(JSON.stringify(answer))
  }
  return site
}

describe('skill', () => {
  it('says plainly that there is nothing yet', async () => {
    for (const options of [{}, { forecasts }]) {
      const site = await siteOf({ ...service, current: async () => ({ ...(await service.current()) }) }, options)
      const page = await (await site.as('crew', '/skill')).text()
      expect(page).toContain('<h1>Nothing to judge the forecasts by yet.</h1>')
      expect(page).not.toContain('<table')
      expect(page).toContain('None, as far as the readings tell.')
    }
  })

  it('shows bias, RMSE, coverage and CRPS by crop and lead', async () => {
    const site = await withReadings([12.5, 13.5])
    const page = await (await site.as('crew', '/skill')).text()
    expect(page).toContain(
      '<h1>Of late the forecasts of moisture were off by 0.5 points, as often too wet as too dry.</h1>',
    )
    expect(page).toContain('In the last two weeks 100% of 2 checks fell inside the 90% band.')
    expect(page).toContain('<h2>beans</h2>')
    // Half a point above and below the middle of 13: bias 0, RMSE 0.5, by their definitions.
    // CRPS = mean |x - y| - mean |x - x'| / 2 (Gneiting & Raftery 2007, eq. 21) over the ten values.
    const values = Array.from({ length: 10 }, (_, k) => 11 + (k * 4) / 9)
    const mean = (all: readonly number[]) => all.reduce((sum, one) => sum + one, 0) / all.length
    const crps =
      mean(values.map((x) => Math.abs(x - 12.5))) - mean(values.flatMap((x) => values.map((y) => Math.abs(x - y)))) / 2
    expect(page).toContain(
      `<th scope="row">1<small>2 checks</small></th>${['0.0', '0.5', '100%', '100%', crps.toFixed(2)].map((cell) => `<td class="amount">${cell}</td>`).join('')}`,
    )
    expect(page).not.toMatch(/NaN|undefined|<script(?! src="\/assets\/)|style=/)
  })

  it('says first that they were poor of late', async () => {
    const site = await withReadings(Array.from({ length: 10 }, () => 16))
    const page = await (await site.as('crew', '/skill')).text()
    expect(page).toContain('<h1>Of late the forecasts were poor: measure before you rely on them.</h1>')
    expect(page).toContain('In the last two weeks 0% of 10 checks')
    expect(page).toContain('were off by 3.0 points, too dry on the whole.')
    expect(page).toContain('<td class="amount">−3.0</td>')
  })

  it('names meters that are surely off, and readings that can hardly be so', async () => {
    const reading: Reading = {
      id: 'r1',
      partKey: 'mill-forty',
      atEpochH: now - 2,
      moistureWb: 24,
      instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 },
      who: 'wim-tallow',
    }
    const made = await service.current()
    const instruments = [
      { id: 'north', kind: 'combine', readings: 8, offsetWb: 1.24, sdWb: 0.3, setRight: true },
      { id: 'south', kind: 'combine', readings: 8, offsetWb: 0.1, sdWb: 0.3, setRight: false },
    ] as const
    const doubtful = [{ reading, wildChance: 0.9, expectedWb: 13, lowWb: 12, highWb: 14 }]
    const belief = { ...made.day!.belief, instruments, doubtful }
    const off: Service = { ...service, current: async () => ({ ...made, day: { ...made.day!, belief } }) }
    const site = await siteOf(off)
    const page = await (await site.as('crew', '/skill')).text()
    expect(page).toContain('the combine (north) reads 1.2 points too high, give or take 0.3; 8 readings')
    expect(page).not.toContain('south')
    expect(page).toMatch(/a hand meter, Mill Forty, Sep 30 \d+:\d\d: read 24\.0% where 12\.0% to 14\.0% was expected\./)
    expect(await (await site.as('spanish', '/skill')).text()).toContain('marca 1.2 puntos de más')
  })

  it('tries again after it could not be made', async () => {
    let fails = true
    const broken = {
      forecasts: async () => {
        if (fails) throw new Error('disk')
        return []
      },
    }
    const site = await withReadings([12.5], broken)
    expect((await site.as('crew', '/skill')).status).toBe(500)
    fails = false
    expect((await site.as('crew', '/skill')).status).toBe(200)
  })

  it('is linked from the fields', async () => {
    const site = await siteOf(service)
    expect(await (await site.as('crew', '/fields')).text()).toContain('href="/skill"')
  })
})
