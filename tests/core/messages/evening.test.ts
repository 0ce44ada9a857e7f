import { beforeAll, describe, expect, it } from 'vitest'
import type { Day } from '#app/make-day.ts'
import { composeEvening, type EveningInput } from '#core/messages/evening.ts'
import { partName } from '#core/messages/names.ts'
import { renderEvening } from '#core/messages/render-evening.ts'
import { LEVEL_STOP } from '#core/science/fire/care.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import { at, type Demo, demoDay, loadDemo } from '#tests/support/demo-day.ts'
import { bareNumbers, wrongSigns } from '#tests/support/said.ts'

const EVENINGS = [
  '2010-07-20T19:30-05:00',
  '2010-09-20T19:30-05:00',
  '2010-09-30T19:30-05:00',
  '2010-11-12T19:30-06:00',
]

let demo: Demo
let days: ReadonlyMap<string, Day>
beforeAll(async () => {
  demo = await loadDemo()
  days = new Map(EVENINGS.map((instant) => [instant, demoDay(demo, at(instant))]))
})

const inputOf = (day: Day, more: Partial<EveningInput> = {}): EveningInput => ({
  farm: day.farm,
  date: day.date,
  nowEpochH: day.nowEpochH,
  outlooks: day.outlooks,
  plan: day.plan,
  standingHa: day.standingHa,
  weather: day.ahead,
  fire: day.fire,
  ...more,
})
const ripe = () => days.get('2010-09-30T19:30-05:00')!

describe('the outlook on tomorrow', () => {
  it('names fields with a window within tomorrow by the clock, likeliest first', () => {
    const said = composeEvening(inputOf(ripe()))
    const { startEpochH, endEpochH } = hoursOfLocalDay(said.date, demo.farm.timeZone)
    expect(said.date.toString()).toBe('2010-10-01')
    expect(said.likely.length).toBeGreaterThan(0)
    for (const one of said.likely) {
      expect(one.startEpochH).toBeGreaterThanOrEqual(startEpochH)
      expect(one.endEpochH).toBeLessThanOrEqual(endEpochH)
      expect(one.chance).toBeGreaterThan(0)
    }
  })

  it('goes by what the week’s plan cuts then, where there is one', () => {
    const day = ripe()
    const free = composeEvening(inputOf(day))
    const other = day.outlooks.find(({ part }) => partName(part) === free.likely[1]!.partName)!
    const later = [{ date: free.date, partKey: other.part.key, meanHa: 30, chance: 0.9 }]
    expect(composeEvening(inputOf(day, { later })).likely[0]!.partName).toBe(free.likely[1]!.partName)
    const yesterday = [{ ...later[0]!, date: day.date }]
    expect(composeEvening(inputOf(day, { later: yesterday })).likely).toEqual(free.likely)
  })

  it('leaves out what is cut by then', () => {
    const day = ripe()
    const [first] = composeEvening(inputOf(day)).likely
    const part = day.outlooks.find((outlook) => partName(outlook.part) === first!.partName)!.part
    const gone = composeEvening(inputOf(day, { standingHa: new Map([[part.key, 0]]) }))
    expect(gone.likely.map(({ partName: name }) => name)).not.toContain(first!.partName)
    expect(gone.measure.map(({ partName: name }) => name)).not.toContain(first!.partName)
  })

  it('says why where no field is likely', () => {
    const said = composeEvening(inputOf(days.get('2010-07-20T19:30-05:00')!))
    expect([said.likely, said.heldBy]).toEqual([[], 'unripe'])
    expect(renderEvening(said).title).toBe('No field likely tomorrow: not ripe yet.')
    expect(said.measure).toEqual([])
  })

  it('says what could change it: rain, a fire stop, grain off its band, sources that differ', () => {
    const day = ripe()
    const kinds = (more: Partial<EveningInput>) => composeEvening(inputOf(day, more)).changes.map(({ kind }) => kind)
    const rainy = { ...day.ahead, rainMm: new Float32Array(day.ahead.rainMm.length).fill(1) }
    expect(kinds({ weather: rainy })[0]).toBe('rain')
    const dry = { ...day.ahead, rainMm: new Float32Array(day.ahead.rainMm.length) }
    expect(kinds({ weather: dry })).not.toContain('rain')
    const stops = { ...day.fire, level: new Uint8Array(day.fire.level.length).fill(LEVEL_STOP) }
    expect(composeEvening(inputOf(day, { fire: stops })).changes).toContainEqual(
      expect.objectContaining({ kind: 'fire', level: 'stop' }),
    )
    const differing = { sources: 2, differs: ['rain'], airTempC: 1, relHumidity: 1, rainChance: 1 } as const
    expect(composeEvening(inputOf(day, { agreement: differing, weather: dry })).changes.at(-1)).toEqual({
      kind: 'sources',
      differs: ['rain'],
    })
  })

  it('tells how likely the first field is off its band when its window opens', () => {
    const day = ripe()
    const [first] = composeEvening(inputOf(day)).likely
    const shifted = (points: number) =>
      day.outlooks.map((outlook) =>
        partName(outlook.part) === first!.partName
          ? { ...outlook, moistureWb: outlook.moistureWb.map(() => 11.5 + points) }
          : outlook,
      )
    const said = (points: number) =>
      composeEvening(inputOf(day, { outlooks: shifted(points) })).changes.find(({ kind }) => kind === 'moisture')
    expect(said(0)).toBeUndefined()
    expect(said(2)).toMatchObject({ side: 'wetter', limitWb: 13, chance: 1 })
    expect(said(-2)).toMatchObject({ side: 'drier', limitWb: 10, chance: 1 })
  })
})

describe.each(['us', 'metric'] as const)('in words, %s units', (units) => {
  it.each(EVENINGS)('of %s: every number carries its unit, in both languages', (instant) => {
    const said = { ...composeEvening(inputOf(days.get(instant)!)), units }
    for (const language of ['en', 'es'] as const) {
      const { title, paragraphs } = renderEvening({ ...said, language })
      for (const text of [title, ...paragraphs]) {
        if (language === 'en') expect(bareNumbers(text), text).toEqual([])
        expect(wrongSigns(text), text).toEqual([])
        expect(text.trim()).toBe(text)
      }
    }
  })
})
