import { describe, expect, it } from 'vitest'
import { composeNoForecast } from '#core/messages/compose.ts'
import { sayMorning } from '#core/messages/render-text.ts'
import { renderShort } from '#core/messages/short.ts'
import { fireOutlook } from '#core/outlook/day-fire.ts'
import type { Waiting } from '#core/planning/plan.ts'
import { zonedAt } from '#core/units/time.ts'
import { at, DEMO_NOW, demoDay } from '#tests/support/demo-day.ts'
import { composedDemo } from './support/composed.ts'

const { demo, day, compose, planWith, waitingFor } = await composedDemo()

describe('a day without runs', () => {
  it('stands by, with the next window and the reason that most parts share', () => {
    const waiting = [waitingFor('soft-ground'), waitingFor('soft-ground'), waitingFor('rain')]
    const { headline, hauling, dust, confidence } = compose({ plan: planWith({ runs: [], waiting }) })
    expect(headline).toMatchObject({ kind: 'wait', reason: 'soft-ground', nextEpochH: DEMO_NOW + 40, chance: 0.6 })
    expect([hauling, dust, confidence]).toEqual([[], undefined, undefined])
  })

  it('leaves out of the lines below what the first one says, and what holds all fields alike', () => {
    const said = (...reasons: Waiting['reason'][]) =>
      compose({ plan: planWith({ runs: [], waiting: reasons.map((reason) => waitingFor(reason)) }) }).leave.map(
        ({ reason }) => reason,
      )
    expect(said('buyer-shut', 'buyer-shut', 'soft-ground')).toEqual(['soft-ground'])
    expect(said('wet-grain', 'wet-grain')).toEqual(['wet-grain', 'wet-grain'])
    expect(said('crew-off', 'dark')).toEqual([])
  })

  it('does not call a crew off that has gone home for the night', () => {
    const waiting = [waitingFor('crew-off'), waitingFor('crew-off')]
    const on = (date: Temporal.PlainDate) => compose({ plan: planWith({ runs: [], waiting }), date }).headline
    expect(on(day.date)).toMatchObject({ kind: 'wait', reason: undefined })
    const sunday = Temporal.PlainDate.from('2010-10-03')
    expect(on(sunday)).toMatchObject({ kind: 'wait', reason: 'crew-off' })
  })

  it('says nothing of a next window where none is in sight', () => {
    const waiting = [{ ...waitingFor('wet-grain'), next: undefined }]
    expect(compose({ plan: planWith({ runs: [], waiting }) }).headline).toMatchObject({
      kind: 'wait',
      nextFieldName: undefined,
    })
  })

  it('tells fire on a morning with nothing ripe only where it is a stop', () => {
    const fireOf = (waiting: Waiting[], banned = false) => {
      const bans = banned ? [{ from: day.date, to: day.date, text: 'County burn ban' }] : []
      const farm = { ...demo.farm, fireRules: { ...demo.farm.fireRules, bans } }
      const fire = fireOutlook(day.ahead, farm.fireRules, farm.timeZone, false)
      const said = compose({ farm, fire, plan: planWith({ runs: [], waiting }) })
      return sayMorning(said).filter(({ kind }) => kind === 'fire')
    }
    expect(compose().fire.level).toBe('care')
    expect(fireOf([waitingFor('unripe'), waitingFor('unripe')])).toEqual([])
    expect(fireOf([waitingFor('unripe'), waitingFor('wet-plants')])).toHaveLength(1)
    expect(fireOf([waitingFor('unripe')], true)[0]!.text).toContain('FIRE STOP')
    const idle = compose({ plan: planWith({ runs: [], waiting: [waitingFor('unripe')] }) })
    expect(idle.cautions).not.toContain('fire-clean')
    expect(renderShort(idle)).not.toContain('Fire')
  })

  it('is done where nothing stands any more', () => {
    expect(compose({ plan: planWith({ runs: [], waiting: [], ranking: [] }), outlooks: [] }).headline).toEqual({
      kind: 'done',
    })
  })

  it('tells fire for the middle of the day by the clock, on a day of 25 hours too', () => {
    const sunday = demoDay(demo, at('2010-11-07T06:30-06:00'))
    const { fire } = sunday.message
    expect(sunday.plan.runs).toEqual([])
    expect(zonedAt(fire.untilEpochH, 'America/Chicago').hour).toBeLessThanOrEqual(19)
    expect(zonedAt(fire.fromEpochH, 'America/Chicago').hour).toBeGreaterThanOrEqual(10)
  })
})

describe('a day without weather', () => {
  const none = () => composeNoForecast(demo.farm, day.date, DEMO_NOW, 'no weather source answered', Number.NaN)

  it('names no field and says why', () => {
    expect(none().headline).toMatchObject({ kind: 'no-forecast', reason: 'no weather source answered' })
    expect([none().after, none().leave, none().turns]).toEqual([[], [], []])
    expect(none().cautions).toContain('fire-local-rules')
  })

  it('keeps a ban of the farm in force', () => {
    const ban = { from: day.date, to: day.date, text: 'County burn ban' }
    const farm = { ...demo.farm, fireRules: { ...demo.farm.fireRules, bans: [ban] } }
    expect(composeNoForecast(farm, day.date, DEMO_NOW, 'x', 3).fire).toMatchObject({
      level: 'stop',
      banText: 'County burn ban',
    })
  })
})
