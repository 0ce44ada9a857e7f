import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dustGPerM3, opticalRangeM, type Plume, relativeWind } from '#core/science/dust/plume.ts'
import { type PassWork, passAdvice, sightAheadM, sightOnPass, visibilityOf } from '#core/science/dust/sight.ts'
import { COMPUTED_PLUME, COMPUTED_RELATIVE_WIND } from '#tests/truth/dust.ts'

const WORK: PassWork = { travelMs: 2, swathM: 9, dustClass: 'heavy', straw: false }
const deg = fc.double({ min: 0, max: 360, noNaN: true, maxExcluded: true })
const breeze = fc.double({ min: 1, max: 15, noNaN: true })
const daylight = fc.double({ min: 20, max: 1000, noNaN: true })
const ORDER = ['clear', 'thin', 'poor', 'blind']
const between = (a: number, b: number) => Math.min((((a - b) % 180) + 180) % 180, (((b - a) % 180) + 180) % 180)

describe('sight ahead', () => {
  it('in the cloud that runs ahead it lies between the range at its start and at its end', () => {
    const row = COMPUTED_PLUME[4]
    const plume: Plume = { ...row, emissionGPerS: row.gPerS, swathM: 9 }
    const ours = sightAheadM(plume, 0, 0, 0)
    expect(ours).toBeGreaterThan(opticalRangeM(dustGPerM3(plume, 0, 0)))
    expect(ours).toBeLessThan(opticalRangeM(dustGPerM3(plume, 100, 0)))
  })

  it('the computed rows in order: tailwind worst, then the wind from the side, then headwind, for the driver', () => {
    const sights = COMPUTED_RELATIVE_WIND.slice(0, 3).map((row) => {
      const wind = relativeWind(row.windMs, row.fromDeg, row.travelMs, row.headingDeg)
      const plume: Plume = { emissionGPerS: 9.945, stability: 'D', windMs: 4, relativeMs: wind.speedMs, swathM: 9 }
      return sightAheadM(plume, wind.bearingDeg, 0, 0)
    })
    expect(sights[0]).toBeLessThan(150)
    expect(sights[1]).toBe(1000)
    expect(sights[2]).toBeGreaterThan(sights[0]!)
  })

  it('is shorter in more dust, and not known without the wind', () => {
    const plume: Plume = { emissionGPerS: 5, stability: 'D', windMs: 4, relativeMs: 2, swathM: 9 }
    expect(sightAheadM({ ...plume, emissionGPerS: 10 }, 0, 0, 0)).toBeLessThan(sightAheadM(plume, 0, 0, 0))
    expect(sightAheadM({ ...plume, windMs: Number.NaN }, 0, 0, 0)).toBeNaN()
    expect(sightAheadM(plume, Number.NaN, 0, 0)).toBeNaN()
  })

  it('gets a relative class', () => {
    expect([1000, 500, 499, 150, 149, 50, 49].map(visibilityOf)).toEqual([
      'clear',
      'clear',
      'thin',
      'thin',
      'poor',
      'poor',
      'blind',
    ])
    expect(visibilityOf(Number.NaN)).toBeNull()
  })
})

