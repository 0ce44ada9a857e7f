/** Every source at its own address under every fault: a named refusal, or weather that says what it does not know. */
import { afterEach, describe, expect, it } from 'vitest'
import { SourceFailure, SourceTooThin, SourceUnreachable, SourceUnreadable } from '#app/failures.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type { HttpLimits } from '#edges/http/client.ts'
import { changed, type Faults, OF_TRANSPORT, OF_WEATHER, status } from './support/fault-list.ts'
import {
  type Asked,
  FORECASTS,
  HISTORIES,
  type MockedWorld,
  mockedWorld,
  REPORTS,
  WARNINGS,
} from './support/msw-world.ts'
import { outOfRange } from './support/out-of-range.ts'
import { otherUnits, sixHourly, sixHourSums, withGap } from './support/reshape.ts'
import { moved, without } from './support/spoil.ts'
import { goodBody } from './support/world.ts'

const open: MockedWorld[] = []
afterEach(async () => {
  for (const one of open.splice(0)) await one.stop()
})
async function start(limits: Partial<HttpLimits> = {}): Promise<MockedWorld> {
  const one = await mockedWorld(limits)
  open.push(one)
  return one
}

const WEATHERS: { readonly [name: string]: Asked<{ readonly weather: Weather }> } = { ...FORECASTS, ...HISTORIES }

const EVERYTHING: readonly (readonly [name: string, asked: Asked<unknown>, faults: Faults])[] = [
  ...Object.entries(FORECASTS).map(([name, asked]) => [name, asked, [...OF_TRANSPORT, ...OF_WEATHER]] as const),
  ...Object.entries(HISTORIES).map(([name, asked]) => [name, asked, [...OF_TRANSPORT, ...OF_WEATHER]] as const),
  ['NWS reports', REPORTS, [...OF_TRANSPORT, ...OF_WEATHER]],
  ['NWS warnings', WARNINGS, OF_TRANSPORT],
]

describe.each(EVERYTHING)('%s', (_, { address, fetch }, faults) => {
  it('answers when the service does, and tells who asks', async () => {
    const world = await start()
    await expect(fetch(world.client)).resolves.toBeDefined()
    for (const { headers, method, url } of world.asked) {
      expect(headers.get('user-agent')).toBe('threshday/0.1 (operator@example.org)')
      expect(headers.get('accept-encoding')).toBe('gzip')
      expect([method, new URL(url).protocol]).toEqual(['GET', 'https:'])
    }
  })

  it.each(faults)('refuses %s', async (_, answer, failures) => {
    const world = await start({ retries: 1 })
    world.spoil(address, answer)
    const failure = await failureOf(fetch(world.client))
    expect(
      failures.some((kind) => failure instanceof kind),
      `${failure.name}: ${failure.message}`,
    ).toBe(true)
    expect(failure.message).toContain(failure.where)
    expect(failure.cure).not.toBe('')
  })

  it('keeps silent for as long as it was told to', async () => {
    const world = await start()
    world.spoil(address, status(429, '', { 'retry-after': '1800' }))
    expect(await failureOf(fetch(world.client))).toMatchObject({ status: 429, retryAfterS: 1800 })
    const asked = world.asked.length
    world.clock.ms += 1_700_000
    expect(await failureOf(fetch(world.client))).toMatchObject({ status: 429, retryAfterS: 100 })
    expect(world.asked.length).toBe(asked)
  })

  it('gives up on a slow trickle', async () => {
    const world = await start({ totalMs: 250, retries: 0 })
    let drops = 0
    world.spoil(address, () => {
      let timer: NodeJS.Timeout | undefined
      return new Response(
        new ReadableStream({
          start: (stream) => {
            timer = setInterval(() => {
              drops++
              stream.enqueue(new Uint8Array([32]))
            }, 20)
          },
          cancel: () => clearInterval(timer),
        }),
        { headers: { 'content-length': '200000000' } },
      )
    })
    const failure = await failureOf(fetch(world.client))
    expect(failure).toBeInstanceOf(SourceUnreachable)
    expect(failure.message).toContain('longer than 0.25 s in all')
    expect(drops).toBeGreaterThan(2)
  })

  it('lets go of a body of 200 MB long before its end', async () => {
    const world = await start()
    const piece = new Uint8Array(65_536).fill(32)
    let pouredBytes = 0
    let letGo = 0
    world.spoil(
      address,
      () =>
        new Response(
          new ReadableStream({
            pull: (stream) => {
              pouredBytes += piece.length
              if (pouredBytes >= 200e6) stream.close()
              else stream.enqueue(piece)
            },
            cancel: () => {
              letGo++
            },
          }),
          { headers: { 'content-length': '200000000' } },
        ),
    )
    const heldBefore = process.memoryUsage().arrayBuffers
    const failure = await failureOf(fetch(world.client))
    expect(failure.message).toContain('longer than the 8 MB')
    expect(failure).toBeInstanceOf(SourceUnreadable)
    expect(letGo).toBeGreaterThan(0)
    expect(pouredBytes).toBeLessThan(20e6 * letGo)
    expect(process.memoryUsage().arrayBuffers - heldBefore).toBeLessThan(60e6)
  })
})

