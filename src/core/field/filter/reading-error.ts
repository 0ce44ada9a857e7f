/** How far a reading may lie from the moisture of the part, and how surprising one is. */
import type { Instrument, InstrumentKind, Reading } from '#core/field/reading.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'

/**
 * Random error of one reading where the farm told nothing [points]. Meters scatter about the air oven by 2.5 % of the
 * moisture at 15.5 % and 4.5 % at 11 % (Hurburgh, Hazen & Bern 1985, Transactions of the ASAE 28:634-640): 0.4 to 0.5
 * points. A combine averages over a moving stream, a ticket over a probed load; these differences are a choice.
 */
export const USUAL_SD_WB: { readonly [K in InstrumentKind]: number } = { combine: 0.5, hand: 0.5, ticket: 0.35 }

/**
 * Spread of an offset nobody told [points]. Brands read 1.5 to 3.5 points off before their calibrations were renewed in
 * 1980 and less after (same source); a buyer's meter is certified. Widths are a choice.
 */
export const UNKNOWN_OFFSET_SD_WB: { readonly [K in InstrumentKind]: number } = { combine: 1, hand: 1, ticket: 0.2 }
/** Spread about an offset that was told [points]; choice. */
export const KNOWN_OFFSET_SD_WB = 0.3

/** A sample stands for the part only so well: spread as share of the moisture, and at least [points]; choice. */
const FIELD_SPREAD: { readonly [K in InstrumentKind]: { readonly share: number; readonly leastWb: number } } = {
  combine: { share: 0.02, leastWb: 0.2 },
  hand: { share: 0.03, leastWb: 0.4 },
  ticket: { share: 0.02, leastWb: 0.2 },
}

/** Error of a sample about what the part holds then, offset and departure apart: meter and field together [points]. */
export function sampleSdWb({ kind, sdWb }: Pick<Instrument, 'kind' | 'sdWb'>, moistureWb: number): number {
  const { share, leastWb } = FIELD_SPREAD[kind]
  return Math.hypot(sdWb, Math.max(leastWb, share * moistureWb))
}

/**
 * The air at a field is not quite that of its place, nor the field quite the model: grain stands off its course by so much
 * from day to day, at a reading as in a forecast [points]. Choice: on simulated autumns whose fields have air of their own
 * (tests/bench/twin-experiment.ts; seed 11, even years) nine truths in ten then lie in the 90 % band.
 */
export const DEPARTURE_SD_WB = 0.65

/** What a reading says of today fades: its variance grows by the square of this with each day [points]. Choice. */
export const FADING_WB_PER_SQRT_DAY = 0.1

/** Where no observed weather leads to the time of a reading, the course there is a guess [points]; choice. */
export const NO_WEATHER_SD_WB = 2

/** Chance that a reading is wild: wrong field, wrong digit, wet sample; choice. */
const WILD_CHANCE = 0.02
/** A wild reading may be anything: evenly spread over this range [points]. */
const WILD_RANGE_WB = 80

/**
 * @param ageDays from the reading to now [d]. @param led observed weather leads to its time.
 * @returns variance of the reading about the moisture of the part, offset apart [points2].
 */
export function readingVariance(reading: Reading, ageDays: number, led: boolean): number {
  const guess = led ? 0 : NO_WEATHER_SD_WB
  const model = DEPARTURE_SD_WB ** 2 + FADING_WB_PER_SQRT_DAY ** 2 * Math.max(0, ageDays) + guess ** 2
  return sampleSdWb(reading.instrument, reading.moistureWb) ** 2 + model
}

/**
 * A field is first measured about when it gets ready: each such time that it stood mature unmeasured makes that less likely
 * by a factor e [d]. Without it a first reading of dry grain would say that the grain has been dry for long, as likely as
 * the prior has it, and grain still on its way down would be taken for grain at rest too wet. Choice, no source.
 */
const UNMEASURED_DAYS = 7

/** Log likelihood of the time of a first reading, up to a constant; 0 where there is none or the part is not mature yet. */
export const logFirstRead = (matureEpochH: number, firstReadEpochH: number): number =>
  firstReadEpochH > matureEpochH ? (matureEpochH - firstReadEpochH) / (HOURS_PER_DAY * UNMEASURED_DAYS) : 0

/**
 * Nor is a field first measured while it is plainly green: each so many points above the point where a crew begins to look
 * make a first reading less likely by a factor e [points]. Without it a sound first reading of a field that ripened early
 * would be taken for a wild one of a field still green. Choice, no source.
 */
const GREENER_WB = 2.5
/** A crew begins to look this far above the band in which the crop is cut [points]; choice, no source. */
const LOOKED_AT_ABOVE_BAND_WB = 12

/** Log likelihood that a part of that moisture is measured for the first time, up to a constant [% wet basis]. */
export const logFirstReadAt = (moistureWb: number, bandHighWb: number): number =>
  -Math.max(0, moistureWb - bandHighWb - LOOKED_AT_ABOVE_BAND_WB) / GREENER_WB

const sound = (residualWb: number, variance: number): number =>
  ((1 - WILD_CHANCE) * Math.exp((-0.5 * residualWb * residualWb) / variance)) / Math.sqrt(2 * Math.PI * variance)

/**
 * Log likelihood of a reading: a normal error, or with a small chance anything at all (mixture of Box & Tiao 1968,
 * doi:10.1093/biomet/55.1.119). Up to about four standard deviations it pulls like a normal; beyond, not at all.
 *
 * @param residualWb reading less what the particle says [points]. @param variance from `readingVariance`.
 */
export const logReading = (residualWb: number, variance: number): number =>
  Math.log(sound(residualWb, variance) + WILD_CHANCE / WILD_RANGE_WB)

/** @returns chance that the reading is wild if the particle is right, 0-1. */
export function wildChance(residualWb: number, variance: number): number {
  const wild = WILD_CHANCE / WILD_RANGE_WB
  return wild / (sound(residualWb, variance) + wild)
}
