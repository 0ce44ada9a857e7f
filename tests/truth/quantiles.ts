/**
 * Sample quantiles of type 7 (Hyndman & Fan 1996, The American Statistician 50:361), the default of numpy and R.
 * Typed 2026-11-25. Confirmed on public pages: the eleven values with quartiles 25.5, 40, 42.5 (DolphinDB reference,
 * interpolation "linear"), 0..5 at 0.3 (r-polars reference, "linear"), 1..5 (docs.rs, two crates that name type 7).
 * The last is the example of numpy's own page on `quantile` (from memory).
 */
const ELEVEN = [6, 7, 15, 36, 39, 40, 41, 42, 43, 47, 49] as const

export const TYPE_7 = [
  { sorted: ELEVEN, share: 0.25, quantile: 25.5 },
  { sorted: ELEVEN, share: 0.5, quantile: 40 },
  { sorted: ELEVEN, share: 0.75, quantile: 42.5 },
  { sorted: [0, 1, 2, 3, 4, 5], share: 0.3, quantile: 1.5 },
  { sorted: [1, 2, 3, 4, 5], share: 0.25, quantile: 2 },
  { sorted: [1, 2, 3, 4, 5], share: 0.5, quantile: 3 },
  { sorted: [1, 2, 3, 4, 7, 10], share: 0.5, quantile: 3.5 },
] as const
