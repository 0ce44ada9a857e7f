/** Wheat, barley and oats: degree days at base 0 deg C, first reading of McMaster & Wilhelm 1997. */
import type { CropClock } from './crop-clock.ts'
import { meanDegreeDays } from './degree-days.ts'
import { dateOfEpochDay, epochDayOf, whenReached } from './season.ts'

export type SmallGrain = 'wheat-soft' | 'wheat-hard' | 'wheat-durum' | 'barley' | 'oats'

/**
 * Spring-sown, from sowing to physiological maturity [deg C d, base 0]. Wheat: 1538-1665, barley: 1269-1522 (Miller,
 * Lanier & Brandt 2001, Montana State University MT200103, from memory; middle of the range). Cereals on the northern
 * prairie: about 1500 (seeding advice, Meadow Lake, Saskatchewan). Oats stand as wheat less 5 %: assumption.
 */
export const SPRING_NEED_C: { readonly [G in SmallGrain]: number } = {
  'wheat-soft': 1600,
  'wheat-hard': 1600,
  'wheat-durum': 1640,
  barley: 1400,
  oats: 1520,
}

/**
 * Sown in autumn, from 1 January (1 July in the south) to physiological maturity [deg C d, base 0]: what a monthly mean
 * climate at Manhattan, Kansas gives for maturity in mid-June. Our own arithmetic, no source. Cold winters count nothing,
 * mild ones too much: the spread is wide.
 */
export const WINTER_NEED_C: { readonly [G in SmallGrain]: number } = {
  'wheat-soft': 1560,
  'wheat-hard': 1560,
  'wheat-durum': 1600,
  barley: 1380,
  oats: 1500,
}

/** Wheat at physiological maturity about 37 % (Thomason, Virginia Tech 2006); barley and oats 35 % (Alberta Agriculture). */
const MOISTURE_WB: { readonly [G in SmallGrain]: number } = {
  'wheat-soft': 37,
  'wheat-hard': 37,
  'wheat-durum': 37,
  barley: 35,
  oats: 35,
}

/** Autumn-sown: August to January in the north, half a year on in the south. */
function sownInAutumn(plantedDay: number, latDeg: number): boolean {
  const { month } = dateOfEpochDay(plantedDay)
  const northMonth = latDeg >= 0 ? month : ((month + 5) % 12) + 1
  return northMonth >= 8 || northMonth === 1
}

/** First of January (July in the south) after sowing, or sowing itself if later. */
function startOfGrowth(plantedDay: number, latDeg: number): number {
  const planted = dateOfEpochDay(plantedDay)
  const month = latDeg >= 0 ? 1 : 7
  const sameYear = planted.with({ month, day: 1 })
  const turn = planted.month > month ? sameYear.add({ years: 1 }) : sameYear
  return Math.max(plantedDay, epochDayOf(turn))
}

/**
 * How a small grain gets to physiological maturity.
 *
 * @param crop which. @param plantedDay [epoch days]. @param latDeg [deg].
 *
 * Sources beside the constants above. Checked: Kansas and North Dakota harvest seasons, tests/truth/growth.ts (from memory).
 */
export function smallGrainClock(crop: SmallGrain, plantedDay: number, latDeg: number): CropClock {
  const autumn = sownInAutumn(plantedDay, latDeg)
  const startDay = autumn ? startOfGrowth(plantedDay, latDeg) : plantedDay
  const neededC = autumn ? WINTER_NEED_C[crop] : SPRING_NEED_C[crop]
  return {
    covered: true,
    matureOn: (temps, effort) =>
      whenReached(startDay, neededC * effort, temps, ({ maxC, minC }) => meanDegreeDays(maxC, minC, 0)),
    effortSd: autumn ? 0.08 : 0.05,
    modelSdDays: 3,
    moistureWb: MOISTURE_WB[crop],
    moistureSdWb: 4,
    basis: `${neededC} degree days (C, base 0) from ${autumn ? 'the turn of the winter' : 'sowing'}`,
    remarks: autumn ? ['Autumn-sown grain: the heat it needs is our own reckoning, no published figure.'] : [],
  }
}
