import { beforeAll, describe, expect, it } from 'vitest'
import { composeNoForecast } from '#core/messages/compose.ts'
import type { MorningMessage } from '#core/messages/morning.ts'
import { type LineKind, renderText, sayMorning } from '#core/messages/render-text.ts'
import { at, DEMO_NOW, type Demo, demoDay, loadDemo } from '#tests/support/demo-day.ts'
import { bareNumbers, countWords, wrongSigns } from '#tests/support/said.ts'
import { SILENT_WORDS_PER_MIN } from '#tests/truth/reading.ts'

let demo: Demo
let messages: ReadonlyMap<string, MorningMessage>

/** Mornings of every kind: green fields, rain, a run, a fire stop, a Sunday, frost, the last day of the record. */
const MORNINGS = [
  '2010-07-20T05:30-05:00',
  '2010-09-02T05:30-05:00',
  '2010-09-20T05:30-05:00',
  '2010-09-23T05:30-05:00',
  '2010-09-26T05:30-05:00',
  '2010-09-30T05:30-05:00',
  '2010-10-14T05:30-05:00',
  '2010-11-12T05:30-06:00',
  '2010-11-30T05:30-06:00',
] as const

beforeAll(async () => {
  demo = await loadDemo()
  messages = new Map(MORNINGS.map((instant) => [instant, demoDay(demo, at(instant)).message]))
})

const linesOf = (instant: string, more: Partial<MorningMessage> = {}) =>
  sayMorning({ ...messages.get(instant)!, ...more })

describe.each(['us', 'metric'] as const)('the message in %s units', (units) => {
  it.each(MORNINGS)('of %s: every number carries its unit, and none went wrong', (instant) => {
    for (const { text } of linesOf(instant, { units })) {
      expect(bareNumbers(text), text).toEqual([])
      expect(wrongSigns(text), text).toEqual([])
      expect(text.trim()).toBe(text)
      expect(text.length).toBeGreaterThan(0)
    }
  })
})

describe('reading it', () => {
  const wordsIn = (instant: string, kinds: readonly LineKind[]) =>
    linesOf(instant)
      .filter(({ kind }) => kinds.includes(kind))
      .reduce((sum, { text }) => sum + countWords(text), 0)
  const readIn = (seconds: number, perMin: number) => (perMin * seconds) / 60

  it.each(MORNINGS)('of %s: the first line takes an average reader five seconds', (instant) => {
    expect(wordsIn(instant, ['headline'])).toBeLessThanOrEqual(readIn(5, SILENT_WORDS_PER_MIN.mean))
  })

  it.each(MORNINGS)('of %s: what to do takes him 20 seconds, with what to leave a quick reader', (instant) => {
    expect(wordsIn(instant, ['headline', 'work', 'after'])).toBeLessThanOrEqual(readIn(20, SILENT_WORDS_PER_MIN.mean))
    expect(wordsIn(instant, ['headline', 'work', 'after', 'leave'])).toBeLessThanOrEqual(
      readIn(20, SILENT_WORDS_PER_MIN.quick),
    )
  })
})

describe('its lines', () => {
  it('stand in the order in which a person needs them, a line each', () => {
    const message = messages.get('2010-09-30T05:30-05:00')!
    const kinds = [...new Set(sayMorning(message).map(({ kind }) => kind))]
    expect(kinds).toEqual([
      'headline',
      'work',
      'after',
      'leave',
      'weather-today',
      'fire',
      'dust',
      'hauling',
      'change',
      'confidence',
      'source',
      'caution',
    ])
    expect(renderText(message).split('\n').length).toBe(sayMorning(message).length + 1)
    expect(renderText(message).endsWith('\n')).toBe(true)
  })

  it('name no field on a day without weather', () => {
    const { farm } = demo
    const text = renderText(
      composeNoForecast(farm, Temporal.PlainDate.from('2010-09-30'), DEMO_NOW, 'no weather source answered', 30),
    )
    expect(text.startsWith('No field named')).toBe(true)
    for (const { name } of farm.fields) expect(text).not.toContain(name)
    expect(wrongSigns(text)).toEqual([])
  })

  it('say in Spanish why there is no weather', () => {
    const { farm } = demo
    const limitH = farm.morning.weatherAgeLimitH
    for (const [reason, ageH, said] of [
      ['no weather source answered', Number.NaN, 'ninguna fuente del tiempo respondió'],
      [
        'the newest weather is old',
        limitH + 4.4,
        `lo más nuevo tiene ${limitH + 4} h, más que el límite de ${limitH} h`,
      ],
      ['the forecast ends before now', limitH - 1, 'el pronóstico termina antes de esta hora'],
    ] as const) {
      const date = Temporal.PlainDate.from('2010-09-30')
      const none = composeNoForecast({ ...farm, language: 'es' }, date, DEMO_NOW, reason, ageH)
      expect(renderText(none)).toContain(`falta el pronóstico (${said}).`)
    }
  })
})

describe('the guard itself', () => {
  it('sees a bare number and a number gone wrong', () => {
    expect(bareNumbers('Run Mill Forty at 12')).toEqual(['12'])
    expect(bareNumbers('12.7% until 13:30, 116 of 116 acres, 3-5 mph, 7 in 10')).toEqual([])
    expect(wrongSigns('humidity down to NaN%, gusts to ∞ mph, undefined')).toEqual(['NaN', '∞', 'undefined'])
  })
})
