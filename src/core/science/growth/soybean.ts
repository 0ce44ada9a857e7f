/**
 * Soybean: how daylength and warmth bring it to R7 (physiological maturity), by maturity group.
 *
 * Form: Grimm, Jones, Boote & Hesketh 1993, Crop Sci. 33:137-144 (to flowering) and Grimm, Jones, Boote & Herzog 1994,
 * Crop Sci. 34:31-40 (to maturity): a day counts for f(T) f(P) physiological days. The coefficients by maturity group are
 * the generic ones of the CROPGRO soybean model (Boote, Jones & Hoogenboom 1998), from memory, not confirmed. Groups in
 * between are interpolated linearly.
 */
import type { CropClock } from './crop-clock.ts'
import { dayLengthH } from './day-length.ts'
import { clippedDegreeDays } from './degree-days.ts'
import type { DayTemps } from './normals.ts'
import { type DailyTemps, dayOfYearOf, whenReached } from './season.ts'

export interface PhotothermalNeed {
  /** Daylength up to which development runs at full speed [h]. */
  readonly criticalH: number
  /** Speed lost per hour of longer day [1/h]. */
  readonly sensitivity: number
  /** Physiological days: emergence to R1, R1 to first seed (R5), first seed to R7. */
  readonly toFlower: number
  readonly toSeed: number
  readonly toMature: number
}

const row = (
  criticalH: number,
  sensitivity: number,
  toFlower: number,
  toSeed: number,
  toMature: number,
): PhotothermalNeed => ({ criticalH, sensitivity, toFlower, toSeed, toMature })

/** From group 00 (= -1) to 8. */
const GROUPS: readonly PhotothermalNeed[] = [
  row(14.35, 0.148, 16, 12, 30),
  row(14.1, 0.171, 16.8, 13, 31),
  row(13.84, 0.203, 17, 13, 32),
  row(13.59, 0.249, 17.4, 13.5, 32.4),
  row(13.4, 0.285, 19, 14, 34),
  row(13.09, 0.294, 19.4, 15, 34),
  row(12.83, 0.303, 19.8, 15.5, 35),
  row(12.58, 0.311, 20.2, 16, 35.5),
  row(12.33, 0.32, 20.8, 16, 36),
  row(12.07, 0.33, 21.5, 16, 36),
]
const EARLIEST_GROUP = -1
const LATEST_GROUP = 8

/**
 * What a maturity group needs.
 *
 * @param maturityGroup 00 = -1, 0, 1 ... 8, with decimals; RM 00.8 is -0.2. @returns needs; NaN outside -1 to 8.
 */
export function photothermalNeed(maturityGroup: number): PhotothermalNeed {
  if (!(maturityGroup >= EARLIEST_GROUP && maturityGroup <= LATEST_GROUP)) {
    return row(Number.NaN, Number.NaN, Number.NaN, Number.NaN, Number.NaN)
  }
  const place = maturityGroup - EARLIEST_GROUP
  const below = GROUPS[Math.floor(place)] as PhotothermalNeed
  const above = GROUPS[Math.ceil(place)] as PhotothermalNeed
  const between = (key: keyof PhotothermalNeed): number => below[key] + (above[key] - below[key]) * (place % 1)
  return row(between('criticalH'), between('sensitivity'), between('toFlower'), between('toSeed'), between('toMature'))
}

interface Cardinal {
  readonly baseC: number
  readonly fullFromC: number
  readonly fullToC: number
  readonly stopC: number
}
/** Cardinal temperatures of the CROPGRO soybean model, from memory. */
const BEFORE_FLOWER: Cardinal = { baseC: 7, fullFromC: 28, fullToC: 35, stopC: 45 }
const BEFORE_SEED: Cardinal = { baseC: 6, fullFromC: 26, fullToC: 30, stopC: 45 }
const SEED_FILL: Cardinal = { baseC: -48, fullFromC: 26, fullToC: 34, stopC: 45 }
/** Planting to emergence and emergence to first leaf, which daylength does not touch [physiological days]. From memory. */
const TO_EMERGE = 3.6
const TO_FIRST_LEAF = 6
/** Daylength bites a little earlier after flowering [h]. From memory. */
const SHORTER_AFTER_FLOWER_H = 0.3
/** R7 to R8 [physiological days]; 9-12 days in the field. From memory. */
const TO_FULL_MATURITY = 12

