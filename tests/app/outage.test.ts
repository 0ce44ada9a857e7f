/** Every weather service is out for 48 hours: what the farm is told meanwhile, and afterwards, without anyone's help. */
import { beforeAll, describe, expect, it } from 'vitest'
import { farmFileAddresses } from '#app/addresses.ts'
import { SourceUnreachable } from '#app/failures.ts'
import { noLinks } from '#app/links.ts'
import { Outbox } from '#app/outbox.ts'
import type { Warning } from '#app/ports.ts'
import { startService } from '#app/service.ts'
import { keepWeather } from '#app/weather-keeper.ts'
import type { MorningMessage } from '#core/messages/morning.ts'
import { sayMorning } from '#core/messages/render-text.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { type WeatherTables, weatherStore } from '#edges/storage/weather-store.ts'
import { type FakeService, fakeService } from '#tests/app/support/fake-sources.ts'
import { testWarning, warningSource } from '#tests/app/support/watch.ts'
import { loadDemo } from '#tests/support/demo-day.ts'

let farm: Farm
let recorded: Weather
beforeAll(async () => {
  const demo = await loadDemo()
  farm = demo.farm
  recorded = demo.weather
})

/** Half past four in the morning at the farm, before the morning message. */
const START = epochHoursOf(Temporal.Instant.from('2010-09-28T09:30Z'))
const LIMIT_H = 12

async function setUp(warnings: readonly Warning[] = []) {
  const database = await openAt<DayTables & OutboxTables & WeatherTables>(':memory:')
  const services = [fakeService('one', recorded), fakeService('two', recorded)]
  const saysWarnings = async () => {
    if (!services[0]!.isUp) throw new SourceUnreachable('does not answer', { source: 'warnings', where: 'nowhere' })
    return warnings
  }
  let now = START
  const clock = () => now
  const start = () => {
    const keeper = keepWeather({
      suppliers: {
        forecasts: services.map(({ forecast }) => forecast),
        observations: services.map(({ observations }) => observations),
        ...(warnings.length > 0 && { warningSources: [warningSource(saysWarnings)] }),
      },
      store: weatherStore(database),
      random: () => 0.5,
      log: () => undefined,
    })
    const service = startService({
      farm,
      suppliers: keeper.suppliers,
      store: dayStore(database),
      outboxStore: outboxStore(database),
      outbox: new Outbox({ store: outboxStore(database), carriers: [], owner: 'test', clock, random: () => 0.5 }),
      addresses: farmFileAddresses,
      links: noLinks,
      clock,
      log: () => undefined,
    })
    return { keeper, service }
  }
  let running = start()
  return {
    services,
    at: async (hours: number) => {
      now = START + hours
      await running.service.tick()
      const made = await running.service.current()
      return { made, first: sayMorning(made.message)[0]!.text }
    },
    restart: () => {
      running = start()
    },
    states: () => running.keeper.states(now),
    mornings: async () => (await outboxStore(database).recent(farm.id, 100)).filter(({ kind }) => kind === 'morning'),
  }
}

const quotes = ({ official }: MorningMessage, headline: string) =>
  official.quoted.some((quoted) => quoted.headline === headline)

const redFlag = (headline: string, untilEpochH: number): Warning =>
  testWarning({
    id: 'flag',
    senderName: 'NWS Lincoln IL',
    areaDesc: 'Champaign',
    headline,
    sentAtEpochH: START - 2,
    effectiveAtEpochH: START - 2,
    onsetAtEpochH: START,
    expiresAtEpochH: untilEpochH,
    endsAtEpochH: untilEpochH,
  })

const out = (services: readonly FakeService[], isOut: boolean) => {
  for (const service of services) service.isUp = !isOut
}

