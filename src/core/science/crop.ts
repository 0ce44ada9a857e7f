/**
 * The crops Threshday knows, and the trade constants of each.
 *
 * Bushel weights: USDA standard test weights. Standard moistures: the base a buyer pays on, common practice
 * (University of Florida AG442; Missouri Extension grain weight conversion). A farm may override moisture and band.
 * The band is the moisture range in which the crop should be cut: common practice, no single source.
 */
export const CROPS = [
  'soybean',
  'corn',
  'wheat-soft',
  'wheat-hard',
  'wheat-durum',
  'sorghum',
  'barley',
  'oats',
  'canola',
  'sunflower',
] as const
export type CropName = (typeof CROPS)[number]

export interface Band {
  /** Below this the crop is brittle [% wet basis]. */
  readonly lowWb: number
  /** Above this the crop is wet [% wet basis]. */
  readonly highWb: number
}

export interface CropTrade {
  /** Word for the crop in a message, plural where the trade says so. */
  readonly spoken: string
  /** Standard test weight [lb/bu]. */
  readonly lbPerBu: number
  /** Moisture a buyer pays on [% wet basis]. */
  readonly standardMoistureWb: number
  readonly band: Band
}

export const CROP_TRADE: { readonly [C in CropName]: CropTrade } = {
  soybean: { spoken: 'beans', lbPerBu: 60, standardMoistureWb: 13, band: { lowWb: 10, highWb: 13 } },
  corn: { spoken: 'corn', lbPerBu: 56, standardMoistureWb: 15.5, band: { lowWb: 14, highWb: 20 } },
  'wheat-soft': { spoken: 'wheat', lbPerBu: 60, standardMoistureWb: 13.5, band: { lowWb: 11, highWb: 14.5 } },
  'wheat-hard': { spoken: 'wheat', lbPerBu: 60, standardMoistureWb: 13.5, band: { lowWb: 11, highWb: 14 } },
  'wheat-durum': { spoken: 'durum', lbPerBu: 60, standardMoistureWb: 13.5, band: { lowWb: 11, highWb: 14.5 } },
  sorghum: { spoken: 'milo', lbPerBu: 56, standardMoistureWb: 14, band: { lowWb: 12, highWb: 18 } },
  barley: { spoken: 'barley', lbPerBu: 48, standardMoistureWb: 14.5, band: { lowWb: 11, highWb: 14.5 } },
  oats: { spoken: 'oats', lbPerBu: 32, standardMoistureWb: 13.5, band: { lowWb: 10.5, highWb: 14 } },
  canola: { spoken: 'canola', lbPerBu: 50, standardMoistureWb: 10, band: { lowWb: 7, highWb: 10 } },
  sunflower: { spoken: 'sunflowers', lbPerBu: 25, standardMoistureWb: 10, band: { lowWb: 8, highWb: 13 } },
}