describe.each(Object.entries(WEATHERS))('%s, read with care:', (name, { address, fetch }) => {
  /** Only one network at a time: the first one would answer for the second. */
  const asIs = async () => {
    const world = await start()
    const { weather } = await fetch(world.client)
    await open.pop()!.stop()
    return weather
  }
  const reshaped = async (change: (body: unknown) => unknown, later = 0): Promise<Weather> => {
    const world = await start()
    world.spoil(address, changed(change))
    const { weather } = await fetch(world.client, later)
    expect(outOfRange(weather)).toEqual([])
    return weather
  }

  it('without gusts and direction the rest stands, those two are not known', async () => {
    const gone = ['windGust', 'wind_gusts_10m', 'windDirection', 'wind_from_direction', 'wind_direction_10m', 'WD10M']
    const [whole, part] = [await asIs(), await reshaped(without(gone))]
    expect(part.gustMs.every(Number.isNaN)).toBe(true)
    expect(part.windFromDeg.every(Number.isNaN)).toBe(true)
    for (const variable of ['airTempC', 'relHumidity', 'rainMm', 'windMs', 'solarWm2'] as const)
      expect(part[variable]).toEqual(whole[variable])
  })

  it('a gap stays a gap: no value there, all others as before', async () => {
    const [whole, gapped] = [await asIs(), await reshaped(withGap)]
    const unknown = gapped.airTempC.filter((value, i) => {
      if (!Number.isNaN(value)) expect(value).toBeCloseTo(whole.airTempC[i]!, 4)
      return Number.isNaN(value)
    })
    // Six values are gone; between steps that is seven hours, and in merged spans it may be less or more.
    expect(unknown.length / whole.members).toBeGreaterThanOrEqual(5)
    expect(unknown.length / whole.members).toBeLessThanOrEqual(8)
  })

  it('the same in other known units is the same weather', async () => {
    const [whole, other] = [await asIs(), await reshaped(otherUnits)]
    for (const variable of ['airTempC', 'relHumidity', 'windMs', 'gustMs'] as const)
      for (const [i, value] of whole[variable].entries())
        if (Number.isNaN(value)) expect(other[variable][i]).toBeNaN()
        else expect(other[variable][i]).toBeCloseTo(value, 3)
  })

  // Clock changes of 2026: US 8 March and 1 November, EU 29 March and 25 October (tz database).
  it.each(['2026-03-08', '2026-03-29', '2026-10-25', '2026-11-01'])('reads %s hour by hour', async (day) => {
    const whole = await asIs()
    const start = epochHoursOf(Temporal.PlainDate.from(day).toZonedDateTime('UTC').toInstant())
    const later = start - whole.startEpochH
    const there = await reshaped(moved(later), later)
    expect([there.startEpochH, there.hours]).toEqual([start, whole.hours])
    for (const variable of ['airTempC', 'relHumidity', 'rainMm', 'windMs', 'gustMs', 'windFromDeg'] as const)
      expect(there[variable]).toEqual(whole[variable])
  })

  if (name === 'NASA POWER') return
  if (name.startsWith('Open-Meteo')) {
    it('refuses six-hourly stamps whose rain speaks of one hour each', async () => {
      const failure = await failureOf(reshaped(sixHourly))
      expect(failure).toBeInstanceOf(SourceTooThin)
      expect(failure.message).toContain('rain')
    })
  } else {
    it('six hours at a time: states hold or move in a line, sums are spread', async () => {
      const [whole, coarse] = [await asIs(), await reshaped(sixHourly)]
      const first = (SIX - (whole.startEpochH % SIX)) % SIX
      for (let h = first; h < 36; h += SIX) {
        if (name === 'NWS forecast') {
          for (let later = 0; later < SIX; later++) expect(coarse.airTempC[h + later]).toBe(whole.airTempC[h])
          expect(coarse.rainMm.subarray(h, h + SIX)).toEqual(whole.rainMm.subarray(h, h + SIX))
        } else {
          const steps = Array.from({ length: SIX - 1 }, (_, i) => coarse.airTempC[h + i + 1]! - coarse.airTempC[h + i]!)
          for (const step of steps) expect(step).toBeCloseTo(steps[0]!, 4)
          const sum = coarse.rainMm.subarray(h, h + SIX).reduce((total, mm) => total + mm, 0)
          expect(sum).toBeCloseTo(sixHourSums(goodBody('/met/complete')).get(whole.startEpochH + h)!, 4)
        }
      }
    })
  }
})

const SIX = 6

async function failureOf(promise: Promise<unknown>): Promise<SourceFailure> {
  let value: unknown
  try {
    value = await promise
  } catch (error) {
    if (error instanceof SourceFailure) return error
    throw error
  }
  throw new Error(`nothing was refused: ${JSON.stringify(value).slice(0, 300)}`)
}