/** A sine over the day, taken at eight moments. */
const DAY_SHAPE = Array.from({ length: 8 }, (_, i) => Math.sin((2 * Math.PI * (i + 0.5)) / 8))

/** Mean over a day, its temperature a sine between minimum and maximum. @returns 0-1. */
export function warmthFactor({ maxC, minC }: DayTemps, { baseC, fullFromC, fullToC, stopC }: Cardinal): number {
  let sum = 0
  for (const shape of DAY_SHAPE) {
    const tempC = (maxC + minC) / 2 + ((maxC - minC) / 2) * shape
    const rising = (tempC - baseC) / (fullFromC - baseC)
    const falling = (stopC - tempC) / (stopC - fullToC)
    sum += Math.max(0, Math.min(1, rising, falling))
  }
  return sum / DAY_SHAPE.length
}

/** Long days slow the plant. @returns 0-1. */
export const daylengthFactor = (dayH: number, criticalH: number, sensitivity: number): number =>
  Math.min(1, Math.max(0, 1 - sensitivity * (dayH - criticalH)))

export interface SoybeanStages {
  /** Epoch days with fraction: first flower, first seed, physiological maturity, full maturity. */
  readonly r1: number
  readonly r5: number
  readonly r7: number
  readonly r8: number
}

/**
 * Days on which a soybean field flowers, sets seed and matures.
 *
 * @param plantedDay [epoch days]. @param latDeg [deg]. @param maturityGroup -1 to 8. @param temps temperatures by day.
 * @param effort multiplies what each phase needs.
 * @returns epoch days with fraction; NaN if not reached.
 *
 * Grimm et al. 1993, 1994, see the head of this file. Checked against Stoneville, Purdue, Michigan State, Iowa State
 * and NDSU figures, tests/truth/growth.ts; the differences are in the table of the docs.
 */
export function soybeanStages(
  plantedDay: number,
  latDeg: number,
  maturityGroup: number,
  temps: DailyTemps,
  effort = 1,
): SoybeanStages {
  const need = photothermalNeed(maturityGroup)
  const warmthOnly = (cardinal: Cardinal) => (day: DayTemps) => warmthFactor(day, cardinal)
  const withDaylength = (cardinal: Cardinal, criticalH: number) => (day: DayTemps, epochDay: number) =>
    warmthFactor(day, cardinal) *
    daylengthFactor(dayLengthH(latDeg, dayOfYearOf(epochDay)), criticalH, need.sensitivity)
  const afterH = need.criticalH - SHORTER_AFTER_FLOWER_H

  const firstLeaf = whenReached(plantedDay, (TO_EMERGE + TO_FIRST_LEAF) * effort, temps, warmthOnly(BEFORE_FLOWER))
  const toFlower = (need.toFlower - TO_FIRST_LEAF) * effort
  const r1 = whenReached(firstLeaf, toFlower, temps, withDaylength(BEFORE_FLOWER, need.criticalH))
  const r5 = whenReached(r1, need.toSeed * effort, temps, withDaylength(BEFORE_SEED, afterH))
  const r7 = whenReached(r5, need.toMature * effort, temps, withDaylength(SEED_FILL, afterH))
  const r8 = whenReached(r7, TO_FULL_MATURITY * effort, temps, warmthOnly(SEED_FILL))
  return { r1, r5, r7, r8 }
}

/** Where the NDSU rule was made: North Dakota and Minnesota, RM 00.8 to 1.1, a little to either side. */
const NORTHERN = { fromLatDeg: 45, toLatDeg: 50, fromGroup: -0.5, toGroup: 1.4 } as const
const NORTHERN_BASE_C = 10
const NORTHERN_CEILING_C = 30
const DEG_F_PER_C = 1.8

