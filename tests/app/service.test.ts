import { beforeAll, describe, expect, it } from 'vitest'
import { farmFileAddresses } from '#app/addresses.ts'
import { seedFields } from '#app/farm-fields.ts'
import { noLinks } from '#app/links.ts'
import { Outbox } from '#app/outbox.ts'
import { takeCut } from '#app/records.ts'
import { startService } from '#app/service.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Weather } from '#core/units/weather.ts'
import { recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { type ForecastTables, forecastStore } from '#edges/storage/forecasts.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { type RecordTables, recordStore } from '#edges/storage/records.ts'
import { DEMO_NOW, loadDemo } from '#tests/support/demo-day.ts'

let farm: Farm
let weather: Weather
beforeAll(async () => {
  const demo = await loadDemo()
  farm = demo.farm
  weather = demo.weather
})

async function start() {
  const database = await openAt<DayTables & OutboxTables & RecordTables & ForecastTables>(':memory:')
  const book = recordStore(database)
  const forecasts = forecastStore(database)
  await seedFields(farm, book, DEMO_NOW)
  let now = DEMO_NOW
  const clock = () => now
  const outbox = new Outbox({
    store: outboxStore(database),
    carriers: [],
    owner: 'test',
    clock,
    random: () => 0.5,
  })
  const service = startService({
    farm,
    suppliers: { forecasts: [recordedForecast(weather, 240)], observations: [recordedObservations(weather)] },
    store: dayStore(database),
    outboxStore: outboxStore(database),
    outbox,
    addresses: farmFileAddresses,
    links: noLinks,
    book,
    forecasts,
    clock,
    log: () => undefined,
  })
  const cutFirst = async () => {
    const part = (await service.current()).day!.plan.runs[0]!.part
    const answer = await takeCut({ farm, store: book, nowEpochH: now }, { field: part.key, done: true, by: 'bo' })
    expect(answer.kind).toBe('kept')
    return part.key
  }
  return { service, forecasts, cutFirst, setClock: (epochH: number) => (now = epochH) }
}
const firstOf = async ({ service }: Awaited<ReturnType<typeof start>>) =>
  (await service.current()).day!.plan.runs[0]!.part.key

describe('the service', () => {
  it('keeps its day while nothing changes, and makes it anew when something was told', async () => {
    const run = await start()
    const before = await run.service.current()
    expect(await run.service.current()).toBe(before)
    const cut = await run.cutFirst()
    run.service.changed()
    expect(await firstOf(run)).not.toBe(cut)
  })

  it('shows the day before at once while a newer one is made, of today only, and says so', async () => {
    const run = await start()
    const { service } = run
    const before = await service.current()
    expect(await service.shown!()).toEqual({ made: before, outdated: false, version: 0 })
    await run.cutFirst()
    service.changed()
    expect(await service.shown!()).toEqual({ made: before, outdated: true, version: 1 })
    const after = await service.current()
    expect(after).not.toBe(before)
    expect(await service.shown!()).toEqual({ made: after, outdated: false, version: 1 })
    // Merely old: shown while it is made again, and nothing else was told.
    run.setClock(DEMO_NOW + 0.8)
    expect(await service.shown!()).toEqual({ made: after, outdated: false, version: 1 })
    await service.current()
    run.setClock(DEMO_NOW + 24)
    const tomorrow = await service.shown!()
    expect(tomorrow.made.message.date.toString()).toBe('2010-10-01')
  })

  it('does not hold on to a day that was being made when something was told', async () => {
    const run = await start()
    const cut = await run.cutFirst()
    run.service.changed()
    const making = run.service.current()
    run.service.changed()
    await making
    const after = await run.service.current()
    expect(after).not.toBe(await making)
    expect(await firstOf(run)).not.toBe(cut)
  })

  it('keeps the forecast of each morning message once, for every part that stands', async () => {
    const run = await start()
    await run.service.tick()
    const kept = await run.forecasts.forecasts(farm.id)
    expect(kept.map(({ partKey }) => partKey).sort()).toEqual(
      (await run.service.current()).day!.outlooks.map(({ part }) => part.key).sort(),
    )
    run.setClock(DEMO_NOW + 1)
    await run.service.tick()
    expect(await run.forecasts.forecasts(farm.id)).toEqual(kept)
    run.setClock(DEMO_NOW + 24)
    await run.service.tick()
    const next = await run.forecasts.forecasts(farm.id, DEMO_NOW + 12)
    expect(new Set(next.map(({ madeOn }) => madeOn.toString()))).toEqual(new Set(['2010-10-01']))
  })
})
