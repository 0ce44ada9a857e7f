/** Grain lost or broken by the combine itself, by moisture and by height of cut. */
import type { CropName } from '#core/science/crop.ts'
import { MM_PER_IN } from '#core/units/convert.ts'
import { alongCorners, type Corner } from './piecewise.ts'

interface HeaderTraits {
  /** Moisture [% wet basis] against share of the standing yield left behind. */
  readonly loss: readonly Corner[]
  readonly source: string
}

const SMALL_GRAIN: HeaderTraits = {
  loss: [
    [7, 0.05],
    [11, 0.025],
    [15, 0.025],
    [20, 0.04],
  ],
  source:
    '2-3 % usually tolerated: North Dakota State extension 2002; the rise beyond the band: common practice, no source',
}

export const HEADER_TRAITS: { readonly [C in CropName]: HeaderTraits } = {
  soybean: {
    loss: [
      [7, 0.1],
      [9, 0.08],
      [11, 0.04],
      [13, 0.027],
      [15, 0.027],
      [20, 0.045],
    ],
    source:
      '13-15 %: nine tenths of a loss of 2-4 % (Michigan State extension E3487); 9 %: Ohio State extension, second hand; ' +
      'most 10 %: trade leaflet; 11 % and 20 %: common practice, no source',
  },
  corn: {
    loss: [
      [12, 0.07],
      [15, 0.05],
      [18, 0.035],
      [23, 0.015],
      [26, 0.015],
      [32, 0.04],
    ],
    source:
      '1-2 % at 23-25 % and 2-8 % more at 17-19 %: trade leaflet, low end taken; the rest common practice, no source',
  },
  'wheat-soft': SMALL_GRAIN,
  'wheat-hard': SMALL_GRAIN,
  'wheat-durum': SMALL_GRAIN,
  barley: SMALL_GRAIN,
  oats: SMALL_GRAIN,
  sorghum: {
    loss: [
      [9, 0.06],
      [12, 0.035],
      [18, 0.03],
      [24, 0.05],
    ],
    source: 'common practice, no source',
  },
  canola: {
    loss: [
      [5, 0.09],
      [7, 0.05],
      [9, 0.03],
      [10, 0.03],
      [15, 0.05],
    ],
    source: 'common practice, no source',
  },
  sunflower: {
    loss: [
      [6, 0.09],
      [8, 0.06],
      [10, 0.04],
      [13, 0.03],
      [20, 0.05],
    ],
    source: 'common practice, no source',
  },
}

const isMoisture = (moistureWb: number): boolean => moistureWb >= 0 && moistureWb < 100

/**
 * Share of the grain still standing that the combine leaves behind, most of it at the header.
 *
 * @param crop any crop.
 * @param moistureWb grain moisture [% wet basis, 0-100).
 * @returns loss [share of standing yield, 0-1], level beyond the first and last corner; NaN when not known.
 * Form: broken lines, see HEADER_TRAITS for the source of each. For a well set machine at a usual speed.
 * Checked: tests/truth/losses.ts. Not confirmed: corners marked "common practice, no source".
 */
export function headerLossFraction(crop: CropName, moistureWb: number): number {
  return isMoisture(moistureWb) ? alongCorners(HEADER_TRAITS[crop].loss, moistureWb) : Number.NaN
}

/**
 * Splits and cracks against moisture: cracking grows below 11 % (Paulsen et al. 1981), seed is crushed above 18 %
 * (Ohio State and Iowa State extension); the amounts are common practice, no source.
 */
const SOYBEAN_SPLITS: readonly Corner[] = [
  [7, 0.15],
  [9, 0.07],
  [11, 0.02],
  [13, 0.01],
  [18, 0.01],
  [22, 0.05],
]

/**
 * Share of soybeans split or cracked by threshing.
 *
 * @param moistureWb grain moisture [% wet basis, 0-100).
 * @returns splits [share of harvested beans, 0-1], level beyond 7 and 22 %; NaN when not known.
 * Form: broken line with the turning points of Paulsen et al. 1981 (11 %) and extension practice (18 %).
 * Checked: tests/truth/losses.ts, turning points only. Not confirmed: every amount (common practice, no source).
 */
export function soybeanSplitsFraction(moistureWb: number): number {
  return isMoisture(moistureWb) ? alongCorners(SOYBEAN_SPLITS, moistureWb) : Number.NaN
}

/** Stubble of 3.5 in leaves 5 % of the beans, 6.5 in leaves 12 %: extension figures, author not confirmed [mm, share]. */
const SOYBEAN_STUBBLE: readonly Corner[] = [
  [0, 0],
  [3.5 * MM_PER_IN, 0.05],
  [6.5 * MM_PER_IN, 0.12],
]

/**
 * Share of the soybeans left on the stubble.
 *
 * @param stubbleMm height of cut [mm, 0 or more].
 * @returns loss [share of yield, 0-0.12]; level above 165 mm, where nothing is published; NaN when not known.
 * Form: broken line through the two published heights and none at the ground. Checked: tests/truth/losses.ts.
 * This is part of, not on top of, `headerLossFraction`; use it to judge a head that cuts too high.
 */
export function soybeanStubbleFraction(stubbleMm: number): number {
  return stubbleMm >= 0 ? alongCorners(SOYBEAN_STUBBLE, stubbleMm) : Number.NaN
}
