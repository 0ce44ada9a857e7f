import { beforeAll, describe, expect, it } from 'vitest'
import type { DayMade } from '#app/morning.ts'
import { composeNoForecast } from '#core/messages/compose.ts'
import { renderText } from '#core/messages/render-text.ts'
import { printToday } from '#edges/cli/today.ts'
import { daySchema } from '#tests/support/day-schema.ts'
import { DEMO_NOW, type Demo, demoMorning, loadDemo } from '#tests/support/demo-day.ts'

let demo: Demo
let made: DayMade
let none: DayMade
beforeAll(async () => {
  demo = await loadDemo()
  const day = demoMorning(demo)
  made = { message: day.message, day, good: day.ahead, failures: [] } as DayMade
  const message = composeNoForecast(demo.farm, day.date, DEMO_NOW, 'no weather source answered', Number.NaN)
  none = { message, day: undefined, good: undefined, failures: ['x'] } as DayMade
})

describe('what is printed', () => {
  it('is the message as text', () => {
    expect(printToday(demo.farm, made, false)).toBe(renderText(made.message))
  })

  it('is one line of JSON of the documented shape, with a day and without', () => {
    for (const each of [made, none]) {
      const printed = printToday(demo.farm, each, true)
      expect(printed.endsWith('\n')).toBe(true)
      expect(printed.trimEnd()).not.toContain('\n')
      expect(daySchema.safeParse(JSON.parse(printed)).error?.issues).toBeUndefined()
    }
  })
})
