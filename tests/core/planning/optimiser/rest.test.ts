import { describe, expect, test } from 'vitest'
import { planWeek } from '#app/plan-week.ts'
import { partsOf } from '#core/field/parts.ts'
import { buildProblem } from '#core/planning/optimiser/build-problem.ts'
import { crewDays } from '#core/planning/optimiser/crew-days.ts'
import { livedLoss } from '#core/planning/optimiser/order.ts'
import { Recourse } from '#core/planning/optimiser/recourse.ts'
import { restGains } from '#core/planning/optimiser/rest.ts'
import { planInput, smallFarm, smallField, smallOutfit, smallOutlook } from '#tests/support/small-outlook.ts'

/** Two fields: `dry` is brittle today and right tomorrow, `right` is right today and drier tomorrow. */
function twoFields(dryTodayWb: number) {
  const fields = [smallField('dry', { areaHa: 40 }), smallField('right', { areaHa: 6 })]
  const outlooks = fields.flatMap(partsOf).map((part) =>
    smallOutlook(part, 4, 4, (hour, day) => {
      const fit = hour >= 10 && hour < 20
      const moistureWb = part.key === 'dry' && day === 0 ? dryTodayWb : 12.5
      return { fit, moistureWb }
    }),
  )
  return planInput(smallFarm(fields, [smallOutfit('outfit')]), outlooks)
}

describe('leaving a fit field for another day', () => {
  test('gains what going there after the visits would lose, by living both days', () => {
    const input = twoFields(8)
    const farmProblem = buildProblem(input)
    const recourse = new Recourse(farmProblem.problem)
    const days = crewDays(input, farmProblem)
    const [dry, right] = ['dry', 'right'].map((key) => farmProblem.problem.jobs.findIndex((job) => job.key === key))
    const gains = restGains(recourse, days, [[right!]])
    expect([...gains.keys()]).toEqual([dry])
    expect(gains.get(dry!)).toBeCloseTo(
      livedLoss(recourse, days, [[right!, dry!]]) - livedLoss(recourse, days, [[right!]]),
      9,
    )
    // 8 % against 12.5 %: over 4 points of weight that nobody pays for, and shatter at the head besides.
    expect(gains.get(dry!)).toBeGreaterThan(0)
  })

  test('is told of a brittle field that there is time for, and not of one that is right', async () => {
    const reasons = async (wb: number) => {
      const { day } = await planWeek(twoFields(wb), undefined)
      return new Map(day.waiting.map((one) => [one.part.key, one]))
    }
    const brittle = (await reasons(8)).get('dry')
    expect(brittle).toMatchObject({ reason: 'worth-waiting' })
    expect(brittle!.waitingSaves).toBeGreaterThan(50)
    expect((await reasons(12.5)).get('dry')?.reason).not.toBe('worth-waiting')
  })
})

test('a fit field that the planner keeps off today says so, and is not run', async () => {
  const input = twoFields(12.5)
  const { date } = input
  const keepOffs = [{ partKey: 'right', from: date, to: date.add({ days: 1 }) }]
  const { day } = await planWeek({ ...input, rules: { ...input.rules, keepOffs } }, undefined)
  expect(day.runs.map(({ part }) => part.key)).toEqual(['dry'])
  expect(day.waiting.map(({ part, reason }) => [part.key, reason])).toEqual([['right', 'kept-off']])
  const over = [{ partKey: 'right', from: date.subtract({ days: 3 }), to: date.subtract({ days: 1 }) }]
  const free = await planWeek({ ...input, rules: { ...input.rules, keepOffs: over } }, undefined)
  expect(free.day.waiting.map(({ reason }) => reason)).not.toContain('kept-off')
})
