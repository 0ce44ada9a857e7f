/**
 * Bushels and tonnes, for the farm file's units. Typed 2026-11-25.
 *
 * Bushels per tonne and kg/ha per bu/acre: measurement table at agrimoney.com/calculator (confirmed 2026-11-25); the
 * same factors, shorter, at mnshippers.com "Conversion Factors" (36.74371, 39.3679; 0.06725, 0.06277 t/ha).
 */
export const BUSHELS_PER_TONNE = { soybean: 36.7437, 'wheat-soft': 36.7437, corn: 39.3679, sorghum: 39.3679 } as const

/**
 * The printed yield factors differ from the exact definitions (60 lb = 27.2155 kg, acre = 0.404686 ha: 67.2511) by 23
 * parts in a million: the page rounded its acre. Ours are the exact ones, so checks allow for that.
 */
export const YIELD_ROUNDING = 3e-5

export const KG_HA_PER_BU_ACRE = { soybean: 67.2495, 'wheat-soft': 67.2495, corn: 62.7664, sorghum: 62.7664 } as const

/** Quarter section 160 acres, half a mile square: U.S. public land survey, common practice, no single source. */
export const QUARTER_SECTION_ACRES = 160
