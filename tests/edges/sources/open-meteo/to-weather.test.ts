import { describe, expect, it } from 'vitest'
import { parse as parseYaml } from 'yaml'
import { SourceTooThin, SourceUnitUnknown, SourceUnreadable } from '#app/failures.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { hourlyAnswerSchema } from '#edges/sources/open-meteo/schema.ts'
import { weatherFromHourlyAnswer } from '#edges/sources/open-meteo/to-weather.ts'
import { bodyOf, textOf } from '#tests/edges/sources/support/bodies.ts'
import { type Answer, hourlyAnswer } from '#tests/edges/sources/support/open-meteo.ts'

const TOLD = { source: 'Open-Meteo', where: 'https://api.open-meteo.com/v1/forecast' }
const PLACE = { latDeg: 52.5, lonDeg: 7, elevationM: 29 }
const at = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const read = (body: unknown, now: number, kind: 'single' | 'ensemble') =>
  weatherFromHourlyAnswer(hourlyAnswerSchema.parse(body), PLACE, now, kind, TOLD)

describe('the recorded ensemble of 2026-10-03, two hours long', () => {
  const { weather } = read(bodyOf('open-meteo/ensemble_two_hours_2026.json'), at('2026-10-03T00:10Z'), 'ensemble')

  // By eye: control 10.5 and 10.1 degC at 00 and 01 UTC, member 1 10.1 and 9.8, member 4 11.4 and 10.8.
  it('has the control run first, then its 20 members', () => {
    expect([weather.members, weather.hours, weather.provenance.spread]).toEqual([21, 1, 'ensemble'])
    expect(weather.startEpochH).toBe(at('2026-10-03T00:00Z'))
    expect(weather.airTempC[0]).toBeCloseTo(10.3, 5)
    expect(weather.airTempC[1]).toBeCloseTo(9.95, 5)
    expect(weather.airTempC[4]).toBeCloseTo(11.1, 5)
  })

  it('leaves what was not asked for unknown', () => {
    for (const values of [weather.rainMm, weather.windMs, weather.relHumidity, weather.solarWm2])
      expect(Array.from(values).every(Number.isNaN)).toBe(true)
  })
})

describe('the recorded answer of 2023-11-13, weather codes only', () => {
  it('gives hours without a single number', () => {
    const tape = parseYaml(textOf('open-meteo/forecast_weather_code_2023.yml')) as {
      http_interactions: { response: { body: { string: string } } }[]
    }
    const body: unknown = JSON.parse(tape.http_interactions[0]!.response.body.string)
    const { weather } = read(body, at('2023-11-13T10:47:45Z'), 'single')
    expect(weather.startEpochH).toBe(at('2023-11-13T10:00Z'))
    // Seven days from 2023-11-13T00:00: the last stamp is 2023-11-19T23:00.
    expect(weather.startEpochH + weather.hours).toBe(at('2023-11-19T23:00Z'))
    for (const values of [weather.airTempC, weather.rainMm, weather.windMs])
      expect(values.every(Number.isNaN)).toBe(true)
  })
})

