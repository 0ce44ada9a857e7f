/**
 * Wet-basis moisture of a dry-basis moisture.
 *
 * @param moistureDb water per dry matter [% dry basis], 0 and above; below 0 gives NaN.
 * @returns water per whole grain [% wet basis], 0-100.
 *
 * Form: wb = 100 db / (100 + db), from the definitions of the two bases (ASABE S352.2, moisture measurement).
 * Not clamped. NaN in, NaN out.
 * Checked: tests/core/science/grain/moisture-basis.test.ts, against dry-matter tables of the grain trade.
 */
export const wetBasisFromDry = (moistureDb: number): number =>
  moistureDb >= 0 ? (100 * moistureDb) / (100 + moistureDb) : Number.NaN

/**
 * Dry-basis moisture of a wet-basis moisture.
 *
 * @param moistureWb water per whole grain [% wet basis], 0 to below 100; outside gives NaN.
 * @returns water per dry matter [% dry basis].
 *
 * Form: db = 100 wb / (100 - wb), from the definitions of the two bases (ASABE S352.2).
 * Not clamped. NaN in, NaN out.
 * Checked: tests/core/science/grain/moisture-basis.test.ts, against dry-matter tables of the grain trade.
 */
export const dryBasisFromWet = (moistureWb: number): number =>
  moistureWb >= 0 && moistureWb < 100 ? (100 * moistureWb) / (100 - moistureWb) : Number.NaN
