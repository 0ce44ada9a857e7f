import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import { Cut, FieldEvent } from '#edges/web/api/schemas.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { asked, siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()

describe('events', () => {
  it('are told once under their key, listed, and taken back', async () => {
    const site = await siteOf(service)
    const seen = { field: 'mill-forty', kind: 'regreened', laterDays: 4 }
    const first = await asked(site, 'crew', 'POST /api/events', seen, 'event-1')
    expect(first.status).toBe(201)
    const kept = FieldEvent.parse(await first.json())
    expect(kept).toMatchObject({ key: 'event-1', part: 'mill-forty', kind: 'regreened', laterDays: 4, by: 'cal-crew' })
    expect((await asked(site, 'crew', 'POST /api/events', seen, 'event-1')).status).toBe(200)
    expect(await (await asked(site, 'crew', 'GET /api/events')).json()).toEqual({ items: [kept], next: null })
    expect((await asked(site, 'crew', 'DELETE /api/events?key=event-1')).status).toBe(204)
    expect((await asked(site, 'crew', 'DELETE /api/events?key=event-1')).status).toBe(204)
    expect(await (await asked(site, 'crew', 'GET /api/events')).json()).toEqual({ items: [], next: null })
    expect((await asked(site, 'crew', 'DELETE /api/events?key=none')).status).toBe(404)
    const [record] = await site.records.history(service.farm.id, 'event')
    expect(record!.key).toBe('event-1')
  })

  it('without the days a green field needs are refused', async () => {
    const site = await siteOf(service)
    const told = { field: 'mill-forty', kind: 'regreened' }
    expect((await asked(site, 'crew', 'POST /api/events', told)).status).toBe(422)
  })
})

describe('corrections', () => {
  it('take the place of what they correct, once', async () => {
    const site = await siteOf(service)
    const reading = { field: 'mill-forty', moistureWb: 12, instrument: { kind: 'hand' } }
    await asked(site, 'crew', 'POST /api/readings', reading, 'first')
    const better = { ...reading, moistureWb: 12.5, replaces: 'first' }
    expect((await asked(site, 'crew', 'POST /api/readings', better, 'second')).status).toBe(201)
    const third = { ...reading, moistureWb: 13, replaces: 'first' }
    expect((await asked(site, 'crew', 'POST /api/readings', third, 'third')).status).toBe(409)
    const { items } = (await (await asked(site, 'crew', 'GET /api/readings')).json()) as { items: { key: string }[] }
    expect(items.map(({ key }) => key)).toEqual(['second'])
  })

  it('of a cut give back its area', async () => {
    const site = await siteOf(service)
    const cut = await asked(site, 'crew', 'POST /api/cuts', { field: 'mill-forty', done: true }, 'all of it')
    expect(Cut.parse(await cut.json()).done).toBe(true)
    expect((await asked(site, 'crew', 'DELETE /api/cuts?key=all%20of%20it')).status).toBe(204)
    expect((await asked(site, 'crew', 'POST /api/cuts', { field: 'mill-forty', areaHa: 2 })).status).toBe(201)
  })
})

describe('tables', () => {
  it('hold what was told, under the names of their columns, tickets by themselves', async () => {
    const site = await siteOf(service)
    const tell = (moistureWb: number, kind: string, id: string) =>
      asked(site, 'crew', 'POST /api/readings', { field: 'mill-forty', moistureWb, instrument: { kind, id } }, id)
    await tell(12.25, 'hand', '=cmd|calc')
    await tell(13, 'ticket', 'whistle-stop')
    const table = async (name: string) => {
      const response = await asked(site, 'crew', `GET /api/${name}.csv`)
      expect(response.headers.get('content-type')).toBe('text/csv; charset=utf-8; header=present')
      expect(response.headers.get('content-disposition')).toBe(`attachment; filename="${name}.csv"`)
      return parse(await response.text(), { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[]
    }
    const readings = await table('readings')
    expect(readings).toHaveLength(2)
    const hand = readings.find(({ instrument_kind }) => instrument_kind === 'hand')!
    expect(hand).toMatchObject({ key: "'=cmd|calc", part: 'mill-forty', moisture_wb: '12.25', by: 'cal-crew' })
    expect((await table('tickets')).map(({ moisture_wb }) => moisture_wb)).toEqual(['13'])
    await asked(site, 'crew', 'POST /api/cuts', { field: 'mill-forty', areaHa: 2, massT: 7 })
    expect(await table('cuts')).toMatchObject([{ area_ha: '2', done: 'false', mass_t: '7', moisture_wb: '' }])
    await asked(site, 'crew', 'POST /api/events', { field: 'long-eighty', kind: 'maturity-seen' })
    expect(await table('events')).toMatchObject([{ part: 'long-eighty', kind: 'maturity-seen', later_days: '' }])
  })
})