describe('48 hours without any weather service', () => {
  it('the message names a field with the age on its first line, then none with the reason, then recovers alone', async () => {
    expect(farm.morning.weatherAgeLimitH).toBe(LIMIT_H)
    const run = await setUp()
    const before = await run.at(0)
    expect(before.made.message.headline.kind).toBe('run')
    expect(before.first).not.toMatch(/old/i)
    out(run.services, true)

    for (const hours of [1, 2, 4, 6, 9, 11, 13, 18, 24, 30, 36, 42, 47]) {
      const { made, first } = await run.at(hours)
      // The last forecast was issued on the hour, half an hour before the start.
      const ageH = hours + 0.5
      if (ageH > LIMIT_H) {
        expect(made.message.headline.kind, `${hours} h`).toBe('no-forecast')
        expect(first).toContain('No field named')
        expect(first).toContain(`${Math.round(ageH)} h old, over the limit of ${LIMIT_H} h`)
        expect(made.message.after).toEqual([])
      } else {
        expect(made.message.headline.kind, `${hours} h`).not.toBe('no-forecast')
        expect(made.message.weather.ageH).toBeCloseTo(ageH, 6)
        if (ageH > 3) expect(first).toMatch(new RegExp(`Old weather: ${Math.round(ageH)} h`))
        else expect(first).not.toMatch(/Old weather/)
      }
    }
    const down = await run.states()
    expect(down.map(({ state }) => state)).toEqual(['down', 'down', 'down', 'down'])
    expect(down[0]!.lastFailure).toContain('does not answer')
    expect(down[0]!.lastFault).toMatchObject({ facts: { kind: 'unreachable' } })
    expect(down[0]!.failedShare).toBeGreaterThan(0.5)

    out(run.services, false)
    const after = await run.at(49.5)
    expect(after.made.message.headline.kind).not.toBe('no-forecast')
    expect(after.made.message.weather.ageH).toBeLessThan(1)
    expect(after.first).not.toMatch(/Old weather/)
    // The hours of the outage came in from the stations: the past is whole again.
    const { past } = after.made.day!
    const from = START - 1 - past.startEpochH
    for (let h = Math.ceil(from); h < past.hours; h++) {
      expect(past.airTempC[h]).toBeCloseTo(recorded.airTempC[past.startEpochH + h - recorded.startEpochH]!, 4)
    }
    // The second source of observations is not asked while the first one answers.
    expect((await run.states()).map(({ state }) => state)).toEqual(['well', 'well', 'well', 'down'])
    // One message each morning, on the morning of the outage too.
    const dates = new Set((await run.mornings()).map(({ date }) => date))
    expect(dates.has('2010-09-29')).toBe(true)
  })

  it('a restart in between does not lose the last good weather', async () => {
    const run = await setUp()
    await run.at(0)
    out(run.services, true)
    run.restart()
    const { made, first } = await run.at(5)
    expect(made.message.headline.kind).not.toBe('no-forecast')
    expect(first).toContain('Old weather: 6 h')
  })

  it('a warning in force is quoted all the same, over a restart too, until it is over; that there may be more is said', async () => {
    const headline = 'RED FLAG WARNING UNTIL 7 PM WEDNESDAY'
    const run = await setUp([redFlag(headline, START + 36)])
    const before = await run.at(0)
    expect(quotes(before.made.message, headline)).toBe(true)
    out(run.services, true)
    for (const hours of [3, 9, 20]) {
      if (hours === 9) run.restart()
      const { made } = await run.at(hours)
      expect(quotes(made.message, headline), `${hours} h`).toBe(true)
      expect(made.message.official.unread).toBe(true)
      expect(made.failures.join()).toContain('warnings: does not answer')
    }
    expect(quotes((await run.at(40)).made.message, headline)).toBe(false)
    expect((await run.states()).find(({ kind }) => kind === 'warnings')).toMatchObject({ state: 'down' })
    out(run.services, false)
    await run.at(49.5)
    const state = (await run.states()).find(({ kind }) => kind === 'warnings')!
    expect(state.state).toBe('well')
    expect(state.failedShare).toBeGreaterThan(0)
    expect(state.failedShare).toBeLessThan(1)
  })

  it('one service out of two is enough: nothing is said to be old', async () => {
    const run = await setUp()
    await run.at(0)
    out(run.services.slice(0, 1), true)
    for (const hours of [4, 8, 16, 26]) {
      const { made, first } = await run.at(hours)
      expect(made.message.headline.kind).not.toBe('no-forecast')
      if (hours > 9) expect(first).not.toMatch(/Old weather/)
    }
  })
})
