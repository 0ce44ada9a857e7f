import { describe, expect, it } from 'vitest'
import { HOLDBACK_BIT } from '#core/outlook/holdback.ts'
import { zonedAt } from '#core/units/time.ts'
import { at, firstPart, holdBack, raining, setUp, withDay } from '#tests/app/support/alert-looks.ts'

describe('alerts of the work under way', () => {
  it('tell of rain that reaches a field being cut, with time, chance and deed, and of its end', async () => {
    const { look, made, letters } = await setUp()
    const wet = raining(made, at('14:00'), at('16:00'), 0.8)
    expect(await look(at('10:30'), wet)).toEqual([])
    expect(await look(at('12:10'), wet)).toEqual(['rain start'])
    expect(await look(at('12:40'), wet)).toEqual([])
    expect(await look(at('16:10'), wet)).toEqual([])
    expect(await look(at('17:20'), wet)).toEqual(['rain end'])
    const crew = (await letters()).filter(({ recipient }) => recipient === 'bert-quill')
    expect(crew.map(({ letter }) => letter.subject)).toEqual(['Rain about 14:00', 'Rain is past'])
    expect(crew[0]!.letter.text).toMatch(
      /^Rain about 14:00 at Twin Elms.*: 8 in 10, about 0\.\d\d in, likely until 16:00\. Get the cut grain under cover, tarp trucks and carts\.\n$/,
    )
  })

  it('tell of grain too wet to go on after half an hour of it, with the limit, and when it is back in its band', async () => {
    const { look, made, letters } = await setUp()
    const wet = (above: number) =>
      firstPart(made, at('11:00'), (h, { medianWb, part }) => {
        medianWb[h] = part.field.band.highWb + above
      })
    expect(await look(at('12:00'), wet(0.4))).toEqual([])
    expect(await look(at('12:10'), wet(0.6))).toEqual([])
    expect(await look(at('12:40'), wet(0.6))).toEqual(['too-wet start'])
    expect(await look(at('12:50'), wet(0.1))).toEqual([])
    expect(await look(at('12:55'), wet(-0.1))).toEqual([])
    expect(await look(at('13:25'), wet(-0.1))).toEqual([])
    const [told] = (await letters()).filter(({ recipient }) => recipient === 'bert-quill')
    expect(told!.letter.text).toMatch(
      /^Too wet at Twin Elms.*: beans about 13\.6%, your limit is 13\.0%\. Stop and probe/,
    )
  })

  it('tell of ground that does not carry, before the carts are on it', async () => {
    const { look, made, letters } = await setUp()
    const soft = (share: number) =>
      firstPart(made, at('08:00'), (h, outlook) => holdBack(h, outlook, HOLDBACK_BIT['soft-ground'], share))
    expect(await look(at('09:00'), soft(0.4))).toEqual([])
    expect(await look(at('09:30'), soft(0.6))).toEqual([])
    expect(await look(at('10:00'), soft(0.6))).toEqual(['soft-ground start'])
    // A firm field two hours on, but not yet for an hour.
    expect(await look(at('12:10'), soft(0))).toEqual([])
    expect(await look(at('13:15'), soft(0))).toEqual(['soft-ground end'])
    expect((await letters()).filter(({ recipient }) => recipient === 'bert-quill')[0]!.letter.text).toMatch(
      /^Ground too soft at Twin Elms.* Keep loaded carts and trucks off it/,
    )
  })

  it('tell of dew that closes a run early, once a day', async () => {
    const { look, made, farm, letters } = await setUp()
    const toldEnd = zonedAt(made.day!.plan.runs[0]!.endEpochH, farm.timeZone)
      .round({ smallestUnit: 'minute', roundingIncrement: 10 })
      .toPlainTime()
      .toString({ smallestUnit: 'minute' })
    const dewy = firstPart(made, at('12:00'), (h, outlook) => holdBack(h, outlook, HOLDBACK_BIT['wet-plants'], 1))
    const early = withDay(dewy, (day) => ({
      ...day,
      outlooks: day.outlooks.map((outlook) => ({
        ...outlook,
        windows: outlook.windows.map((window) =>
          window.startEpochH < at('13:00')
            ? { ...window, endEpochH: at('12:20'), closesWith: 'wet-plants' as const }
            : window,
        ),
      })),
    }))
    expect(await look(at('11:40'), early)).toEqual([])
    expect(await look(at('12:10'), early)).toEqual(['dew start'])
    expect(await look(at('12:25'), early)).toEqual([])
    expect((await letters()).filter(({ recipient }) => recipient === 'bert-quill')[0]!.letter.text).toMatch(
      new RegExp(`^Dew closes Twin Elms.* about 12:20, not ${toldEnd}\\. Plan the last loads for then`),
    )
  })

  it('tell of a wind that has turned along the rows so that dust blinds the line', async () => {
    const { look, made, letters } = await setUp()
    const blowing = (windFromDeg: number, windMs: number) =>
      withDay(made, (day) => ({
        ...day,
        ahead: {
          ...day.ahead,
          rainMm: day.ahead.rainMm.slice().fill(0),
          windFromDeg: day.ahead.windFromDeg.slice().fill(windFromDeg),
          windMs: day.ahead.windMs.slice().fill(windMs),
          solarWm2: day.ahead.solarWm2.slice().fill(0),
        },
      }))
    const rows = made.day!.plan.runs[0]!.part.field.rowBearingDeg!
    expect(await look(at('11:40'), blowing(rows + 90, 6))).toEqual([])
    // Along the rows with as much wind as the machine has speed, and no sun to stir it: the cloud goes with the driver.
    expect(await look(at('11:50'), blowing(rows, 2))).toEqual([])
    expect(await look(at('12:20'), blowing(rows, 2))).toEqual(['dust start'])
    expect((await letters()).filter(({ recipient }) => recipient === 'bert-quill')[0]!.letter.text).toContain(
      'Lost sight of the next machine? Stop and call before you move.',
    )
  })

  it('know a changed plan once they have told it', async () => {
    const { look, made } = await setUp()
    const other = withDay(made, (day) => ({ ...day, plan: { ...day.plan, runs: [] } }))
    expect(await look(at('12:00'), raining(other, 0, 0))).toEqual([])
    expect(await look(at('13:00'), raining(other, 0, 0))).toEqual(['plan-changed start'])
    for (const time of ['13:30', '16:00', '19:00']) expect(await look(at(time), raining(other, 0, 0))).toEqual([])
  })
})
