/**
 * What a bushel of each crop weighs and the moisture it is paid on. Typed 2026-11-25.
 *
 * Weights: the USDA's official weights as told by Illinois Soybean Advisor, "Understanding test weight" (confirmed:
 * soybean and wheat 60, corn and sorghum 56, barley 48, oats 32 lb/bu).
 * Moistures, and sunflower: table that cites University of Florida AG442 (Devkota & Mulvaney 2020) and Michigan State
 * (confirmed: wheat 13.5, barley 14.5, corn 15.5, sorghum 14, oats 13.5, soybean 13, sunflower 25 lb and 10 %).
 */
export const OFFICIAL_LB_PER_BU = {
  soybean: 60,
  corn: 56,
  'wheat-soft': 60,
  'wheat-hard': 60,
  'wheat-durum': 60,
  sorghum: 56,
  barley: 48,
  oats: 32,
  sunflower: 25,
} as const

export const STANDARD_MOISTURE_WB = {
  soybean: 13,
  corn: 15.5,
  'wheat-soft': 13.5,
  'wheat-hard': 13.5,
  'wheat-durum': 13.5,
  sorghum: 14,
  barley: 14.5,
  oats: 13.5,
  sunflower: 10,
} as const

/**
 * Canola is told in two ways: 50 lb/bu in trade tables (confirmed, a converter's table), 47 lb and 8.5 % in the table
 * above. Ours are 50 lb and 10 % (the Canadian limit of dry canola, from memory); a farm may set its buyer's moisture.
 */
export const CANOLA_TOLD = { lbPerBu: [47, 50], standardWb: [8.5, 10] } as const

/** Facts of the trade (common practice, no source). */
export const TRADE_FACTS = {
  /** Usual moisture of soybeans at cutting [% wet basis]. */
  beansAtCuttingWb: [10, 12],
  /** Points by which green spots read above the rest of a field. */
  greenSpotPoints: [4, 5],
} as const
