/** The whole chain, from a farm and weather to the message, at any minute and in any zone. */
import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { dayJson } from '#app/day-json.ts'
import type { Day } from '#app/make-day.ts'
import { renderHtml } from '#core/messages/render-html.ts'
import { renderText } from '#core/messages/render-text.ts'
import type { Weather } from '#core/units/weather.ts'
import { splitAt } from '#edges/sources/recorded/index.ts'
import { daySchema } from '#tests/support/day-schema.ts'
import { at, DEMO_NOW, type Demo, demoDay, demoMorning, loadDemo } from '#tests/support/demo-day.ts'
import { bareNumbers, wrongSigns } from '#tests/support/said.ts'
import { TRADE_FACTS } from '#tests/truth/trade.ts'

let demo: Demo
beforeAll(async () => {
  demo = await loadDemo()
})

/** What must hold of any day, whatever the instant. */
function checkDay(day: Day): void {
  const text = renderText(day.message)
  expect(wrongSigns(text), text).toEqual([])
  expect(bareNumbers(text), text).toEqual([])
  expect(wrongSigns(renderText({ ...day.message, language: 'es' }))).toEqual([])
  expect(wrongSigns(renderHtml(day.message).replace(/<style[\s\S]*?<\/style>/g, ''))).toEqual([])
  const json = JSON.parse(JSON.stringify(dayJson(day)))
  expect(daySchema.safeParse(json).error?.issues.slice(0, 3)).toBeUndefined()
  for (const run of day.plan.runs) {
    expect(run.startEpochH).toBeGreaterThanOrEqual(day.nowEpochH - 1e-9)
    expect(run.endEpochH).toBeGreaterThan(run.startEpochH)
  }
}

const inZone = (timeZone: string): Demo => ({ ...demo, farm: { ...demo.farm, timeZone } })
const FIRST = at('2010-07-01T06:00Z')
const LAST = at('2010-12-01T05:59Z')

describe('any minute of the record', () => {
  it('makes a day without a wrong number, and valid JSON', () => {
    fc.assert(
      fc.property(fc.integer({ min: FIRST * 60, max: Math.floor(LAST * 60) }), (minute) => {
        checkDay(demoDay(demo, minute / 60))
      }),
      { numRuns: 5 },
    )
  }, 60_000)

  it.each(['2010-07-01T06:00Z', '2010-07-01T07:01Z', '2010-12-01T05:59Z'])('at the edge of it, %s', (instant) => {
    checkDay(demoDay(demo, at(instant)))
  })
})

/** The hours in which clocks go back or forward while there is weather, east and west, by an hour and by half of one. */
const CHANGES = [
  { timeZone: 'America/Chicago', instants: ['2010-11-07T06:30Z', '2010-11-07T07:30Z', '2010-11-07T12:00Z'] },
  { timeZone: 'Australia/Adelaide', instants: ['2010-10-02T16:15Z', '2010-10-02T16:45Z'] },
  { timeZone: 'Australia/Lord_Howe', instants: ['2010-10-02T15:10Z', '2010-10-02T15:40Z'] },
  { timeZone: 'America/Santiago', instants: ['2010-10-10T03:30Z', '2010-10-10T04:30Z'] },
  { timeZone: 'Asia/Kolkata', instants: ['2010-09-29T18:15Z'] },
  { timeZone: 'Asia/Kathmandu', instants: ['2010-09-29T18:20Z'] },
  { timeZone: 'Pacific/Kiritimati', instants: ['2010-09-30T09:50Z'] },
] as const

