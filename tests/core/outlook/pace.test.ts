import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { planWeek } from '#app/plan-week.ts'
import { partsOf } from '#core/field/parts.ts'
import { CARE_PACE, DUST_PACE, meanWind, paceBetween, paceOf } from '#core/outlook/pace.ts'
import { FIRE_LEVELS, LEVEL_CARE } from '#core/science/fire/care.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'
import { MIDNIGHT, planInput, smallFarm, smallField, smallOutfit, smallOutlook } from '#tests/support/small-outlook.ts'

const level = (...codes: number[]) => Uint8Array.from(codes)
const wind = (fromDeg: number, ms: number) => ({ fromDeg: Float32Array.of(fromDeg), ms: Float32Array.of(ms) })

describe('the pace of an outfit', () => {
  it('is the usual one where nothing asks for care, and slower by the hour where fire does', () => {
    const calm = { fromDeg: new Float32Array(2), ms: new Float32Array(2) }
    expect([...paceOf({ followsWheat: false }, level(0, LEVEL_CARE), calm)]).toEqual([1, Math.fround(CARE_PACE)])
  })

  it('is slower where the wind lies along the rows, whichever way they are driven', () => {
    const rows = { rowBearingDeg: 90, followsWheat: false }
    for (const from of [90, 270, -90, 70, 115])
      expect(paceOf(rows, level(0), wind(from, 5))[0]).toBeCloseTo(DUST_PACE, 6)
    for (const from of [0, 180, 45, -135]) expect(paceOf(rows, level(0), wind(from, 5))[0]).toBe(1)
    expect(paceOf(rows, level(0), wind(90, 0.4))[0]).toBe(1)
    expect(paceOf({ followsWheat: false }, level(0), wind(90, 5))[0]).toBe(1)
  })

  it('straw of the crop before widens what counts as along', () => {
    const rows = (followsWheat: boolean) => paceOf({ rowBearingDeg: 90, followsWheat }, level(0), wind(50, 5))[0]
    expect([rows(false), rows(true)]).toEqual([1, Math.fround(DUST_PACE)])
  })

  it('never stops and never runs ahead, whatever is not known', () => {
    const any = fc.float({ noNaN: false })
    const codes = fc.integer({ min: 0, max: FIRE_LEVELS.length - 1 })
    fc.assert(
      fc.property(
        codes,
        any,
        any,
        fc.float({ min: 0, max: 180, noNaN: true }),
        fc.boolean(),
        (code, from, ms, row, straw) => {
          const [pace] = paceOf({ rowBearingDeg: row, followsWheat: straw }, level(code), wind(from, ms))
          expect(pace).toBeGreaterThan(0)
          expect(pace).toBeLessThanOrEqual(1)
        },
      ),
    )
  })

  it('takes the wind of the members together', () => {
    const weather = plainWeather({ startEpochH: 0, hours: 2, members: 2 })
    weather.windFromDeg.set([350, 350, 10, 10])
    weather.windMs.fill(4)
    const { fromDeg, ms } = meanWind(weather)
    expect(fromDeg[0]).toBeCloseTo(0, 4)
    expect(ms[0]).toBeCloseTo(4 * Math.cos((10 * Math.PI) / 180), 4)
  })

  it('makes a day of care shorter by as much', async () => {
    const fields = [smallField('only', { areaHa: 400 })]
    const outlooks = fields
      .flatMap(partsOf)
      .map((part) => smallOutlook(part, 3, 4, (hour) => ({ fit: hour >= 10 && hour < 18, moistureWb: 12 }), 0.03))
    const slow = outlooks.map((outlook) => ({ ...outlook, pace: new Float32Array(outlook.hours).fill(CARE_PACE) }))
    const farm = smallFarm(fields, [smallOutfit('outfit')])
    const cutHa = async (of: typeof outlooks) =>
      (await planWeek(planInput(farm, of), undefined)).day.runs.reduce((sum, { areaHa }) => sum + areaHa, 0)
    expect((await cutHa(slow)) / (await cutHa(outlooks))).toBeCloseTo(CARE_PACE, 3)
    expect(paceBetween(slow[0]!, MIDNIGHT + 10, MIDNIGHT + 18)).toBeCloseTo(CARE_PACE, 6)
  })
})
