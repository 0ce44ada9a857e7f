/**
 * Members where a source has none: equally likely courses around one forecast.
 *
 * Rain first: each block of hours is wet in as many members as its chance says (`rain-blocks.ts`, `wet-members.ts`).
 * The air follows: a member that is wet where most are dry is moister, darker, cooler by day and warmer by night, and the
 * other way round, by the contrast that wet and dry days show; over the members it sums to nothing, so the forecast
 * stays the middle. Around that, temperature, dew point, wind and clearness stray by errors that grow with the lead
 * (`error-growth.ts`) and last for hours to days (`member-errors.ts`). Humidity is that of the member's own temperature and
 * dew point. Member 0 has no error of its own in temperature and dew point and is wet only where most are.
 */
import { clearSkyWm2, extraterrestrialWm2 } from '#core/science/air/radiation.ts'
import { dewPointC, relHumidityFromDewPoint } from '#core/science/air/vapour.ts'
import { seededRandom } from '#core/units/random.ts'
import { unknownWeatherArrays, type Weather, type WeatherArrays } from '#core/units/weather.ts'
import { type SaidChances, saidSpread } from './chances.ts'
import { type ErrorGrowth, errorGrowth } from './error-growth.ts'
import { type MemberErrors, memberErrors } from './member-errors.ts'
import { type RainBlock, rainBlocks } from './rain-blocks.ts'
import { rainInto, wetMembers } from './wet-members.ts'

export interface GrowthOptions {
  /** How many members to make, 1 or more. */
  readonly members: number
  readonly seed: number
  /** Usual share of days with rain at the place and season, 0-1. */
  readonly usualRainDayShare: number
  /** Age of the forecast at its first hour [h]: an old forecast has already strayed. */
  readonly ageH: number
  /** What the source says of its own uncertainty; it goes before the usual growth of error. */
  readonly chances?: SaidChances | undefined
  /** How the source has lately done at this place against the usual error; held to 0.6-1.6. */
  readonly errorScale?: ErrorScale | undefined
}

export interface ErrorScale {
  readonly airTempC: number
  readonly dewPointC: number
  readonly windMs: number
}

/** Central Illinois, September to mid November, days with at least 0.25 mm in the 28 autumns of the trial data. */
export const USUAL_RAIN_DAY_SHARE = 0.29

/**
 * Air near rain against air far from it, set so that members' days with rain differ from their days without as real days do:
 * Champaign, September to mid November 1996-2023, days with rain against days without: dew point 3.6 deg C higher,
 * temperature 2.5 higher at night and 1.8 lower at noon, humidity 0.14 higher, sunlight 0.55 of the dry days', logarithm of
 * wind 0.15 higher. A day's mean sees about 0.6 of a contrast that lasts from some hours before rain to some after.
 */
const WET_DEW_POINT_C = 5.6
const WET_NIGHT_TEMP_C = 3.4
const WET_NOON_TEMP_C = -3.4
const WET_CLEARNESS = -0.36
const WET_LOG_WIND = 0.2
/** The sky of a wet member differs at any lead, its air only as far as the lead left it open. Choice, no source. */
const LEAST_SKY_CONTRAST = 0.5
/** Clear-sky sunlight at which the noon contrast is reached [W/m2]. */
const HIGH_SUN_WM2 = 500
/** Rain this near in time makes the air, and the sky, that of a wet day [h]; they turn over so many hours. Choice, no source. */
const AIR_REACH_H = 9
const SKY_REACH_H = 5
const TURN_H = 3

/** Humidity of hours with rain: median 0.81-0.87 at three airports near New York, autumn 2013 (tests/fixtures/newark). */
const WET_HOUR_HUMIDITY = 0.85
const WET_HOUR_CLEARNESS = 0.35
const LEAST_CLEARNESS = 0.05
const MOST_CLEARNESS = 1.05
/** Below this the sun is too low to say how clear the sky is [W/m2]. */
const LOW_SUN_WM2 = 20
const LEAST_SCALE = 0.6
const MOST_SCALE = 1.6
const FULL_CIRCLE_DEG = 360
const SEED_STEP = 7919

/**
 * Grows members around one forecast.
 *
 * @param single one member; hours that are not known stay unknown in every member, save rain where its chance is known.
 * @returns the same with `members` members and spread `grown`; the same inputs give the same bytes.
 *
 * Checked on 28 autumns: coverage, rank histograms, reliability and CRPS in tests/core/science/spread/calibration.test.ts.
 */
