/** FAO-56 terms of evaporation from bare or sparsely covered soil (Allen, Pereira, Raes & Smith 1998, chapter 7). */

/**
 * Water that can evaporate from the surface layer.
 *
 * @param fieldCapacity [m3/m3], 0-1. @param wiltingPoint [m3/m3], 0-1.
 * @param depthM depth of the layer that evaporation dries [m], 0.10-0.15.
 * @returns total evaporable water [mm]; NaN where the wilting point is above field capacity.
 *
 * FAO-56 eq. 73. Checked against the ranges of its Table 19: tests/truth/soil.ts, every class inside.
 */
export function evaporableWaterMm(fieldCapacity: number, wiltingPoint: number, depthM: number): number {
  if (!(wiltingPoint >= 0 && fieldCapacity >= wiltingPoint && fieldCapacity <= 1 && depthM >= 0)) return Number.NaN
  return 1000 * (fieldCapacity - 0.5 * wiltingPoint) * depthM // eq. 73
}

/**
 * How far a drying surface holds evaporation back.
 *
 * @param depletionMm water missing from the layer below field capacity [mm]; negative = above it.
 * @param rewMm readily evaporable water [mm]. @param tewMm total evaporable water [mm], above rewMm.
 * @returns Kr, 0-1: 1 while the surface is wet, 0 when all is gone.
 *
 * FAO-56 eq. 74. Checked: tests/truth/soil.ts.
 */
export function evaporationReduction(depletionMm: number, rewMm: number, tewMm: number): number {
  if (!(tewMm > rewMm)) return Number.NaN
  if (depletionMm <= rewMm) return 1
  if (depletionMm >= tewMm) return 0
  return (tewMm - depletionMm) / (tewMm - rewMm) // eq. 74, NaN depletion stays NaN
}

/**
 * Upper limit of crop and soil evaporation as a multiple of reference evaporation.
 *
 * @param windMs mean wind at 2 m [m/s], held to 1-6. @param minRelHumidity lowest of the day [0-1], held to 0.2-0.8.
 * @param heightM height of the stand [m], held to 0.1-10. @param kcb basal crop coefficient [-].
 * @returns Kc max [-].
 *
 * FAO-56 eq. 72, with the limits it gives for wind, humidity and height. Checked: worked value 1.240, tests/truth/soil.ts.
 */
export function kcMax(windMs: number, minRelHumidity: number, heightM: number, kcb: number): number {
  const wind = Math.min(6, Math.max(1, windMs))
  const humidityPct = 100 * Math.min(0.8, Math.max(0.2, minRelHumidity))
  const height = Math.min(10, Math.max(0.1, heightM))
  const climate = 1.2 + (0.04 * (wind - 2) - 0.004 * (humidityPct - 45)) * (height / 3) ** 0.3
  return Math.max(climate, kcb + 0.05) // eq. 72
}
