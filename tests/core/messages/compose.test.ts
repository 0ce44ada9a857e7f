import { beforeAll, describe, expect, it } from 'vitest'
import type { Day } from '#app/make-day.ts'
import type { FieldPart } from '#core/field/parts.ts'
import { composeMorning, composeNoForecast } from '#core/messages/compose.ts'
import type { ComposeInput } from '#core/messages/compose-input.ts'
import { partName } from '#core/messages/names.ts'
import { sayMorning } from '#core/messages/render-text.ts'
import { renderShort } from '#core/messages/short.ts'
import { fireOutlook } from '#core/outlook/day-fire.ts'
import { rainAhead } from '#core/outlook/day-weather.ts'
import type { Choice } from '#core/planning/optimiser/explain.ts'
import type { DayPlan, Run, Waiting } from '#core/planning/plan.ts'
import { zonedAt } from '#core/units/time.ts'
import { at, DEMO_NOW, type Demo, demoDay, demoMorning, loadDemo } from '#tests/support/demo-day.ts'

let demo: Demo
let day: Day
beforeAll(async () => {
  demo = await loadDemo()
  day = demoMorning(demo)
})

const inputOf = (from: Day, more: Partial<ComposeInput> = {}): ComposeInput => ({
  farm: from.farm,
  date: from.date,
  nowEpochH: from.nowEpochH,
  plan: from.plan,
  outlooks: from.outlooks,
  weather: from.ahead,
  dew: from.dew,
  rain: rainAhead(from.ahead),
  fire: from.fire,
  changes: [],
  measured: false,
  ...more,
})
const compose = (more: Partial<ComposeInput> = {}) => composeMorning(inputOf(day, more))
const planWith = (more: Partial<DayPlan>): DayPlan => ({ ...day.plan, ...more })
const waitingFor = (reason: Waiting['reason'], part = day.outlooks[0]!.part): Waiting => ({
  part,
  reason,
  moistureWb: 15,
  next: { startEpochH: DEMO_NOW + 40, chance: 0.6 },
})

