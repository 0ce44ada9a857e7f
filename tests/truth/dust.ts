/**
 * Dust behind a combine. Typed 2026-11-25.
 *
 * PASQUILL_TABLE: Pasquill 1961 as shown by the NOAA Air Resources Laboratory, https://www.ready.noaa.gov/READYpgclass.php,
 * confirmed by look-up. Where two classes are printed both are kept.
 * COMPUTED_...: regression rows, computed apart from this code (Python, full precision) from the published equations:
 * Briggs 1973 open-country sigmas (Vallero, Fundamentals of Air Pollution, table 19-7), Gaussian plume with ISC initial
 * sigmas, Koschmieder 1924. They are not measurements.
 */
import type { StabilityClass } from '#core/science/dust/stability.ts'

type Cell = readonly StabilityClass[]
/** Wind in the row [m/s]; cells: strong, moderate, slight sun, night overcast, night clear. */
export const PASQUILL_TABLE: readonly { readonly windMs: number; readonly cells: readonly Cell[] }[] = [
  { windMs: 1, cells: [['A'], ['A', 'B'], ['B'], ['E'], ['F']] },
  { windMs: 2.5, cells: [['A', 'B'], ['B'], ['C'], ['E'], ['F']] },
  { windMs: 4, cells: [['B'], ['B', 'C'], ['C'], ['D'], ['E']] },
  { windMs: 5.5, cells: [['C'], ['C', 'D'], ['D'], ['D'], ['D']] },
  { windMs: 8, cells: [['C'], ['D'], ['D'], ['D'], ['D']] },
]

/** Standard deviation of the wind's direction by class [deg], same page as PASQUILL_TABLE, confirmed by look-up. */
export const PUBLISHED_SWING_DEG = { A: 25, B: 20, C: 15, D: 10, E: 5, F: 2.5 }

/** Sigma y, sigma z [m] at 50, 100, 200 and 500 m. Computed. */
export const COMPUTED_SIGMAS: { readonly [S in StabilityClass]: readonly (readonly [number, number])[] } = {
  A: [
    [10.97, 10.0],
    [21.89, 20.0],
    [43.57, 40.0],
    [107.35, 100.0],
  ],
  B: [
    [7.98, 6.0],
    [15.92, 12.0],
    [31.68, 24.0],
    [78.07, 60.0],
  ],
  C: [
    [5.49, 3.98],
    [10.95, 7.92],
    [21.78, 15.69],
    [53.67, 38.14],
  ],
  D: [
    [3.99, 2.89],
    [7.96, 5.6],
    [15.84, 10.52],
    [39.04, 22.68],
  ],
  E: [
    [2.99, 1.48],
    [5.97, 2.91],
    [11.88, 5.66],
    [29.28, 13.04],
  ],
  F: [
    [2.0, 0.79],
    [3.98, 1.55],
    [7.92, 3.02],
    [19.52, 6.96],
  ],
}

/** Emission per area [mg/m2] x 9 m x 1.7 m/s -> [g/s]. Computed. */
export const COMPUTED_EMISSIONS = [
  { mgPerM2: 49, gPerS: 0.7497 },
  { mgPerM2: 245, gPerS: 3.7485 },
  { mgPerM2: 650, gPerS: 9.945 },
]

/**
 * Swath 9 m, initial height 4 m, H = z = 2.5 m, in the middle of the cloud. Ranges were computed without the light lost
 * in clean air, which takes up to 0.4 %. Computed.
 */
export const COMPUTED_PLUME = [
  {
    gPerS: 0.7497,
    stability: 'D',
    windMs: 4,
    relativeMs: 2,
    alongM: 10,
    dust: 0.01106,
    visualM: 589.5,
    opticalM: 451.4,
  },
  {
    gPerS: 0.7497,
    stability: 'D',
    windMs: 4,
    relativeMs: 6,
    alongM: 10,
    dust: 0.004993,
    visualM: 1306,
    opticalM: 1000,
  },
  {
    gPerS: 0.7497,
    stability: 'D',
    windMs: 4,
    relativeMs: 4.472,
    alongM: 10,
    dust: 0.006454,
    visualM: 1010,
    opticalM: 773.6,
  },
  {
    gPerS: 3.7485,
    stability: 'D',
    windMs: 4,
    relativeMs: 2,
    alongM: 10,
    dust: 0.05531,
    visualM: 117.9,
    opticalM: 90.3,
  },
  { gPerS: 9.945, stability: 'D', windMs: 4, relativeMs: 2, alongM: 10, dust: 0.1467, visualM: 44.4, opticalM: 34.0 },
] as const

/** A source that stands still: relative wind = wind. Computed. */
export const COMPUTED_STANDING = [
  { gPerS: 0.7497, stability: 'B', windMs: 3, dust: 4.31e-3, visualM: 1512, depth: 0.025 },
  { gPerS: 0.7497, stability: 'D', windMs: 5, dust: 4.42e-3, visualM: 1474, depth: 0.018 },
  { gPerS: 0.7497, stability: 'F', windMs: 1.5, dust: 1.94e-2, visualM: 337, depth: 0.065 },
  { gPerS: 9.945, stability: 'F', windMs: 1.5, dust: 0.257, visualM: 25, depth: -Math.log(1 - 0.579) },
] as const

/** Wind [m/s] from [deg], travel [m/s], heading [deg] -> speed [m/s], where the cloud goes from the heading [deg]. Computed. */
export const COMPUTED_RELATIVE_WIND = [
  { windMs: 4, fromDeg: 180, travelMs: 2, headingDeg: 0, speedMs: 2, bearingDeg: 0 },
  { windMs: 4, fromDeg: 0, travelMs: 2, headingDeg: 0, speedMs: 6, bearingDeg: 180 },
  { windMs: 4, fromDeg: 270, travelMs: 2, headingDeg: 0, speedMs: 4.472, bearingDeg: 116.6 },
  { windMs: 6, fromDeg: 225, travelMs: 2, headingDeg: 0, speedMs: 4.799, bearingDeg: 62.1 },
  { windMs: 1, fromDeg: 180, travelMs: 2, headingDeg: 0, speedMs: 1, bearingDeg: 180 },
]

/** Median dust of Great Plains dust storms [g/m3] (Hagen & Woodruff 1973) and its Koschmieder range [m] (computed). */
export const DUST_STORM = { dust: 4.85e-3, visualM: 1344 }