export function growMembers(single: Weather, options: GrowthOptions): Weather {
  if (single.members !== 1) throw new RangeError(`growMembers takes one member, got ${single.members}`)
  const { members, seed } = options
  if (members === 1) return single
  const arrays = unknownWeatherArrays(members, single.hours)
  const randoms = Array.from({ length: members }, (_, member) => seededRandom(seed + member * SEED_STEP))
  const blocks = rainBlocks(single.rainMm, options)
  const wet = wetMembers(blocks, randoms, seededRandom(~seed))
  const shared = sharedOf(single, options)
  const air = wetness(blocks, wet, members, single.hours, AIR_REACH_H)
  const sky = wetness(blocks, wet, members, single.hours, SKY_REACH_H)
  for (let member = 0; member < members; member++) {
    const at = member * single.hours
    const random = randoms[member]!
    for (const [b, block] of blocks.entries()) {
      if (Number.isNaN(block.chance)) continue
      arrays.rainMm.fill(0, at + block.fromH, at + block.toH)
      const leadDays = (options.ageH + block.fromH) / 24
      if (wet[b * members + member] === 1) rainInto(block, single.rainMm, leadDays, arrays.rainMm, at, random)
    }
    const errors = memberErrors(random)
    const own = member === 0 ? 0 : 1
    for (let h = 0; h < single.hours; h++) {
      const hour = { i: at + h, h, errors, growth: shared.growth[h]! }
      strayAir(single, arrays, hour, shared, air[at + h]!, own)
      strayWind(single, arrays, hour, shared, air[at + h]!)
      straySky(single, arrays, hour, shared.clearWm2[h]!, sky[at + h]!)
      errors.next()
    }
  }
  return { ...single, ...arrays, members, provenance: { ...single.provenance, spread: 'grown' } }
}

interface Shared {
  readonly clearWm2: Float32Array
  readonly dewC: Float32Array
  readonly growth: readonly ErrorGrowth[]
  readonly chances: SaidChances
  readonly scale: ErrorScale
}

interface Hour {
  /** Index in the member's arrays and in the forecast's. */
  readonly i: number
  readonly h: number
  readonly errors: MemberErrors
  readonly growth: ErrorGrowth
}

function sharedOf(single: Weather, { ageH, chances, errorScale }: GrowthOptions): Shared {
  const { latDeg, lonDeg, elevationM } = single.place
  const hours = Array.from({ length: single.hours }, (_, h) => h)
  const held = (scale: number | undefined) => Math.min(MOST_SCALE, Math.max(LEAST_SCALE, scale || 1))
  return {
    clearWm2: Float32Array.from(hours, (h) =>
      clearSkyWm2(extraterrestrialWm2(latDeg, lonDeg, single.startEpochH + h), elevationM),
    ),
    dewC: Float32Array.from(hours, (h) => dewPointC(single.airTempC[h]!, single.relHumidity[h]!)),
    growth: hours.map((h) => errorGrowth((ageH + h + 0.5) / 24)),
    chances: chances ?? {},
    scale: {
      airTempC: held(errorScale?.airTempC),
      dewPointC: held(errorScale?.dewPointC),
      windMs: held(errorScale?.windMs),
    },
  }
}

/**
 * How much wetter than the middle of the members each member is about each hour: 1 with rain near in time, 0 without,
 * turned over a few hours, less the mean of the members. Laid out as the members.
 */
function wetness(
  blocks: readonly RainBlock[],
  wet: Uint8Array,
  members: number,
  hours: number,
  reachH: number,
): Float32Array {
  const out = new Float32Array(members * hours)
  const mean = new Float64Array(hours)
  for (let member = 0; member < members; member++) {
    const near = new Float64Array(hours)
    for (const [b, { fromH, toH }] of blocks.entries())
      if (wet[b * members + member] === 1) near.fill(1, Math.max(0, fromH - reachH), Math.min(hours, toH + reachH))
    const turned = smoothed(near, TURN_H)
    out.set(turned, member * hours)
    for (let h = 0; h < hours; h++) mean[h]! += turned[h]! / members
  }
  for (let i = 0; i < out.length; i++) out[i]! -= mean[i % hours]!
  return out
}

/** Running mean over so many hours on each side. */
function smoothed(values: Float64Array, reach: number): Float64Array {
  const out = new Float64Array(values.length)
  let sum = 0
  let count = 0
  for (let h = -reach; h < values.length; h++) {
    const enters = h + reach
    if (enters < values.length) {
      sum += values[enters]!
      count++
    }
    if (h < 0) continue
    out[h] = sum / count
    const leaves = h - reach
    if (leaves >= 0) {
      sum -= values[leaves]!
      count--
    }
  }
  return out
}