describe('a day with runs', () => {
  it('puts the first run on the first line, and hides no run of the day', () => {
    const message = compose()
    expect(message.headline).toMatchObject({ kind: 'run', run: { partName: partName(day.plan.runs[0]!.part) } })
    expect(message.confidence).toMatchObject({ chance: day.plan.runs[0]!.chance, measured: false })
    const many: Run[] = day.outlooks.slice(0, 6).map(({ part }, n) => ({
      ...day.plan.runs[0]!,
      part,
      startEpochH: DEMO_NOW + 5 + n,
      endEpochH: DEMO_NOW + 5.5 + n,
    }))
    const said = compose({ plan: planWith({ runs: many, waiting: [] }) })
    const names = [
      said.headline.kind === 'run' ? said.headline.run.partName : '',
      ...said.after.map((run) => run.partName),
      ...said.turns,
    ]
    expect(names).toEqual(many.map((run) => partName(run.part)))
  })

  it('tells a field and the patch run right after it as one', () => {
    const [first] = day.plan.runs
    const patch = { id: 'p', name: 'P', share: 0.1, kind: 'green', laterDays: 4, handling: 'leave' } as const
    const after = { ...first!, part: { ...first!.part, key: 'p', patch }, startEpochH: first!.endEpochH, areaHa: 2 }
    const { headline, after: others } = compose({ plan: planWith({ runs: [first!, after] }) })
    expect(others).toEqual([])
    expect(headline).toMatchObject({ run: { partName: partName(first!.part), areaHa: first!.areaHa + 2 } })
  })

  it('tells a turn once, and no part twice', () => {
    const [first] = day.plan.runs
    const said = compose({
      plan: planWith({ runs: [first!, first!, first!, first!], waiting: [waitingFor('later-turn', first!.part)] }),
    })
    expect(said.turns).toEqual([])
  })

  it('tells what is left standing apart from what waits its turn', () => {
    const said = compose({
      plan: planWith({ waiting: [waitingFor('later-turn'), waitingFor('wet-grain'), waitingFor('rain')] }),
    })
    expect(said.leave.map(({ reason }) => reason)).toEqual(['wet-grain', 'rain'])
  })

  it('warns of brittle grain below the band', () => {
    const run = day.plan.runs[0]!
    const brittle = (startMoistureWb: number) => {
      const { headline } = compose({ plan: planWith({ runs: [{ ...run, startMoistureWb, endMoistureWb: 11 }] }) })
      return headline.kind === 'run' && headline.run.brittle
    }
    expect([brittle(10.1), brittle(9.9)]).toEqual([false, true])
  })

  it('tells what carts and trucks there are beside what is needed, and when the buyer shuts by the clock', () => {
    const { hauling, buyers } = compose()
    const outfit = demo.farm.outfits[0]!
    expect(hauling).toMatchObject([{ cartsThere: outfit.carts.length, trucksThere: outfit.trucks.length }])
    expect(zonedAt(buyers[0]!.closesEpochH, 'America/Chicago').toPlainTime().toString({ smallestUnit: 'minute' })).toBe(
      '19:00',
    )
  })

  it('says which outfit goes where when more than one runs, and tells the first run of each', () => {
    const [first] = demo.farm.outfits
    const farm = { ...demo.farm, outfits: [first!, { ...first!, id: 'north', name: 'North crew', trucks: [] }] }
    const stands = day.outlooks.filter(({ part }) => !part.patch)
    const run = (n: number, outfitId: string): Run => ({
      ...day.plan.runs[0]!,
      part: stands[n]!.part,
      outfitId,
      startEpochH: DEMO_NOW + 5 + n,
      endEpochH: DEMO_NOW + 5.9 + n,
    })
    const runs = [run(0, first!.id), run(1, first!.id), run(2, first!.id), run(3, first!.id), run(4, 'north')]
    const said = compose({ farm, plan: planWith({ runs, waiting: [] }) })
    expect(said.headline).toMatchObject({ run: { outfitName: first!.name } })
    expect(said.after.map(({ partName: name, outfitName }) => [name, outfitName])).toEqual([
      [partName(runs[1]!.part), first!.name],
      [partName(runs[4]!.part), 'North crew'],
    ])
    expect(said.turns).toEqual([partName(runs[2]!.part), partName(runs[3]!.part)])
    expect(said.hauling.map(({ outfitName, trucksThere }) => [outfitName, trucksThere])).toEqual([
      [first!.name, first!.trucks.length],
      ['North crew', 0],
    ])
    const lines = sayMorning(said).map(({ text }) => text)
    expect(lines[1]).toMatch(new RegExp(`^${first!.name}: `))
    expect(lines).toContainEqual(expect.stringMatching(/^North crew runs /))
    expect(lines).toContainEqual(expect.stringMatching(/Hauling for North crew: /))
    for (const { text } of sayMorning(compose())) expect(text).not.toContain(first!.name)
  })

  it('tells the hours of every buyer that a run told goes to, each once', () => {
    const [a, b] = demo.farm.buyers
    const to = (n: number, buyerId: string): Run => {
      const { part } = day.outlooks[n]!
      const startEpochH = DEMO_NOW + 5 + n
      const field = { ...part.field, buyerId }
      return { ...day.plan.runs[0]!, part: { ...part, field }, startEpochH, endEpochH: startEpochH + 0.9 }
    }
    const said = compose({ plan: planWith({ runs: [to(0, a!.id), to(1, b!.id), to(2, a!.id)], waiting: [] }) })
    const hauling = sayMorning(said).find(({ kind }) => kind === 'hauling')!.text
    expect(hauling).toContain(`${a!.name} takes grain until 19:00, ${b!.name} until 17:00.`)
  })

  it('gives the cautions of the day: eyes first, always; dust and lines where there is cutting', () => {
    expect(compose().cautions).toEqual(
      expect.arrayContaining(['eyes-first', 'screen-lags', 'dust-stop', 'power-lines']),
    )
    expect(compose({ plan: planWith({ runs: [] }) }).cautions).not.toContain('dust-stop')
  })
})

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
