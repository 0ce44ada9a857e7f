import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { dayJson, noDayJson } from '#app/day-json.ts'
import { composeNoForecast } from '#core/messages/compose.ts'
import { daySchema } from '#tests/support/day-schema.ts'
import { DEMO_NOW, type Demo, demoMorning, loadDemo } from '#tests/support/demo-day.ts'

let demo: Demo
beforeAll(async () => {
  demo = await loadDemo()
})
const asJson = (value: unknown) => JSON.parse(JSON.stringify(value))
const none = () =>
  noDayJson(
    demo.farm,
    composeNoForecast(
      demo.farm,
      Temporal.PlainDate.from('2010-09-30'),
      DEMO_NOW,
      'no weather source answered',
      Number.NaN,
    ),
  )

describe('a day as JSON', () => {
  it('has the documented shape, nothing more and nothing less, with weather and without', () => {
    expect(daySchema.parse(asJson(dayJson(demoMorning(demo))))).toMatchObject({ headline: 'run', reason: null })
    expect(daySchema.parse(asJson(none()))).toMatchObject({
      headline: 'no-forecast',
      weather: null,
      runs: [],
      parts: [],
    })
  })

  it('says the times of the farm with its offset, one hour after the other', () => {
    const json = dayJson(demoMorning(demo))
    expect(json.now).toBe('2010-09-30T05:30-05:00')
    const starts = json.parts[0]!.hours.map(({ start }) => Temporal.Instant.from(start!).epochMilliseconds / 3_600_000)
    expect(starts[0]).toBe(Math.floor(DEMO_NOW))
    for (let h = 1; h < starts.length; h++) expect(starts[h]! - starts[h - 1]!).toBe(1)
  })

  it('tells in numbers what the lines tell in words', () => {
    const day = demoMorning(demo)
    const json = dayJson(day)
    const [run] = json.runs
    expect(json.lines[0]!.text).toContain(run!.name)
    expect(json.lines[0]!.text).toContain(`${run!.startMoistureWb!.toFixed(1)}%`)
    expect(run!.areaHa).toBeLessThanOrEqual(run!.ofAreaHa!)
    expect(json.runs.length).toBe(day.plan.runs.length)
  })
})

describe('the document', () => {
  const text = readFileSync(join(import.meta.dirname, '../../docs/today-json.md'), 'utf8')
  const examples = [...text.matchAll(/```json\n([\s\S]*?)```/g)].map(([, body]) => JSON.parse(body!))

  it('shows examples that have the shape it describes', () => {
    expect(examples.length).toBe(2)
    for (const example of examples) expect(daySchema.safeParse(example).error?.issues).toBeUndefined()
  })

  it('names every field', () => {
    const names = new Set<string>()
    const walk = (value: unknown): void => {
      if (Array.isArray(value)) value.forEach(walk)
      else if (value && typeof value === 'object') {
        for (const [name, inner] of Object.entries(value)) {
          names.add(name)
          walk(inner)
        }
      }
    }
    walk(asJson(dayJson(demoMorning(demo))))
    for (const name of names) expect(text, name).toContain(`\`${name}\``)
  })
})