describe('hours in which the clock changes, and zones off the full hour', () => {
  it.each(CHANGES)('$timeZone', ({ timeZone, instants }) => {
    for (const instant of instants) {
      const day = demoDay(inZone(timeZone), at(instant))
      checkDay(day)
      expect(day.date.toString()).toBe(
        Temporal.Instant.from(instant).toZonedDateTimeISO(timeZone).toPlainDate().toString(),
      )
    }
  })

  it('keep the crew to the clock on the wall', () => {
    const { farm } = inZone('Asia/Kolkata')
    const day = demoDay({ ...demo, farm }, at('2010-09-30T00:00Z'))
    for (const run of day.plan.runs) {
      const [start, end] = [run.startEpochH, run.endEpochH].map((h) =>
        Temporal.Instant.fromEpochMilliseconds(Math.round(h * 3_600_000)).toZonedDateTimeISO(farm.timeZone),
      )
      expect(start!.hour).toBeGreaterThanOrEqual(7)
      expect(end!.hour * 60 + end!.minute).toBeLessThanOrEqual(22 * 60)
    }
  })
})

describe('the same inputs', () => {
  it('give the same bytes', () => {
    const once = demoMorning(demo)
    const again = demoDay(demo, DEMO_NOW)
    expect(JSON.stringify(dayJson(again))).toBe(JSON.stringify(dayJson(once)))
    expect(renderText(again.message)).toBe(renderText(once.message))
  })

  it('are left as they were', () => {
    const weather = splitAt(demo.weather, DEMO_NOW, 240)
    const before = [weather.past, weather.ahead].map((w) => [...w.airTempC, ...w.rainMm])
    demoDay(demo, DEMO_NOW, { weather })
    expect([weather.past, weather.ahead].map((w) => [...w.airTempC, ...w.rainMm])).toEqual(before)
  })
})

describe('weather with holes', () => {
  const holed = (
    weather: Weather,
    holes: Partial<
      Record<
        'airTempC' | 'relHumidity' | 'rainMm' | 'windMs' | 'gustMs' | 'windFromDeg' | 'solarWm2',
        (h: number) => boolean
      >
    >,
  ): Weather => {
    const arrays = Object.fromEntries(
      Object.entries(holes).map(([variable, missing]) => [
        variable,
        weather[variable as 'airTempC'].map((value, i) => (missing!(i % weather.hours) ? Number.NaN : value)),
      ]),
    )
    return { ...weather, ...arrays }
  }
  const all = () => true

  it.each([
    ['no direction of the wind', { windFromDeg: all }],
    ['no gust, no direction, no sunlight', { gustMs: all, windFromDeg: all, solarWm2: all }],
    ['no rain', { rainMm: all }],
    ['no wind', { windMs: all }],
    [
      'nothing at all',
      { airTempC: all, relHumidity: all, rainMm: all, windMs: all, gustMs: all, windFromDeg: all, solarWm2: all },
    ],
    ['a forecast that ends after two days', { airTempC: (h: number) => h > 48, relHumidity: (h: number) => h > 48 }],
    ['a morning without humidity', { relHumidity: (h: number) => h < 10 }],
  ])('ahead, %s: still a message, and none of its numbers is made up or wrong', (_, holes) => {
    const { past, ahead } = splitAt(demo.weather, DEMO_NOW, 240)
    checkDay(demoDay(demo, DEMO_NOW, { weather: { past, ahead: holed(ahead, holes) } }))
  })

  it('in the past, a lost week: still a message, and the loss is told', () => {
    const { past, ahead } = splitAt(demo.weather, DEMO_NOW, 240)
    const lost = (h: number) => h > past.hours - 400 && h < past.hours - 200
    const day = demoDay(demo, DEMO_NOW, {
      weather: { past: holed(past, { airTempC: lost, relHumidity: lost }), ahead },
    })
    checkDay(day)
    expect(day.ahead.provenance.remarks.join(' ')).toMatch(/not known|bridged|filled/)
  })
})

