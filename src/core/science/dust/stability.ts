/** How strongly the air mixes: Pasquill class from wind and sunlight, and the width a cloud grows to in it. */

/** A: very lively air, D: neutral, F: very steady air. */
export type StabilityClass = 'A' | 'B' | 'C' | 'D' | 'E' | 'F'

/** Sunlight of strong and of moderate insolation [W/m2]: common practice for Pasquill's table, from memory. */
const STRONG_SUN_WM2 = 700
const MODERATE_SUN_WM2 = 350
/** Under this the sun is down or as good as down [W/m2]. Choice, no source. */
const NIGHT_BELOW_WM2 = 20

/** Upper bounds of the wind rows [m/s] and the classes by sun: strong, moderate, slight, night cloudy, night clear. */
const ROWS: readonly { readonly belowMs: number; readonly classes: readonly StabilityClass[] }[] = [
  { belowMs: 2, classes: ['A', 'B', 'B', 'E', 'F'] },
  { belowMs: 3, classes: ['B', 'B', 'C', 'E', 'F'] },
  { belowMs: 5, classes: ['B', 'C', 'C', 'D', 'E'] },
  { belowMs: 6, classes: ['C', 'D', 'D', 'D', 'D'] },
  { belowMs: Number.POSITIVE_INFINITY, classes: ['C', 'D', 'D', 'D', 'D'] },
]

/**
 * Pasquill stability class.
 *
 * @param windMs wind at 10 m [m/s], >= 0
 * @param solarWm2 global radiation [W/m2]; under 20 counts as night
 * @param overcast sky covered: neutral by day, cloudy column by night
 * @returns the class; null if wind or sunlight is not known
 *
 * Pasquill 1961, Meteorol. Mag. 90:33-49, table as given by the NOAA Air Resources Laboratory (READY). Where the table
 * gives two classes (A-B, B-C, C-D) the steadier one is taken: it thins dust less. Insolation limits from memory.
 */
export function stabilityClass(windMs: number, solarWm2: number, overcast = false): StabilityClass | null {
  if (!(windMs >= 0) || Number.isNaN(solarWm2)) return null
  const night = solarWm2 < NIGHT_BELOW_WM2
  if (overcast && !night) return 'D'
  const { classes } = ROWS.find((row) => windMs < row.belowMs) ?? ROWS[ROWS.length - 1]!
  if (night) return classes[overcast ? 3 : 4]!
  if (solarWm2 > STRONG_SUN_WM2) return classes[0]!
  return classes[solarWm2 >= MODERATE_SUN_WM2 ? 1 : 2]!
}

/** How far the wind swings about its mean, standard deviation [deg]: NOAA Air Resources Laboratory (READY). */
export const WIND_SWING_DEG: { readonly [S in StabilityClass]: number } = { A: 25, B: 20, C: 15, D: 10, E: 5, F: 2.5 }

/** Briggs 1973 open country: sigma y = y x / sqrt(1 + 1e-4 x); sigma z = z x (1 + bend x)^power. */
const BRIGGS: {
  readonly [S in StabilityClass]: {
    readonly y: number
    readonly z: number
    readonly bend: number
    readonly power: number
  }
} = {
  A: { y: 0.22, z: 0.2, bend: 0, power: 0 },
  B: { y: 0.16, z: 0.12, bend: 0, power: 0 },
  C: { y: 0.11, z: 0.08, bend: 2e-4, power: -0.5 },
  D: { y: 0.08, z: 0.06, bend: 1.5e-3, power: -0.5 },
  E: { y: 0.06, z: 0.03, bend: 3e-4, power: -1 },
  F: { y: 0.04, z: 0.016, bend: 3e-4, power: -1 },
}

/**
 * Crosswind spread of a cloud.
 *
 * @param stability Pasquill class
 * @param downwindM distance the air has carried it [m], 0..10,000; fitted for 100 m and more
 * @returns standard deviation [m]
 *
 * Briggs 1973 open-country fits, in Vallero, Fundamentals of Air Pollution, table 19-7 (after Gifford). Under 100 m this
 * is extrapolation. Checked against rows computed from the published equations (tests/truth/dust.ts), within 0.5 %.
 */
export const sigmaYM = (stability: StabilityClass, downwindM: number): number =>
  downwindM >= 0 ? (BRIGGS[stability].y * downwindM) / Math.sqrt(1 + 1e-4 * downwindM) : Number.NaN

/**
 * Vertical spread of a cloud; parameters, source and checks as `sigmaYM`.
 *
 * @returns standard deviation [m]
 */
export function sigmaZM(stability: StabilityClass, downwindM: number): number {
  const { z, bend, power } = BRIGGS[stability]
  return downwindM >= 0 ? z * downwindM * (1 + bend * downwindM) ** power : Number.NaN
}
