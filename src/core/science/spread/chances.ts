/** What a source may say about its own uncertainty. All arrays have the hours of the forecast; NaN = not given. */
export interface SaidChances {
  /** Chance of measurable rain in the block of hours that `popBlockH` names [%]. */
  readonly popPct?: Float32Array
  /** Length of the block to which the chance in `popPct` applies [h]: 6 means "in these six hours", not each hour. */
  readonly popBlockH?: Float32Array
  readonly airTempP10C?: Float32Array
  readonly airTempP90C?: Float32Array
  readonly windP10Ms?: Float32Array
  readonly windP90Ms?: Float32Array
  /** Likely least and most rain in the hour, spread like the rain itself [mm]. */
  readonly rainMinMm?: Float32Array
  readonly rainMaxMm?: Float32Array
}

/** Distance of the 10th and 90th percentile of a normal law from its middle, in standard deviations. */
const DEVIATIONS_AT_P90 = 1.2816

/**
 * A said range as a law of two half normals: how far one standard deviation goes down and up from the middle.
 *
 * @param middle the forecast. @param p10 and @param p90 as the source says; NaN = not said.
 * @returns undefined where the source says nothing usable; the middle is moved into the range if it lies outside.
 */
export function saidSpread(
  middle: number,
  p10: number | undefined,
  p90: number | undefined,
): { readonly middle: number; readonly down: number; readonly up: number } | undefined {
  if (p10 === undefined || p90 === undefined || !(p10 < p90)) return undefined
  const centre = middle > p10 && middle < p90 ? middle : (p10 + p90) / 2
  return { middle: centre, down: (centre - p10) / DEVIATIONS_AT_P90, up: (p90 - centre) / DEVIATIONS_AT_P90 }
}
