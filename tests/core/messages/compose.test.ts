import { describe, expect, it } from 'vitest'
import { partName } from '#core/messages/names.ts'
import { sayMorning } from '#core/messages/render-text.ts'
import type { Run } from '#core/planning/plan.ts'
import { zonedAt } from '#core/units/time.ts'
import { DEMO_NOW } from '#tests/support/demo-day.ts'
import { composedDemo } from './support/composed.ts'

const { demo, day, compose, planWith, waitingFor } = await composedDemo()

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

  it('names dry straw under the crop beside fire where a field that follows wheat is run', () => {
    const [run] = day.plan.runs
    const straw = (followsWheat: boolean) => {
      const part = { ...run!.part, field: { ...run!.part.field, followsWheat } }
      const said = compose({ plan: planWith({ runs: [{ ...run!, part }] }) })
      return [said.fire.strawUnder, sayMorning(said).some(({ text }) => text.includes('dry straw under the crop'))]
    }
    expect([straw(true), straw(false)]).toEqual([
      [true, true],
      [false, false],
    ])
  })

  it('gives the cautions of the day: eyes first, always; dust and lines where there is cutting', () => {
    expect(compose().cautions).toEqual(
      expect.arrayContaining(['eyes-first', 'screen-lags', 'dust-stop', 'power-lines']),
    )
    expect(compose({ plan: planWith({ runs: [] }) }).cautions).not.toContain('dust-stop')
  })
})
