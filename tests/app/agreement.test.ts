import { describe, expect, it } from 'vitest'
import { agreementOf } from '#app/agreement.ts'
import { dayJson } from '#app/day-json.ts'
import { makeDay } from '#app/make-day.ts'
import type { ComparedForecast, ForecastChances } from '#app/ports.ts'
import * as english from '#core/messages/words/english-trust.ts'
import * as spanish from '#core/messages/words/spanish-trust.ts'
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'
import { demoMorning, loadDemo } from '#tests/support/demo-day.ts'

const DATE = Temporal.PlainDate.from('2026-10-05')
const ZONE = 'America/Chicago'
/** 5:00 in the morning of that day: 10:00 UTC, 19 h before its end. */
const START = Temporal.Instant.from('2026-10-05T10:00Z').epochMilliseconds / 3_600_000
const HOURS = 48

/** The same for every hour, but for three millimetres of rain at dusk in the first `wet` members. */
function forecast(
  { airTempC = 22, relHumidity = 0.4, members = 1, wet = 0, startEpochH = START } = {},
  chances: ForecastChances = {},
): ComparedForecast {
  const arrays = unknownWeatherArrays(members, HOURS)
  arrays.airTempC.fill(airTempC)
  arrays.relHumidity.fill(relHumidity)
  arrays.rainMm.fill(0)
  for (let member = 0; member < wet; member++) arrays.rainMm[member * HOURS + 12] = 3
  const provenance = {
    source: 'S',
    attribution: '',
    licence: '',
    issuedAtEpochH: START,
    spread: 'single',
    remarks: [],
  } as const
  const place = { latDeg: 40, lonDeg: -88, elevationM: 200 }
  const weather: Weather = { place, startEpochH, hours: HOURS, members, ...arrays, provenance }
  return { weather, chances }
}
const of = (...forecasts: ComparedForecast[]) => agreementOf(forecasts, DATE, ZONE)
const pop = (pct: number, from = 0, to = HOURS) => ({
  popPct: Float32Array.from({ length: HOURS }, (_, h) => (h >= from && h < to ? pct : 0)),
})

describe('whether sources agree on today', () => {
  it('takes two', () => {
    expect(of()).toBeUndefined()
    expect(of(forecast())).toBeUndefined()
    expect(of(forecast(), forecast())).toMatchObject({ sources: 2, differs: [], airTempC: 0, relHumidity: 0 })
  })

  it('tells in what they differ, and by how much', () => {
    const both = of(forecast({ airTempC: 20, relHumidity: 0.3 }), forecast({ airTempC: 25, relHumidity: 0.5 }))!
    expect(both.differs).toEqual(['temperature', 'humidity'])
    expect([both.airTempC, both.relHumidity]).toEqual([5, expect.closeTo(0.2, 6)])
    expect(of(forecast({ airTempC: 20 }), forecast({ airTempC: 23.5 }))!.differs).toEqual([])
  })

  it('takes the two furthest apart of three, and does not mind their order', () => {
    const three = [forecast({ airTempC: 20 }), forecast({ airTempC: 27 }), forecast({ airTempC: 23 })] as const
    for (const order of [three, three.toReversed()]) expect(of(...order)).toMatchObject({ sources: 3, airTempC: 7 })
  })

  it('takes the chance of rain from members, or from the source’s own words, never from one course', () => {
    expect(of(forecast({ members: 10, wet: 8 }), forecast({}, pop(20)))!.rainChance).toBeCloseTo(0.6, 6)
    expect(of(forecast({ members: 10, wet: 8 }), forecast({}, pop(20)))!.differs).toEqual(['rain'])
    expect(of(forecast({ members: 10, wet: 3 }), forecast({}, pop(20)))!.differs).toEqual([])
    expect(of(forecast({ wet: 1 }), forecast())!.rainChance).toBeNaN()
  })

  it('minds no rain of tomorrow, nor of hours that one of them has lost already', () => {
    // Midnight at the farm is 19 h after the start.
    expect(of(forecast({}, pop(90, 19)), forecast({}, pop(0)))!.rainChance).toBe(0)
    expect(of(forecast({}, pop(90, 18)), forecast({}, pop(0)))!.rainChance).toBeCloseTo(0.9, 6)
    expect(of(forecast({}, pop(90, 0, 2)), forecast({ startEpochH: START + 2 }, pop(0)))!.rainChance).toBe(0)
  })

  it('says nothing once the afternoon is over, and nothing known is not agreement', () => {
    const late = { startEpochH: START + 14 }
    expect(of(forecast(late), forecast(late))).toBeUndefined()
    const unknown = { airTempC: Number.NaN, relHumidity: Number.NaN }
    expect(of(forecast(unknown), forecast())).toBeUndefined()
    const half = of(forecast({ relHumidity: Number.NaN }), forecast())!
    expect([half.relHumidity, half.airTempC, half.differs.length]).toEqual([Number.NaN, 0, 0])
  })
})

describe('the message', () => {
  it('says so in the line on the weather, in both languages and in JSON', async () => {
    const demo = await loadDemo()
    const { message, farm } = demoMorning(demo)
    const manner = {
      units: farm.units,
      language: 'en',
      timeZone: farm.timeZone,
      today: message.date,
      nowEpochH: message.nowEpochH,
    } as const
    const agree = { ...message.weather, agreement: of(forecast(), forecast())! }
    const differ = { ...message.weather, agreement: of(forecast({ airTempC: 10 }, pop(90)), forecast({}, pop(0)))! }
    expect(english.weather(agree, manner)).toContain(', two sources agree;')
    expect(english.weather(differ, manner)).toContain(", two sources differ on today's temperature and rain;")
    expect(spanish.weather(agree, manner)).toContain(', dos fuentes coinciden;')
    expect(spanish.weather(differ, manner)).toContain(', dos fuentes difieren hoy en la temperatura y la lluvia;')
    expect(english.weather(message.weather, manner)).not.toContain('sources')
  })

  it('carries it from the day’s input to its JSON', async () => {
    const demo = await loadDemo()
    const day = demoMorning(demo)
    const agreement = of(forecast(), forecast())!
    const again = makeDay({
      farm: day.farm,
      nowEpochH: day.nowEpochH,
      weather: { past: day.past, ahead: day.ahead },
      standingHa: new Map(),
      agreement,
    })
    expect(dayJson(again).weather.agreement).toEqual({
      sources: 2,
      differs: [],
      airTempC: 0,
      relHumidity: 0,
      rainChance: null,
    })
    expect(dayJson(day).weather.agreement).toBeNull()
  })
})
