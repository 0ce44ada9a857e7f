/**
 * When stems, pods and straw are too tough to cut and thresh. No published humidity limit was found: toughness is read
 * from the moisture of the straw, which follows the air, and from water lying on it. Limits are common practice.
 */
import type { CropName } from '#core/science/crop.ts'
import { woodEquilibriumDb } from '#core/science/fire/measures.ts'
import { wetBasisFromDry } from '#core/science/grain/moisture-basis.ts'
import type { Weather } from '#core/units/weather.ts'
import { DRY_BELOW_MM } from './drying-off.ts'

export interface StrawLimits {
  /** Straw this dry cuts freely [% wet basis]. */
  readonly freeWb: number
  /** Straw this wet wraps and plugs [% wet basis]. */
  readonly toughWb: number
  /** Time in which straw closes 63 % of its gap to the air [h]. */
  readonly timeLagH: number
}

/**
 * Limits: common practice, no source. Time lag: between the fuel classes of 1 h (under 6 mm) and 10 h (6-25 mm) of
 * Fosberg & Deeming 1971 (USDA Forest Service RM-207), by thickness of the stems and stalks that go through the machine.
 */
export const STRAW_LIMITS: { readonly [C in CropName]: StrawLimits } = {
  soybean: { freeWb: 12, toughWb: 16, timeLagH: 2 },
  corn: { freeWb: 16, toughWb: 24, timeLagH: 5 },
  'wheat-soft': { freeWb: 13, toughWb: 17, timeLagH: 1 },
  'wheat-hard': { freeWb: 13, toughWb: 17, timeLagH: 1 },
  'wheat-durum': { freeWb: 13, toughWb: 17, timeLagH: 1 },
  sorghum: { freeWb: 14, toughWb: 20, timeLagH: 5 },
  barley: { freeWb: 13, toughWb: 17, timeLagH: 1 },
  oats: { freeWb: 13, toughWb: 17, timeLagH: 1 },
  canola: { freeWb: 12, toughWb: 16, timeLagH: 1 },
  sunflower: { freeWb: 14, toughWb: 20, timeLagH: 5 },
}

/** Straw in contact with water draws toward this, the fibre saturation point of wood, 30 % dry basis [% wet basis]. */
export const SOAKED_STRAW_WB = (100 * 30) / 130
/** Share of plants with green stems that alone makes a stand tough [0-1]. Common practice, no source. */
const GREEN_SHARE_TOUGH = 0.3
/** Two courses of straw moisture closer than this are one known course [% wet basis]. */
const KNOWN_WITHIN_WB = 0.5

export type CuttingState = 'free' | 'slow' | 'tough'

/**
 * Moisture of dead plant matter at rest with the air.
 *
 * @param airTempC air temperature [deg C], -50..55
 * @param relHumidity relative humidity [0-1]
 * @returns moisture [% wet basis], 0..23
 *
 * Simard's fit to wood, used for fine dead fuels (`woodEquilibriumDb`), held to fibre saturation. Checked at the wet end against corn stover (Karunanithy & Muthukumarappan
 * 2013, doi:10.1155/2013/939504, tests/truth/dew.ts); in dry air it is 4-5 points under stover, where nothing is tough.
 */
export function strawEquilibriumWb(airTempC: number, relHumidity: number): number {
  return Math.min(SOAKED_STRAW_WB, wetBasisFromDry(woodEquilibriumDb(airTempC, relHumidity)))
}

/**
 * How tough the straw is to cut, for each member and hour.
 *
 * @param weather the weather at the place
 * @param crop the crop
 * @param waterMm water on the plants at the end of each hour [mm], from `canopyWater`
 * @returns 0 cuts freely, 1 too tough, straight between; NaN where not known. Indexed as the weather
 *
 * Straw follows its equilibrium with the crop's time lag, and fibre saturation while water lies on it. It starts at the
 * equilibrium of the first hour. After hours not known two courses run from bone dry and soaked until they meet (some
 * four time lags). See `STRAW_LIMITS` for what is common practice only.
 */
export function strawToughness(weather: Weather, crop: CropName, waterMm: Float32Array): Float32Array {
  const { hours, members, airTempC, relHumidity } = weather
  const { freeWb, toughWb, timeLagH } = STRAW_LIMITS[crop]
  const keep = Math.exp(-1 / timeLagH)
  const degree = new Float32Array(members * hours)
  for (let member = 0; member < members; member++) {
    const base = member * hours
    const first = hours > 0 ? strawEquilibriumWb(airTempC[base]!, relHumidity[base]!) : Number.NaN
    let least = Number.isNaN(first) ? 0 : first
    let most = Number.isNaN(first) ? SOAKED_STRAW_WB : first
    for (let i = base; i < base + hours; i++) {
      const water = waterMm[i]!
      const target = water >= DRY_BELOW_MM ? SOAKED_STRAW_WB : strawEquilibriumWb(airTempC[i]!, relHumidity[i]!)
      const known = !Number.isNaN(target)
      least = known ? target + (least - target) * keep : 0
      most = known && !Number.isNaN(water) ? target + (most - target) * keep : SOAKED_STRAW_WB
      const wb = most - least < KNOWN_WITHIN_WB ? (least + most) / 2 : Number.NaN
      degree[i] = Math.min(1, Math.max(0, (wb - freeWb) / (toughWb - freeWb)))
    }
  }
  return degree
}

/**
 * Adds green stems, which do not dry within a day, to the toughness of the straw.
 *
 * @param degree toughness of the straw [0-1]
 * @param greenShare share of plants with green stems [0-1]
 * @returns the worse of the two [0-1]; 30 % green stems are tough by themselves (common practice, no source)
 */
export const withGreenStems = (degree: number, greenShare: number): number =>
  Math.max(degree, Math.min(1, greenShare / GREEN_SHARE_TOUGH))

/** @returns the word for a degree of toughness: under 1/3 free, from 1 tough; null if not known. */
export function cuttingState(degree: number): CuttingState | null {
  if (Number.isNaN(degree)) return null
  if (degree >= 1) return 'tough'
  return degree < 1 / 3 ? 'free' : 'slow'
}
