import { describe, expect, it } from 'vitest'
import { Season } from '#edges/web/api/season-api.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { siteOf } from '#tests/edges/web/support/people.ts'
import { toldSeason } from '#tests/edges/web/support/told-season.ts'

describe('GET /api/season', () => {
  it('gives the season in the shape that it states, with what was told in it', async () => {
    const { service, records, forecasts } = await toldSeason()
    const site = await siteOf(service, { forecasts }, undefined, { records })
    const season = Season.parse(await (await site.as('crew', '/api/season')).json())
    expect(season).toMatchObject({ date: '2010-10-02', saved: null, skill: { readings: 11 } })
    expect(season.loads).toHaveLength(5)
    // 19:30 at the farm in October is CDT, UTC - 5 h.
    expect(season.loads[0]).toMatchObject({
      part: 'dry-slough',
      time: '2010-10-02T00:30:00Z',
      massT: null,
      moistureWb: 11.2,
    })
    const beans = season.crops.find(({ crop }) => crop === 'soybean')!
    expect(beans.days.map((day) => day.date)).toEqual([
      '2010-09-18',
      '2010-09-20',
      '2010-09-29',
      '2010-09-30',
      '2010-10-01',
    ])
    const off = beans.ahead!.days.reduce((sum, { meanHa }) => sum + meanHa, beans.cutHa)
    expect(off + beans.ahead!.leftHa).toBeCloseTo(beans.areaHa, 0)
  })

  it('answers without weather and without a book of forecasts', async () => {
    const site = await siteOf(await demoService({ noWeather: true }))
    const season = Season.parse(await (await site.as('crew', '/api/season')).json())
    expect(season).toMatchObject({ seenTo: null, loads: [], saved: null, skill: null })
  })
})
