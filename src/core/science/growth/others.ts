/** Sorghum, canola and sunflower: published degree days from sowing. */
import type { CropClock } from './crop-clock.ts'
import { clippedDegreeDays, meanDegreeDays } from './degree-days.ts'
import type { DayTemps } from './normals.ts'
import { whenReached } from './season.ts'

export type OtherCrop = 'sorghum' | 'canola' | 'sunflower'

interface Need {
  readonly needed: number
  readonly unit: string
  readonly effortSd: number
  readonly progress: (temps: DayTemps) => number
  readonly moistureWb: number
  readonly moistureSdWb: number
  readonly tenderFromDay?: number
}

/** 50 F and 100 F. */
const SORGHUM_BASE_C = 10
const SORGHUM_CEILING_C = 100 / 1.8 - 32 / 1.8
const DEG_F_PER_C = 1.8
/** 44 F. */
const SUNFLOWER_BASE_C = 6.7

export const OTHER_NEEDS: { readonly [C in OtherCrop]: Need } = {
  /**
   * Black layer at 2556 (medium-early) to 3006 (medium-late) deg F d from planting, base 50, ceiling 100: Kansas State
   * University, Agronomy eUpdate 661, Table 1. The middle is used. Moisture 25-35 at black layer: common practice.
   */
  sorghum: {
    needed: 2781,
    unit: 'F, base 50, ceiling 100',
    effortSd: 0.06,
    progress: ({ maxC, minC }) => DEG_F_PER_C * clippedDegreeDays(maxC, minC, SORGHUM_BASE_C, SORGHUM_CEILING_C),
    moistureWb: 30,
    moistureSdWb: 4,
    tenderFromDay: 50,
  },
  /** About 1500 deg C d from seeding, base 0, Brassica napus: Canola Council of Canada, Canola Watch, 22 May 2014. Moisture from memory. */
  canola: {
    needed: 1500,
    unit: 'C, base 0',
    effortSd: 0.05,
    progress: ({ maxC, minC }) => meanDegreeDays(maxC, minC, 0),
    moistureWb: 33,
    moistureSdWb: 5,
  },
  /** R9 at 1276 deg C d from planting, base 6.7: Manitoba Agriculture (Kubinec 2014). 30-40 % moisture at R9: from memory. */
  sunflower: {
    needed: 1276,
    unit: 'C, base 6.7',
    effortSd: 0.06,
    progress: ({ maxC, minC }) => meanDegreeDays(maxC, minC, SUNFLOWER_BASE_C),
    moistureWb: 36,
    moistureSdWb: 4,
    tenderFromDay: 60,
  },
}

/**
 * How sorghum, canola or sunflower gets to physiological maturity.
 *
 * @param crop which. @param plantedDay [epoch days]. Autumn-sown canola is not covered.
 *
 * Sources beside the constants above. Checked: tests/truth/growth.ts.
 */
export function otherClock(crop: OtherCrop, plantedDay: number): CropClock {
  const need = OTHER_NEEDS[crop]
  return {
    covered: true,
    matureOn: (temps, effort) => whenReached(plantedDay, need.needed * effort, temps, need.progress),
    effortSd: need.effortSd,
    modelSdDays: 4,
    moistureWb: need.moistureWb,
    moistureSdWb: need.moistureSdWb,
    ...(need.tenderFromDay === undefined ? {} : { tenderFromDay: need.tenderFromDay }),
    basis: `${need.needed} degree days (${need.unit}) from planting`,
    remarks: [],
  }
}
