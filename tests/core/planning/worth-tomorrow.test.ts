import { beforeAll, describe, expect, it } from 'vitest'
import type { Day } from '#app/make-day.ts'
import { worthMeasuring } from '#core/outlook/worth-measuring.ts'
import { measurables } from '#core/planning/worth-tomorrow.ts'
import { at, type Demo, demoDay, loadDemo } from '#tests/support/demo-day.ts'

let demo: Demo
let day: Day
beforeAll(async () => {
  demo = await loadDemo()
  day = demoDay(demo, at('2010-09-30T19:30-05:00'))
})
const TOMORROW = Temporal.PlainDate.from('2010-10-01')
const found = (date = TOMORROW, leftHa: ReadonlyMap<string, number> = new Map()) =>
  measurables(demo.farm, day.outlooks, date, leftHa)

describe('what a day gains over those after it', () => {
  it('is known course by course for all that can be cut and sold', () => {
    const all = found()
    expect(all.map(({ partKey }) => partKey)).toEqual(day.outlooks.map(({ part }) => part.key))
    for (const { gain, moistureWb } of all) {
      expect([gain.length, moistureWb.length]).toEqual([day.outlooks[0]!.courses, day.outlooks[0]!.courses])
      for (const value of Array.from(gain)) expect(Number.isFinite(value)).toBe(true)
    }
  })

  it('is nothing where no hour is fit, and grows with what is left to cut', () => {
    const shut = day.outlooks.map((outlook) => ({ ...outlook, holdbackBits: outlook.holdbackBits.map(() => 1) }))
    for (const { gain } of measurables(demo.farm, shut, TOMORROW, new Map())) {
      expect(Array.from(gain).every((value) => value === 0)).toBe(true)
    }
    const key = 'twin-elms'
    const sum = (leftHa: number) =>
      Array.from(found(TOMORROW, new Map([[key, leftHa]])).find(({ partKey }) => partKey === key)!.gain).reduce(
        (total, value) => total + Math.abs(value),
        0,
      )
    expect(sum(10)).toBeCloseTo(2 * sum(5), 6)
  })

  it('is for no part on a day off, nor beyond what is in sight, nor without a buyer or a head', () => {
    expect(found(Temporal.PlainDate.from('2010-10-03'))).toEqual([])
    expect(found(Temporal.PlainDate.from('2010-10-20'))).toEqual([])
    expect(measurables({ ...demo.farm, buyers: [] }, day.outlooks, TOMORROW, new Map())).toEqual([])
    const headless = demo.farm.outfits.map((outfit) => ({
      ...outfit,
      combines: outfit.combines.map((combine) => ({ ...combine, heads: [] })),
    }))
    expect(measurables({ ...demo.farm, outfits: headless }, day.outlooks, TOMORROW, new Map())).toEqual([])
  })

  it('makes a reading worth most where it is open whether to go: nothing where every course says the same', () => {
    const same = day.outlooks.map((outlook) => {
      const first = outlook.moistureWb.subarray(0, outlook.hours)
      const moistureWb = outlook.moistureWb.map((_, i) => first[i % outlook.hours]!)
      const bits = outlook.holdbackBits.subarray(0, outlook.hours)
      const holdbackBits = outlook.holdbackBits.map((_, i) => bits[i % outlook.hours]!)
      const loss = outlook.standingLoss.subarray(0, outlook.hours)
      const standingLoss = outlook.standingLoss.map((_, i) => loss[i % outlook.hours]!)
      return { ...outlook, moistureWb, holdbackBits, standingLoss }
    })
    for (const { worth } of worthMeasuring(measurables(demo.farm, same, TOMORROW, new Map()), 1)) {
      expect(worth).toBeCloseTo(0, 6)
    }
    expect(worthMeasuring(found(), 1)[0]!.worth).toBeGreaterThan(0)
  })
})