function strayAir(
  single: Weather,
  arrays: WeatherArrays,
  { i, h, errors, growth }: Hour,
  { clearWm2, dewC, chances, scale }: Shared,
  wetness: number,
  own: number,
): void {
  const open = Math.sqrt(growth.grownShare)
  const sunHigh = Math.min(1, clearWm2[h]! / HIGH_SUN_WM2)
  const wetTempC = WET_NIGHT_TEMP_C + (WET_NOON_TEMP_C - WET_NIGHT_TEMP_C) * sunHigh
  const tempErrorC =
    open * wetTempC * wetness +
    own * scale.airTempC * (growth.airTempLocalC * errors.temp.local + growth.airTempGrownC * errors.temp.grown)
  const dewErrorC =
    open * WET_DEW_POINT_C * wetness +
    own * scale.dewPointC * (growth.dewPointLocalC * errors.dew.local + growth.dewPointGrownC * errors.dew.grown)
  const said = saidSpread(single.airTempC[h]!, chances.airTempP10C?.[h], chances.airTempP90C?.[h])
  const usualSdC = Math.hypot(growth.airTempLocalC, growth.airTempGrownC)
  const width = said ? (tempErrorC > 0 ? said.up : said.down) / usualSdC : 1
  const airTempC = (said?.middle ?? single.airTempC[h]!) + width * tempErrorC
  const memberDewC = dewC[h]! + width * dewErrorC
  const humidity = Math.min(1, relHumidityFromDewPoint(airTempC, Math.min(memberDewC, airTempC)))
  arrays.airTempC[i] = airTempC
  arrays.relHumidity[i] = arrays.rainMm[i]! > 0 ? Math.max(humidity, WET_HOUR_HUMIDITY) : humidity
}

function strayWind(
  single: Weather,
  arrays: WeatherArrays,
  { i, h, errors, growth }: Hour,
  { chances, scale }: Shared,
  wetness: number,
): void {
  const windMs = single.windMs[h]!
  const sd = scale.windMs * Math.hypot(growth.logWindLocal, growth.logWindGrown)
  const error =
    Math.sqrt(growth.grownShare) * WET_LOG_WIND * wetness +
    scale.windMs * (growth.logWindLocal * errors.wind.local + growth.logWindGrown * errors.wind.grown)
  const said = saidSpread(windMs, chances.windP10Ms?.[h], chances.windP90Ms?.[h])
  const strayed = said
    ? Math.max(0, said.middle + ((error > 0 ? said.up : said.down) * error) / sd)
    : windMs * Math.exp(error - 0.5 * sd * sd)
  arrays.windMs[i] = strayed
  arrays.gustMs[i] = windMs > 0 ? single.gustMs[h]! * (strayed / windMs) : Math.max(single.gustMs[h]!, strayed)
  const turnedDeg =
    growth.windDirectionLocalDeg * errors.direction.local + growth.windDirectionGrownDeg * errors.direction.grown
  const from = (single.windFromDeg[h]! + turnedDeg) % FULL_CIRCLE_DEG
  arrays.windFromDeg[i] = from < 0 ? from + FULL_CIRCLE_DEG : from
}

function straySky(
  single: Weather,
  arrays: WeatherArrays,
  { i, h, errors, growth }: Hour,
  clearWm2: number,
  wetness: number,
): void {
  const solarWm2 = single.solarWm2[h]!
  if (!(clearWm2 > LOW_SUN_WM2)) {
    arrays.solarWm2[i] = solarWm2
    return
  }
  const clearness = solarWm2 / clearWm2
  const contrast = Math.max(Math.sqrt(growth.grownShare), LEAST_SKY_CONTRAST) * WET_CLEARNESS
  const error = contrast * wetness + growth.clearnessLocal * errors.sky.local + growth.clearnessGrown * errors.sky.grown
  const strayed = clearness + heldBelow(error, Math.hypot(growth.clearnessLocal, growth.clearnessGrown), clearness)
  const isRaining = arrays.rainMm[i]! > 0
  const most = isRaining ? Math.min(WET_HOUR_CLEARNESS, clearness) : Math.max(MOST_CLEARNESS, clearness)
  arrays.solarWm2[i] = clearWm2 * Math.min(most, Math.max(LEAST_CLEARNESS, strayed))
}

/** A clear sky can not get much clearer: errors upwards shrink to the room there is, the mean stays. */
function heldBelow(error: number, sd: number, clearness: number): number {
  const up = Math.min(1, Math.max(0, (MOST_CLEARNESS - clearness) / (DEVIATIONS_KEPT * sd)))
  return (error > 0 ? up * error : error) + MEAN_OF_HALF_NORMAL * sd * (1 - up)
}

/** Upward errors of this many standard deviations still fit in. */
const DEVIATIONS_KEPT = 2
/** Mean of the upper half of a standard normal counted over both halves: 1 / sqrt(2 pi). */
const MEAN_OF_HALF_NORMAL = 0.399
