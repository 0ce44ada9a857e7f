/** The words of the week for a terminal: what the plan is worth, and how much better one could be. */
import { describe, expect, it } from 'vitest'
import { planWeek } from '#app/plan-week.ts'
import { weekText } from '#app/week-text.ts'
import { partsOf } from '#core/field/parts.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import { weekView } from '#core/planning/optimiser/week-view.ts'
import { planInput, smallFarm, smallField, smallOutfit, smallOutlook, TIME_ZONE } from '#tests/support/small-outlook.ts'

const fields = ['north', 'south'].map((id) => smallField(id))
const farm = smallFarm(fields, [smallOutfit('outfit')])
const outlooks = fields
  .flatMap(partsOf)
  .map((part) => smallOutlook(part, 4, 3, (hour) => ({ fit: hour >= 10 && hour < 20, moistureWb: 12 })))
const input = planInput(farm, outlooks, { days: 4, members: 3 })
const week = await planWeek(input, undefined)
const view = weekView(week, outlooks, input.standingHa, TIME_ZONE)
const said = (plan: Partial<WeekPlan>) =>
  weekText(view, { ...week, ...plan }, farm)
    .split('\n')
    .at(-2)!

describe('the last line of the week', () => {
  const figures = { value: 90_000, loss: 1000, leastLoss: 600, gap: 0.4 }

  it.each(['proven', 'good', 'fallback'] as const)('says of a plan that is %s whom the bound is for', (status) => {
    const line = said({ ...figures, status })
    expect(line).toContain('$400')
    expect(line).toMatch(/knew today’s weather beforehand/)
  })

  it('tells money alone: what is weighed for wishes is in neither figure', () => {
    const line = said({ ...figures, wishes: { mean: 150, bad: 150 } })
    expect(line).toMatch(/^Expected \$90,150, \$850 short of what machines without end would bring/)
  })
})