describe('farms unlike the demo', () => {
  const outfit = () => demo.farm.outfits[0]!
  const changed = (more: Partial<Demo['farm']>) => ({ ...demo, farm: { ...demo.farm, ...more } })

  it('an outfit without carts, two outfits, none at all: a message without a wrong number', () => {
    const [half, rest] = [outfit().combines.slice(0, 3), outfit().combines.slice(3)]
    for (const outfits of [
      [{ ...outfit(), carts: [] }],
      [
        { ...outfit(), combines: half },
        { ...outfit(), id: 'second', combines: rest, crewHours: { startMinute: 600, endMinute: 1440 } },
      ],
      [],
    ]) {
      checkDay(demoDay(changed({ outfits }), DEMO_NOW))
    }
  })

  it('a ban of the day stops every run, and is the first thing said of fire', () => {
    const ban = {
      from: Temporal.PlainDate.from('2010-09-30'),
      to: Temporal.PlainDate.from('2010-09-30'),
      text: 'County burn ban',
    }
    const day = demoDay(changed({ fireRules: { ...demo.farm.fireRules, bans: [ban] } }), DEMO_NOW)
    checkDay(day)
    expect(day.plan.runs).toEqual([])
    expect(renderText(day.message)).toContain('FIRE STOP: County burn ban')
  })
})

describe('a farm that is done', () => {
  it('says so, whether the farm file or the cuts tell it', () => {
    const cutOn = Temporal.PlainDate.from('2010-09-29')
    const farm = { ...demo.farm, fields: demo.farm.fields.map((field) => ({ ...field, cutOn })) }
    const day = demoDay({ ...demo, farm }, DEMO_NOW)
    expect(day.message.headline).toEqual({ kind: 'done' })
    checkDay(day)
    const standingHa = new Map(demoMorning(demo).outlooks.map(({ part }) => [part.key, 0]))
    expect(demoDay(demo, DEMO_NOW, { standingHa }).message.headline).toEqual({ kind: 'done' })
  })

  it('a field cut tomorrow still stands today', () => {
    const cutOn = Temporal.PlainDate.from('2010-10-01')
    const farm = { ...demo.farm, fields: demo.farm.fields.map((field) => ({ ...field, cutOn })) }
    expect(demoDay({ ...demo, farm }, DEMO_NOW).outlooks.length).toBeGreaterThan(0)
  })
})

describe('the demo against facts of the trade (common practice, no source)', () => {
  it('beans are cut at about 10 to 12 % on its morning', () => {
    const runs = demoMorning(demo).plan.runs.filter(({ part }) => part.field.crop === 'soybean')
    const [low, high] = TRADE_FACTS.beansAtCuttingWb
    const tonnes = runs.reduce((sum, run) => sum + run.massT, 0)
    const mean =
      runs.reduce((sum, run) => sum + (run.massT * (run.startMoistureWb + run.endMoistureWb)) / 2, 0) / tonnes
    expect(runs.length).toBeGreaterThan(0)
    // Mean of the day, a point of play: the autumn of 2010 was one of the driest on record.
    expect(mean).toBeGreaterThan(low - 1)
    expect(mean).toBeLessThan(high + 1)
  })

  it('the green spot that it leaves standing reads 4 to 5 points above the rest of its field', () => {
    const { plan, outlooks } = demoMorning(demo)
    const green = plan.waiting.filter(({ reason }) => reason === 'patch-green')
    expect(green.length).toBeGreaterThan(0)
    const [low, high] = TRADE_FACTS.greenSpotPoints
    const above = green.map(({ part, moistureWb }) => {
      const main = outlooks.find((outlook) => outlook.part.key === part.field.id)!
      return moistureWb - Math.min(...main.medianWb.subarray(0, 18))
    })
    // Nearest of them, a point and a half of play: whole fields are drawn, not one.
    const nearest = above.reduce((best, points) => (Math.abs(points - 4.5) < Math.abs(best - 4.5) ? points : best))
    expect(nearest, `read above: ${above.map((points) => points.toFixed(1)).join(', ')}`).toBeGreaterThan(low - 1.5)
    expect(nearest, `read above: ${above.map((points) => points.toFixed(1)).join(', ')}`).toBeLessThan(high + 1.5)
  })
})
