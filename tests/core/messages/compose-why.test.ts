import { describe, expect, it } from 'vitest'
import type { FieldPart } from '#core/field/parts.ts'
import { partName } from '#core/messages/names.ts'
import { sayMorning } from '#core/messages/render-text.ts'
import type { Choice } from '#core/planning/optimiser/explain.ts'
import type { Waiting } from '#core/planning/plan.ts'
import { composedDemo } from './support/composed.ts'

const { day, compose, planWith, waitingFor } = await composedDemo()

describe('why the plan is as it is', () => {
  const choice = (more: Partial<Choice> = {}): Choice => ({
    partKey: day.plan.runs[0]!.part.key,
    outfitId: day.plan.runs[0]!.outfitId,
    reason: 'loses-more',
    perDayWaiting: 240,
    instead: { partKey: day.outlooks[1]!.part.key, costs: 430, perDayWaiting: 20, turnsAtPerHa: 9 },
    ...more,
  })

  it('names what the first run loses by waiting, and what the next best in its place would cost', () => {
    const { why } = compose({ choices: [choice()] })
    expect(why).toMatchObject({ reason: 'loses-more', perDayWaiting: 240, instead: { costs: 430 } })
    expect(why!.instead!.partName).toBe(partName(day.outlooks[1]!.part))
    const lines = sayMorning(compose({ choices: [choice()] })).filter(({ kind }) => kind === 'why')
    expect(lines.map(({ text }) => text)).toEqual([
      `Why ${why!.partName} first: it loses most by waiting, about $240 a day. ${why!.instead!.partName} in its place would cost about $430.`,
    ])
  })

  it('is silent where nothing was weighed, and where it makes no difference', () => {
    expect(compose().why).toBeUndefined()
    expect(compose({ choices: [choice({ partKey: 'elsewhere' })] }).why).toBeUndefined()
    const same = { partKey: day.outlooks[1]!.part.key, costs: 3, perDayWaiting: 1, turnsAtPerHa: 0 }
    expect(compose({ choices: [choice({ perDayWaiting: 4, instead: same })] }).why).toBeUndefined()
  })

  it('says that it is pinned even where nothing else was weighed', () => {
    expect(
      compose({ choices: [choice({ reason: 'pinned', perDayWaiting: 0, instead: undefined })] }).why,
    ).toMatchObject({
      reason: 'pinned',
    })
  })

  it('says when to stop, though more is fit, and what going on would cost', () => {
    const resting = (part: FieldPart, waitingSaves: number): Waiting => ({
      ...waitingFor('worth-waiting', part),
      waitingSaves,
    })
    const [a, b] = [day.outlooks[1]!.part, day.outlooks[2]!.part]
    const message = compose({ plan: planWith({ waiting: [resting(a, 300), resting(b, 900)] }) })
    const ends = Math.max(...day.plan.runs.map(({ endEpochH }) => endEpochH))
    expect(message.rest).toEqual({ fromEpochH: ends, partNames: [partName(b), partName(a)], costs: 900 })
    expect(message.turns).not.toContain(partName(a))
    expect(message.leave.map((said) => said.partName)).not.toContain(partName(a))
    const said = sayMorning(message).map(({ text }) => text)
    expect(said.filter((text) => text.includes('$900'))).toHaveLength(1)
    const spanish = sayMorning({ ...message, language: 'es' }).map(({ text }) => text)
    expect(spanish.filter((text) => text.startsWith('Pare a las') && text.includes('$900'))).toHaveLength(1)
  })

  it('does not tell a crew to stop that has not begun', () => {
    const message = compose({
      plan: planWith({ runs: [], waiting: [{ ...waitingFor('worth-waiting'), waitingSaves: 80 }] }),
    })
    expect(message.rest).toMatchObject({ fromEpochH: Number.NaN, costs: 80 })
    expect(sayMorning(message).some(({ text }) => text.startsWith('Do not cut today'))).toBe(true)
  })
})
