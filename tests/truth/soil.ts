/**
 * Soil water, runoff and trafficability. Typed in 2026-11-25.
 *
 * FAO-56 (Allen, Pereira, Raes & Smith 1998), Table 19: evaporable water confirmed; water contents from memory.
 * USDA-NRCS TR-55 (1986): set-up of examples 2-1 and 2-2 confirmed, their runoff from memory; Table 2-2b from memory.
 * Curve numbers for dry and wet ground: USDA-SCS NEH-4 Table 10.1 as printed in Beven, Rainfall-Runoff Modelling, Table B6.3.2.
 * Rutledge & McHardy 1968 as quoted in Baier 1973, Can. Agric. Eng. 15: confirmed.
 */

/** FAO-56 Table 19: low and high of each class. Water contents [m3/m3], REW and TEW for 0.10 m [mm]. */
export const FAO56_TABLE_19 = [
  { texture: 'sand', fieldCapacity: [0.07, 0.17], wiltingPoint: [0.02, 0.07], rewMm: [2, 7], tewMm: [6, 12] },
  { texture: 'loamy-sand', fieldCapacity: [0.11, 0.19], wiltingPoint: [0.03, 0.1], rewMm: [4, 8], tewMm: [9, 14] },
  { texture: 'sandy-loam', fieldCapacity: [0.18, 0.28], wiltingPoint: [0.06, 0.16], rewMm: [6, 10], tewMm: [15, 20] },
  { texture: 'loam', fieldCapacity: [0.2, 0.3], wiltingPoint: [0.07, 0.17], rewMm: [8, 10], tewMm: [16, 22] },
  { texture: 'silt-loam', fieldCapacity: [0.22, 0.36], wiltingPoint: [0.09, 0.21], rewMm: [8, 11], tewMm: [18, 25] },
  { texture: 'silt', fieldCapacity: [0.28, 0.36], wiltingPoint: [0.12, 0.22], rewMm: [8, 11], tewMm: [22, 26] },
  {
    texture: 'silty-clay-loam',
    fieldCapacity: [0.3, 0.37],
    wiltingPoint: [0.17, 0.24],
    rewMm: [8, 11],
    tewMm: [22, 27],
  },
  { texture: 'silty-clay', fieldCapacity: [0.3, 0.42], wiltingPoint: [0.17, 0.29], rewMm: [8, 12], tewMm: [22, 28] },
  { texture: 'clay', fieldCapacity: [0.32, 0.4], wiltingPoint: [0.2, 0.24], rewMm: [8, 12], tewMm: [22, 29] },
] as const

/** Soils of the worked examples in FAO-56, with TEW by its eq. 73 for 0.10 m worked by hand [mm]. */
export const FAO56_EXAMPLE_SOILS = [
  { name: 'loamy sand', fieldCapacity: 0.15, wiltingPoint: 0.06, tewMm: 12 },
  { name: 'silt', fieldCapacity: 0.32, wiltingPoint: 0.15, tewMm: 24.5 },
  { name: 'silty clay', fieldCapacity: 0.35, wiltingPoint: 0.23, tewMm: 23.5 },
] as const

/**
 * FAO-56 bare loamy sand drying from field capacity: TEW 12, REW 6, Ke 1.05 (Kc max 1.20, Kcb 0.15), ETo 4.5 mm/d. Set-up after
 * its example 34, from memory; Kr at a given depletion by its eq. 74, worked by hand.
 */
export const FAO56_DRYING = {
  tewMm: 12,
  rewMm: 6,
  ke: 1.05,
  etoMm: 4.5,
  firstDayMm: 4.73,
  reductions: [
    { depletionMm: 0, kr: 1 },
    { depletionMm: 4.73, kr: 1 },
    { depletionMm: 9.45, kr: 0.425 },
    { depletionMm: 11.46, kr: 0.09 },
  ],
} as const

/** FAO-56 eq. 72 worked by hand: wind 3 m/s, humidity 35 %, height 0.3 m, Kcb 0.3. */
export const FAO56_KC_MAX = { windMs: 3, minRelHumidity: 0.35, heightM: 0.3, kcb: 0.3, kcMax: 1.24 } as const

/** TR-55: 250 acres, 70 % Loring, 30 % Memphis, 6.0 in of rain; and NEH-630 runoff for 8 in at curve number 80. */
export const TR55_RUNOFF_IN = [
  { name: 'TR-55 example 2-1', rainIn: 6, curveNumber: 70, runoffIn: 2.81 },
  { name: 'TR-55 example 2-2', rainIn: 6, curveNumber: 75, runoffIn: 3.28 },
  { name: 'NEH-630 ch. 10', rainIn: 8, curveNumber: 80, runoffIn: 5.625 },
  { name: 'worked by hand', rainIn: 3, curveNumber: 75, runoffIn: 0.961 },
  { name: 'worked by hand', rainIn: 1, curveNumber: 80, runoffIn: 0.083 },
  { name: 'worked by hand', rainIn: 0.4, curveNumber: 80, runoffIn: 0 },
  { name: 'worked by hand', rainIn: 5, curveNumber: 78, runoffIn: 2.712 },
] as const

/** TR-55 example 2-1: 70 % of the land at 74, 30 % at 61 make 70. */
export const TR55_WEIGHTED = {
  parts: [
    [0.7, 74],
    [0.3, 61],
  ],
  curveNumber: 70,
} as const

/** TR-55 Table 2-2b, straight row with crop residue, good condition, groups A to D. From memory. */
export const TR55_TABLE_2_2B = { 'row-crop': [64, 75, 82, 85], 'small-grain': [60, 72, 80, 84] } as const

/** NEH-4 Table 10.1: curve number for average, dry (I) and wet (III) ground. Confirmed (Beven, Table B6.3.2). */
export const NEH4_TABLE_10_1 = [
  { average: 100, dry: 100, wet: 100 },
  { average: 90, dry: 78, wet: 96 },
  { average: 80, dry: 63, wet: 91 },
  { average: 70, dry: 51, wet: 85 },
  { average: 60, dry: 40, wet: 78 },
  { average: 50, dry: 31, wet: 70 },
] as const

/** Rutledge & McHardy 1968: no field work above this share of field capacity in the upper zones. */
export const NON_WORKDAY_ABOVE = 0.95

/** Field capacity after soaking: one day on sand, two to three on loams. Convention, from memory. */
export const FIELD_CAPACITY_AFTER_D = { sand: [0.5, 1.5], loam: [1.5, 3], 'silt-loam': [1.5, 3] } as const
