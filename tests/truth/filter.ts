/**
 * Outside values for the filter and its scores. Typed 2026-11-25.
 */

/**
 * Flow of the Nile at Aswan, 1871-1880 [10^8 m3] (Cobb 1978, Biometrika 65:243; data set `Nile` of R), and the variances
 * of its local level model (Durbin & Koopman, Time Series Analysis by State Space Methods, 2nd ed. 2012, section 2.2.5:
 * 15099 and 1469.1). From memory, not looked up again; the exact posterior follows from the Kalman recursion for any data.
 */
export const NILE_FLOW = [1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140] as const
export const NILE_READING_VARIANCE = 15099
export const NILE_STEP_VARIANCE = 1469.1

/**
 * Local level model, gain form of the Kalman filter (Kalman 1960, doi:10.1115/1.3662552; Durbin & Koopman 2012, eq. 2.15).
 * @returns mean and variance of the level after the last reading.
 */
export function kalmanLocalLevel(
  readings: readonly number[],
  readingVariance: number,
  stepVariance: number,
  start: { readonly mean: number; readonly variance: number },
): { mean: number; variance: number } {
  let { mean, variance } = start
  for (const [t, reading] of readings.entries()) {
    if (t > 0) variance += stepVariance
    const gain = variance / (variance + readingVariance)
    mean += gain * (reading - mean)
    variance *= 1 - gain
  }
  return { mean, variance }
}

/**
 * Coefficient of variation of a meter against the air oven, corn: 2.5 % at 15.5 % moisture, 4.5 % at 11 and at 38 %;
 * bias by brand before recalibration 1.5-3.5 points. Confirmed: abstract of Hurburgh, Hazen & Bern 1985, Transactions of
 * the ASAE 28:634-640 (Iowa State University digital repository).
 */
export const METER_VARIATION = [
  { moistureWb: 11, share: 0.045 },
  { moistureWb: 15.5, share: 0.025 },
  { moistureWb: 38, share: 0.045 },
] as const
export const METER_BRAND_BIAS_WB = [1.5, 3.5] as const

/**
 * Unit normal loss integral, L(z) = phi(z) - z (1 - Phi(z)). From memory of the printed tables (Raiffa & Schlaifer 1961,
 * Applied Statistical Decision Theory, table II); agrees with the closed form to the digits given.
 */
export const UNIT_NORMAL_LOSS: readonly (readonly [z: number, loss: number])[] = [
  [0, 0.3989],
  [0.5, 0.1978],
  [1, 0.08332],
  [1.5, 0.02931],
]