describe('pass advice', () => {
  it('lays the passes across the wind; worst is along it, both ways of naming a line', () => {
    fc.assert(
      fc.property(breeze, deg, daylight, (windMs, windFromDeg, solarWm2) => {
        const advice = passAdvice({ windMs, windFromDeg, solarWm2 }, WORK)!
        expect(between(advice.preferBearingDeg, windFromDeg)).toBeCloseTo(90, 6)
        expect(between(advice.worstBearingDeg, windFromDeg)).toBeCloseTo(0, 6)
        for (const bearing of [advice.preferBearingDeg, advice.worstBearingDeg]) {
          expect(bearing).toBeGreaterThanOrEqual(0)
          expect(bearing).toBeLessThan(180)
        }
        expect(ORDER.indexOf(advice.along)).toBeGreaterThanOrEqual(ORDER.indexOf(advice.across))
      }),
    )
  })

  it('a search over all bearings finds no better and no worse one', () => {
    fc.assert(
      fc.property(breeze, deg, (windMs, windFromDeg) => {
        const weather = { windMs, windFromDeg, solarWm2: 500 }
        const advice = passAdvice(weather, WORK)!
        const sightOn = (bearing: number) => sightOnPass(weather, WORK, 'D', bearing, 30)
        const best = sightOn(advice.preferBearingDeg)
        const worst = sightOn(advice.worstBearingDeg)
        for (let bearing = 0; bearing < 180; bearing += 15) {
          expect(sightOn(bearing)).toBeLessThanOrEqual(best + 1e-6)
          expect(sightOn(bearing)).toBeGreaterThanOrEqual(worst - 1e-6)
        }
      }),
      { numRuns: 40 },
    )
  })

  it('holds in a wind a little slower than the machines, which blinds most some degrees off the line', () => {
    for (const windMs of [1.652096630650569, 1.7, 1.8, 1.9, 1.95, 1.98]) {
      const weather = { windMs, windFromDeg: 0.000334760972365622, solarWm2: 500 }
      const worst = sightOnPass(weather, WORK, 'D', passAdvice(weather, WORK)!.worstBearingDeg, 30)
      for (let bearing = 0; bearing < 180; bearing++) {
        expect(sightOnPass(weather, WORK, 'D', bearing, 30)).toBeGreaterThanOrEqual(worst - 1e-6)
      }
    }
  })

  it('tells how bad the rows are when they fix the direction', () => {
    const weather = { windMs: 4, windFromDeg: 270, solarWm2: 500 }
    const north = passAdvice(weather, { ...WORK, rowBearingDeg: 180 })!
    expect(north.rows).toEqual({ bearingDeg: 0, offBestDeg: 0, visibility: north.across })
    const east = passAdvice(weather, { ...WORK, rowBearingDeg: 90 })!
    expect(east.rows).toEqual({ bearingDeg: 90, offBestDeg: 90, visibility: east.along })
    expect(east.staggerM).toBeGreaterThanOrEqual(north.staggerM)
  })

  it('calm air leaves no direction to choose and is no better than a breeze across', () => {
    const calm = passAdvice({ windMs: 0.4, windFromDeg: Number.NaN, solarWm2: 500 }, WORK)!
    expect(calm.calm).toBe(true)
    expect([calm.preferBearingDeg, calm.worstBearingDeg, calm.upwindDeg]).toEqual([Number.NaN, Number.NaN, Number.NaN])
    expect(calm.across).toBe(calm.along)
    const breezy = passAdvice({ windMs: 4, windFromDeg: 0, solarWm2: 500 }, WORK)!
    expect(ORDER.indexOf(calm.across)).toBeGreaterThan(ORDER.indexOf(breezy.across))
    const inRows = passAdvice({ windMs: 0.4, windFromDeg: 0, solarWm2: 500 }, { ...WORK, rowBearingDeg: 30 })!
    expect(inRows.rows?.offBestDeg).toBeNaN()
  })

  it('old straw and a dusty crop never make it better', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 15, noNaN: true }), deg, daylight, (windMs, windFromDeg, solarWm2) => {
        const weather = { windMs, windFromDeg, solarWm2 }
        const rank = (work: PassWork) => ORDER.indexOf(passAdvice(weather, work)!.along)
        const light = rank({ ...WORK, dustClass: 'light' })
        const usual = rank({ ...WORK, dustClass: 'usual' })
        expect(usual).toBeGreaterThanOrEqual(light)
        expect(rank(WORK)).toBeGreaterThanOrEqual(usual)
        expect(rank({ ...WORK, straw: true })).toBeGreaterThanOrEqual(rank(WORK))
      }),
    )
  })

  it('says when no gap helps', () => {
    const night = passAdvice({ windMs: 0.2, windFromDeg: 0, solarWm2: 0 }, { ...WORK, straw: true })!
    expect(night.staggerFails).toBe(true)
    expect(night.staggerM).toBe(300)
  })

  it('gives none without wind, its direction or sunlight', () => {
    const weather = { windMs: 4, windFromDeg: 270, solarWm2: 500 }
    for (const key of ['windMs', 'windFromDeg', 'solarWm2'] as const)
      expect(passAdvice({ ...weather, [key]: Number.NaN }, WORK)).toBeNull()
  })
})
