import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  bulkDensityKgM3,
  fieldCapacityHaPerH,
  litresFromTonnes,
  stopToUnloadFactor,
  tankFillMin,
  throughputTPerH,
  tonnesFromLitres,
  unloadMin,
} from '#core/planning/capacity/cutting.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import {
  buPerAcreFromTPerHa,
  HA_PER_ACRE,
  kgPerBushel,
  L_PER_BUSHEL,
  M_PER_FT,
  MS_PER_KMH,
  MS_PER_MPH,
  tPerHaFromBuPerAcre,
} from '#core/units/convert.ts'
import {
  ACRES_PER_H_DIVISOR,
  CORN_KG_M3,
  D497_COMBINE_EFFICIENCY,
  INCONSISTENT_THROUGHPUT,
  TRADE_FACTS,
  WORKED_CAPACITY,
  WORKED_METRIC,
} from '#tests/truth/capacity.ts'

const acresPerH = (widthFt: number, mph: number, efficiency: number): number =>
  fieldCapacityHaPerH(widthFt * M_PER_FT, mph * MS_PER_MPH, efficiency) / HA_PER_ACRE
const CORN_LB = CROP_TRADE.corn.lbPerBu
const positive = fc.double({ min: 0.01, max: 1e4, noNaN: true })

describe('field capacity', () => {
  it.each(WORKED_CAPACITY)('$what: $acresPerH acres/h, $buPerH bu/h', (row) => {
    expect(acresPerH(row.widthFt, row.mph, row.efficiency)).toBeCloseTo(row.acresPerH, 2)
    const haPerH = fieldCapacityHaPerH(row.widthFt * M_PER_FT, row.mph * MS_PER_MPH, row.efficiency)
    const tPerH = throughputTPerH(haPerH, tPerHaFromBuPerAcre(row.buPerAcre, CORN_LB))
    expect(Math.abs((tPerH * 1000) / kgPerBushel(CORN_LB) - row.buPerH)).toBeLessThan(1)
  })

  it('wheat in metric: 4.10 ha/h, 16.4 t/h', () => {
    const haPerH = fieldCapacityHaPerH(WORKED_METRIC.widthM, WORKED_METRIC.kmh * MS_PER_KMH, WORKED_METRIC.efficiency)
    expect(haPerH).toBeCloseTo(WORKED_METRIC.haPerH, 2)
    expect(throughputTPerH(haPerH, WORKED_METRIC.yieldTHa)).toBeCloseTo(WORKED_METRIC.tPerH, 1)
  })

  it('agrees with mph x ft / 8.25 for any machine (Kentucky AEN-73)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 60, noNaN: true }),
        fc.double({ min: 0.5, max: 10, noNaN: true }),
        (ft, mph) => {
          expect(acresPerH(ft, mph, 1)).toBeCloseTo((mph * ft) / ACRES_PER_H_DIVISOR, 9)
        },
      ),
    )
  })

  it('covers 150-200 acres in a long day with 45 ft at 4 mph', () => {
    const acres = acresPerH(45, 4, D497_COMBINE_EFFICIENCY.usual) * TRADE_FACTS.longDayH
    expect(acres).toBeGreaterThan(TRADE_FACTS.acresInALongDay[0])
    expect(acres).toBeLessThan(TRADE_FACTS.acresInALongDay[1])
  })

  it('a printed 6,600 bu/h is rounded up by its source', () => {
    const { buPerAcre, mph, widthFt, printedBuPerH, exactBuPerH } = INCONSISTENT_THROUGHPUT
    expect(acresPerH(widthFt, mph, 1) * buPerAcre).toBeCloseTo(exactBuPerH, 6)
    expect(printedBuPerH).toBeGreaterThan(exactBuPerH)
  })
})

describe('tank', () => {
  it('of 400 bu fills in about seven minutes of heavy corn', () => {
    const haPerH = fieldCapacityHaPerH(30 * M_PER_FT, 4 * MS_PER_MPH, 1)
    const tPerH = throughputTPerH(haPerH, tPerHaFromBuPerAcre(230, CORN_LB))
    const fill = tankFillMin(400 * L_PER_BUSHEL, litresFromTonnes(tPerH, bulkDensityKgM3('corn')))
    expect(Math.abs(fill - TRADE_FACTS.fillMin)).toBeLessThan(TRADE_FACTS.fillWithin)
  })

  it('of 400 bu empties in about 105 s', () => {
    const seconds = 60 * unloadMin(400 * L_PER_BUSHEL, 3.8 * L_PER_BUSHEL)
    expect(Math.abs(seconds - TRADE_FACTS.unloadS)).toBeLessThan(TRADE_FACTS.unloadWithin)
  })

  it('a stop as long as the fill halves the rate', () => {
    expect(stopToUnloadFactor(8, 8)).toBe(0.5)
    expect(stopToUnloadFactor(8, 0)).toBe(1)
  })

  it('is a share that falls with the stop', () => {
    fc.assert(
      fc.property(positive, positive, (fill, stop) => {
        const factor = stopToUnloadFactor(fill, stop)
        expect(factor).toBeGreaterThan(0)
        expect(factor).toBeLessThanOrEqual(1)
        expect(stopToUnloadFactor(fill, stop + 1)).toBeLessThan(factor)
      }),
    )
  })
})

describe('bulk density', () => {
  it('of corn is 720.8 kg/m3', () => {
    expect(bulkDensityKgM3('corn')).toBeCloseTo(CORN_KG_M3, 1)
  })

  it('turns volume to weight and back, and makes a bushel weigh its pounds', () => {
    fc.assert(
      fc.property(positive, positive, (tonnes, density) => {
        expect(tonnesFromLitres(litresFromTonnes(tonnes, density), density)).toBeCloseTo(tonnes, 6)
      }),
    )
    const tHa = tonnesFromLitres(60 * L_PER_BUSHEL, bulkDensityKgM3('soybean')) / HA_PER_ACRE
    expect(buPerAcreFromTPerHa(tHa, CROP_TRADE.soybean.lbPerBu)).toBeCloseTo(60, 9)
  })
})

describe('unknown input', () => {
  it('stays unknown', () => {
    for (const bad of [Number.NaN, -1]) {
      expect(fieldCapacityHaPerH(bad, 2, 0.7)).toBeNaN()
      expect(fieldCapacityHaPerH(9, bad, 0.7)).toBeNaN()
      expect(fieldCapacityHaPerH(9, 2, bad)).toBeNaN()
      expect(throughputTPerH(bad, 4)).toBeNaN()
      expect(throughputTPerH(4, bad)).toBeNaN()
      expect(tankFillMin(bad, 100)).toBeNaN()
      expect(tankFillMin(100, bad)).toBeNaN()
      expect(unloadMin(bad, 100)).toBeNaN()
      expect(unloadMin(100, bad)).toBeNaN()
      expect(stopToUnloadFactor(bad, 1)).toBeNaN()
      expect(stopToUnloadFactor(1, bad)).toBeNaN()
    }
    expect(fieldCapacityHaPerH(9, 2, 1.01)).toBeNaN()
    expect(tankFillMin(100, 0)).toBeNaN()
    expect(unloadMin(100, 0)).toBeNaN()
  })
})
