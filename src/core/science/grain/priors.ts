import type { CropName } from '#core/science/crop.ts'

export interface Spread {
  readonly mean: number
  readonly sd: number
}

/** What is known of a field's grain before anything is measured in it; draw particles from these. */
export interface GrainPrior {
  /** [% wet basis], normal. */
  readonly moistureAtMaturityWb: Spread
  /** [-], log-normal: `mean` is the median, `sd` that of the natural logarithm. */
  readonly dryingFactor: Spread
  /** [h] at 20 deg C, log-normal: `mean` is the median, `sd` that of the natural logarithm. */
  readonly exchangeHours: Spread
  /** [points], normal. */
  readonly equilibriumOffsetWb: Spread
}

/** Field to field: variety, plant density, how open the crop stands. Width is a choice, no source. */
const DRYING_FACTOR: Spread = { mean: 1, sd: 0.25 }
/**
 * Published isotherms of one crop differ by 0.6 points (corn), varieties and meters add to it; the width is a choice.
 */
const EQUILIBRIUM_OFFSET_WB: Spread = { mean: 0, sd: 0.8 }

/** Wheat at maturity about 37 % (Thomason, Virginia Tech 2006); others taken over from it. Time constant: see below. */
const SMALL_GRAIN: GrainPrior = {
  moistureAtMaturityWb: { mean: 37, sd: 3 },
  dryingFactor: DRYING_FACTOR,
  exchangeHours: { mean: 10, sd: 0.4 },
  equilibriumOffsetWb: EQUILIBRIUM_OFFSET_WB,
}

/**
 * Priors by crop.
 *
 * Soybean at R7 50-65 % (Kansas State, Iowa State Universities). Its time constant comes from the search described in
 * `traits.ts`; single observations give 10-30 h for uptake and 16-27 h for drying over whole days, so 13 h with the
 * slowing of cool nights lies at the quick end: two in three fields from 9.6 to 17.5 h.
 * Corn at black layer 30-35, range 25-40 % (NDSU, Purdue, Iowa State). Corn's time constant rests only on the tail of
 * the North Dakota series and on dry-down that stops above 15 %.
 * Small grains: bare wheat kernels need 4.9 h and barley 7.2 h at 20 deg C (O'Callaghan et al. 1971, from memory); an
 * ear is slower by an unknown amount. Sorghum, canola, sunflower: order of magnitude only.
 */
export const GRAIN_PRIORS: { readonly [C in CropName]: GrainPrior } = {
  soybean: {
    moistureAtMaturityWb: { mean: 57, sd: 4 },
    dryingFactor: { mean: 1, sd: 0.2 },
    exchangeHours: { mean: 13, sd: 0.3 },
    equilibriumOffsetWb: EQUILIBRIUM_OFFSET_WB,
  },
  corn: {
    moistureAtMaturityWb: { mean: 33, sd: 4 },
    dryingFactor: DRYING_FACTOR,
    exchangeHours: { mean: 45, sd: 0.4 },
    equilibriumOffsetWb: EQUILIBRIUM_OFFSET_WB,
  },
  'wheat-soft': SMALL_GRAIN,
  'wheat-hard': SMALL_GRAIN,
  'wheat-durum': SMALL_GRAIN,
  sorghum: { ...SMALL_GRAIN, moistureAtMaturityWb: { mean: 32, sd: 3 }, exchangeHours: { mean: 20, sd: 0.4 } },
  barley: SMALL_GRAIN,
  oats: SMALL_GRAIN,
  canola: { ...SMALL_GRAIN, moistureAtMaturityWb: { mean: 38, sd: 4 }, exchangeHours: { mean: 8, sd: 0.4 } },
  sunflower: { ...SMALL_GRAIN, exchangeHours: { mean: 20, sd: 0.4 } },
}