/**
 * Heat from planting to full maturity (R8) in North Dakota and Minnesota.
 *
 * @param maturityGroup -0.5 to 1.4 (RM 00.5 to 1.4). @returns [deg F d], 86/50; NaN outside the range.
 *
 * GDD = 1750 + 280 RM, a line through the three NDSU means of 2016 (1694, 1890, 2058; n = 1816). Checked: to the unit.
 * Not confirmed: that they used the 86/50 method.
 */
export const northernFullMaturityF = (maturityGroup: number): number =>
  maturityGroup >= NORTHERN.fromGroup && maturityGroup <= NORTHERN.toGroup ? 1750 + 280 * maturityGroup : Number.NaN

/** R7 comes before R8 by so much [d]: 9-12, from memory. */
const FULL_AFTER_PHYSIOLOGICAL_D = 10

/** The group that fills the season: 0 at 48 deg, 2.2 deg of latitude each (Delta Farm Press, after Stoneville trials). */
const usualGroup = (latDeg: number): number =>
  Math.min(LATEST_GROUP, Math.max(EARLIEST_GROUP, (48 - Math.abs(latDeg)) / 2.2))

/**
 * How soybean gets to R7.
 *
 * @param plantedDay [epoch days]. @param latDeg [deg]. @param maturityGroup -1 to 8; absent = the usual one of the place.
 * @param followsWheat whether it is a double crop.
 *
 * Moisture at R7: 55-65 (Iowa State), about 50 (Kansas State), 58 at the start of dry-down (Ciampitti, Kansas State):
 * 58 with a spread of 4. Spread: models of this form, fitted to the variety, miss the length of the season by just under 6 d
 * (Schoving et al. 2020, Front. Plant Sci. 10:1755). Ours is not fitted: 6 % of the requirement and 5 d, together about 7 d;
 * 7 d instead of 5 where published figures disagree most, in the north (NDSU rule against daylength) and after wheat (90 d from
 * planting to dry seed against our 106).
 */
export function soybeanClock(
  plantedDay: number,
  latDeg: number,
  maturityGroup: number | undefined,
  followsWheat: boolean,
): CropClock {
  const group = maturityGroup ?? usualGroup(latDeg)
  const lat = Math.abs(latDeg)
  const northern =
    latDeg > 0 && lat >= NORTHERN.fromLatDeg && lat <= NORTHERN.toLatDeg && !Number.isNaN(northernFullMaturityF(group))
  const remarks: string[] = []
  if (maturityGroup === undefined) {
    remarks.push('The maturity group is not given; the usual one for the latitude is used.')
  }
  if (followsWheat) remarks.push('Planted after wheat: development is quick and the date less sure.')
  const groupName = Math.round(group * 10) / 10
  return {
    covered: !Number.isNaN(photothermalNeed(group).criticalH),
    matureOn: northern
      ? (temps, effort) =>
          whenReached(
            plantedDay,
            northernFullMaturityF(group) * effort,
            temps,
            ({ maxC, minC }) => DEG_F_PER_C * clippedDegreeDays(maxC, minC, NORTHERN_BASE_C, NORTHERN_CEILING_C),
          ) - FULL_AFTER_PHYSIOLOGICAL_D
      : (temps, effort) => soybeanStages(plantedDay, latDeg, group, temps, effort).r7,
    effortSd: maturityGroup === undefined ? 0.1 : 0.06,
    modelSdDays: northern || followsWheat ? 7 : 5,
    moistureWb: 58,
    moistureSdWb: 4,
    tenderFromDay: 50,
    basis: northern
      ? `R7 ten days before ${Math.round(northernFullMaturityF(group))} degree days (F, 86/50) from planting, group ${groupName}`
      : `R7 by daylength and warmth from planting, group ${groupName}`,
    remarks,
  }
}