describe('an hourly answer', () => {
  const start = at('2026-10-03T00:00Z')
  const now = at('2026-10-03T02:30Z')
  const single = read(hourlyAnswer(start, 72, 1), now, 'single')

  it('takes the middle of two stamps for what is given at an instant', () => {
    // Stamps 02 and 03: 10.5 and 10.75 degC, 52 and 53 %, directions 30 and 45 (hours counted from a multiple of 24).
    expect(single.weather.airTempC[0]).toBeCloseTo(10.625, 5)
    expect(single.weather.relHumidity[0]).toBeCloseTo(0.525, 6)
    expect(single.weather.windFromDeg[0]).toBeCloseTo(((start + 2) * 15 + 7.5) % 360, 3)
  })

  it('moves sums, peaks and means of the hour before back by an hour', () => {
    // 2 mm stamped 06:00 fell from 05 to 06, the fourth hour from 02.
    expect(Array.from(single.weather.rainMm.slice(0, 6))).toEqual([0, 0, 0, 2, 0, 0])
    expect(single.weather.solarWm2[0]).toBe(120)
    expect(single.weather.gustMs[0]).toBe(6 + ((start + 3) % 5))
    expect([single.chances.popPct![0], single.chances.popBlockH![0]]).toEqual([3, 1])
  })

  it('keeps each member to itself', () => {
    const { weather } = read(hourlyAnswer(start, 72, 3), now, 'ensemble')
    expect([weather.members, weather.hours]).toEqual([3, 69])
    expect([0, 1, 2].map((member) => weather.rainMm[member * weather.hours + 3])).toEqual([2, 3, 4])
    expect(weather.airTempC[2 * weather.hours]).toBeCloseTo(10.825, 5)
  })

  it('takes off the one offset of the whole answer', () => {
    const local = hourlyAnswer(start, 72, 1)
    const shifted = hourlyAnswer(start - 5, 72, 1)
    local.hourly.time = shifted.hourly.time
    local.utc_offset_seconds = -5 * 3600
    expect(read(local, now, 'single').weather).toEqual(single.weather)
  })

  const broken = (change: (answer: Answer) => void, members = 1) => {
    const answer = hourlyAnswer(start, 72, members)
    change(answer)
    return () => read(answer, now, members === 1 ? 'single' : 'ensemble')
  }
  it.each(['temperature_2m', 'relative_humidity_2m', 'precipitation', 'wind_speed_10m', 'shortwave_radiation'])(
    'in an unknown unit of %s is refused by name',
    (name) => {
      for (const unit of ['furlong', '', 'valueOf']) {
        const run = broken((answer) => Object.assign(answer.hourly_units, { [name]: unit }))
        expect(run).toThrow(SourceUnitUnknown)
        expect(run).toThrow(name)
      }
    },
  )

  it('in the usual km/h is turned into m/s', () => {
    const { weather } = broken((answer) => Object.assign(answer.hourly_units, { wind_gusts_10m: 'km/h' }))()
    expect(weather.gustMs[0]).toBeCloseTo(single.weather.gustMs[0]! / 3.6, 5)
  })

  it.each<[string, (answer: Answer) => void]>([
    ['arrays of different length', (answer) => answer.hourly.precipitation!.pop()],
    ['stamps out of order', (answer) => answer.hourly.time.reverse()],
    ['a stamp off the hour', (answer) => Object.assign(answer.hourly.time, { 3: '2026-10-03T03:15' })],
    ['an offset of half an hour', (answer) => Object.assign(answer, { utc_offset_seconds: 19_800 })],
    ['unix times', (answer) => Object.assign(answer.hourly, { time: answer.hourly.time.map(() => '1790985600') })],
  ])('with %s is refused', (_, change) => {
    expect(broken(change)).toThrow(SourceUnreadable)
  })

  it('that is over is refused', () => {
    expect(() => read(hourlyAnswer(start, 72, 1), now + 100, 'single')).toThrow(SourceTooThin)
  })

  it('without members is no ensemble', () => {
    expect(() => read(hourlyAnswer(start, 72, 1), now, 'ensemble')).toThrow(/no ensemble/)
  })

  it('of three hours per step gives no rain for an hour it does not know', () => {
    const { weather } = broken((answer) => {
      for (const [name, values] of Object.entries(answer.hourly))
        answer.hourly[name] = (values as number[]).filter((_, stamp) => stamp % 3 === 0)
    })()
    expect(Array.from(weather.rainMm.slice(0, 48)).filter(Number.isNaN).length).toBe(32)
    expect(weather.airTempC[0]).not.toBeNaN()
  })

  it('keeps nulls unknown', () => {
    const { weather } = broken((answer) => {
      answer.hourly.precipitation = answer.hourly.time.map(() => null)
    })()
    expect(weather.rainMm.every(Number.isNaN)).toBe(true)
  })
})
