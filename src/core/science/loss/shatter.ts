/**
 * Grain that falls from a ripe, standing crop before the combine comes: pods that open, heads that shed or break off.
 * Corn is not here: it is lost by ear drop and lodging, see lodging.ts.
 */
import type { CropName } from '#core/science/crop.ts'

export type SheddingCrop = Exclude<CropName, 'corn'>

export interface ShatterTraits {
  /** Loss of a ripe crop that is neither brittle nor weathered [share of yield per day]. */
  readonly ratePerDay: number
  /** Days after ripeness over which the rate grows from nil to full [d]. */
  readonly rampDays: number
  /** Moisture below which pods and heads are brittle [% wet basis]. */
  readonly brittleBelowWb: number
  /** Rise of the rate for each point below it [share of the rate per point]. */
  readonly gainPerPoint: number
  /** Rise of the rate for each wet-dry cycle after the free ones [share of the rate per cycle]. */
  readonly gainPerCycle: number
  /** The rate goes no higher [share of yield per day]. */
  readonly worstPerDay: number
  /** The loss goes no higher [share of yield]. */
  readonly worst: number
  /** Where the figures come from. */
  readonly source: string
}

/** Cycles that a sound pod stands without harm: pods turn brittle after two or three (Casteel, Purdue Extension). */
const FREE_CYCLES = 2

/** Philbrook & Oplinger 1989: 6.1 % lost at first harvest, 13.9 % lost 42 days later. */
const SOYBEAN_RATE_PER_DAY = (0.139 - 0.061) / 42

const SMALL_GRAIN: ShatterTraits = {
  ratePerDay: 0.005,
  rampDays: 5,
  brittleBelowWb: 11,
  gainPerPoint: 0.25,
  gainPerCycle: 0.1,
  worstPerDay: 0.01,
  worst: 0.25,
  source: 'rate: ASAE D497 timeliness of wheat harvest, Ohio, from memory; the rest common practice, no source',
}

export const SHATTER_TRAITS: { readonly [C in SheddingCrop]: ShatterTraits } = {
  soybean: {
    ratePerDay: SOYBEAN_RATE_PER_DAY,
    rampDays: 5,
    brittleBelowWb: 11,
    gainPerPoint: 1,
    gainPerCycle: 0.25,
    worstPerDay: 0.01,
    worst: 0.25,
    source:
      'rate: Philbrook & Oplinger 1989; brittle below 11 %: North Dakota and Michigan State extension; highest rate: ' +
      'ASAE D497 as quoted by the University of Wisconsin 2005; highest loss: University of Georgia extension; ' +
      'gain per point and per cycle: common practice, no source',
  },
  'wheat-soft': SMALL_GRAIN,
  'wheat-hard': SMALL_GRAIN,
  'wheat-durum': SMALL_GRAIN,
  barley: { ...SMALL_GRAIN, source: 'as wheat: common practice, no source' },
  oats: { ...SMALL_GRAIN, source: 'as wheat: common practice, no source' },
  sorghum: {
    ratePerDay: 0.005,
    rampDays: 10,
    brittleBelowWb: 12,
    gainPerPoint: 0.1,
    gainPerCycle: 0.1,
    worstPerDay: 0.015,
    worst: 0.3,
    source: 'rate: ASAE D497 timeliness of sorghum harvest, Oklahoma, from memory; the rest common practice, no source',
  },
  canola: {
    ratePerDay: 0.01,
    rampDays: 10,
    brittleBelowWb: 8,
    gainPerPoint: 0.5,
    gainPerCycle: 0.25,
    worstPerDay: 0.04,
    worst: 0.5,
    source: 'ramp of about 10 days: North Dakota State extension 2007; the rest common practice, no source',
  },
  sunflower: {
    ratePerDay: 0.005,
    rampDays: 10,
    brittleBelowWb: 9,
    gainPerPoint: 0.25,
    gainPerCycle: 0.1,
    worstPerDay: 0.02,
    worst: 0.4,
    source: 'common practice, no source',
  },
}

const known = (moistureWb: number, daysRipe: number, wetDryCycles: number): boolean =>
  moistureWb >= 0 && moistureWb < 100 && wetDryCycles >= 0 && !Number.isNaN(daysRipe)

/** The rate once the ramp is over [share of yield per day]. */
function fullRatePerDay(traits: ShatterTraits, moistureWb: number, wetDryCycles: number): number {
  const dry = 1 + traits.gainPerPoint * Math.max(0, traits.brittleBelowWb - moistureWb)
  const worn = 1 + traits.gainPerCycle * Math.max(0, wetDryCycles - FREE_CYCLES)
  return Math.min(traits.worstPerDay, traits.ratePerDay * dry * worn)
}

/**
 * Share of the yield that a ripe, standing crop sheds per day, at this hour.
 *
 * @param crop any crop but corn.
 * @param moistureWb grain moisture now [% wet basis, 0-100).
 * @param daysRipe days since ripeness (soybean R8, others fit for direct cutting); below 0 nothing is shed [d].
 * @param wetDryCycles times the ripe crop was wetted and dried again [count, 0 or more].
 * @returns loss rate [share of standing yield per day]; NaN when an input is not known or out of range.
 * Form: base rate x (1 + gain per point below brittle) x (1 + gain per cycle beyond two), at most the worst rate, rising
 * in a straight line over the first days. Base of soybean from Philbrook & Oplinger 1989, Agron. J. 81(2); that slope is
 * of all field loss, so it holds the rise of header and stem loss by weathering as well. Others see SHATTER_TRAITS.
 * Checked: tests/truth/losses.ts. Not confirmed: the two gains (common practice, no source); damp pods get no credit.
 */
export function shatterRatePerDay(
  crop: SheddingCrop,
  moistureWb: number,
  daysRipe: number,
  wetDryCycles: number,
): number {
  if (!known(moistureWb, daysRipe, wetDryCycles)) return Number.NaN
  const traits = SHATTER_TRAITS[crop]
  const ramp = Math.min(1, Math.max(0, daysRipe / traits.rampDays))
  return ramp * fullRatePerDay(traits, moistureWb, wetDryCycles)
}

/**
 * Share of the yield shed from ripeness until now, had moisture and cycles been the same all along.
 *
 * @param crop any crop but corn.
 * @param moistureWb grain moisture [% wet basis, 0-100).
 * @param daysRipe days since ripeness; below 0 nothing is shed [d].
 * @param wetDryCycles times the ripe crop was wetted and dried again [count, 0 or more].
 * @returns loss [share of yield, 0 up to the crop's worst]; NaN when an input is not known or out of range.
 * Form: exact integral over days of `shatterRatePerDay`, then held at the worst loss.
 * Checked: tests/truth/losses.ts (Philbrook & Oplinger 1989: 7.8 % in 42 days).
 */
export function shatterFraction(
  crop: SheddingCrop,
  moistureWb: number,
  daysRipe: number,
  wetDryCycles: number,
): number {
  if (!known(moistureWb, daysRipe, wetDryCycles)) return Number.NaN
  const traits = SHATTER_TRAITS[crop]
  const days = Math.max(0, daysRipe)
  const onRamp = Math.min(days, traits.rampDays)
  const fullDays = (onRamp * onRamp) / (2 * traits.rampDays) + days - onRamp
  return Math.min(traits.worst, fullDays * fullRatePerDay(traits, moistureWb, wetDryCycles))
}
