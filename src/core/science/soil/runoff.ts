/** Rain that runs off a field: the curve number method of the USDA Soil Conservation Service. */
import { MM_PER_IN } from '#core/units/convert.ts'

/** Share of the storage that is wetted before any runoff (NEH-630 ch. 10). */
const INITIAL_ABSTRACTION = 0.2

/**
 * Greatest water a field can keep from a storm.
 *
 * @param curveNumber [-], above 0, to 100. @returns S [mm]; NaN outside the range.
 *
 * S = 25400 / CN - 254, USDA-NRCS NEH-630 ch. 10. Checked: tests/truth/soil.ts.
 */
export const stormStorageMm = (curveNumber: number): number =>
  curveNumber > 0 && curveNumber <= 100 ? 25400 / curveNumber - 254 : Number.NaN

/**
 * Runoff from a storm.
 *
 * @param rainMm rain of the storm [mm], not negative. @param curveNumber [-], above 0, to 100.
 * @returns runoff [mm], 0 to rainMm; NaN for an unknown or impossible input.
 *
 * Q = (P - 0.2 S)^2 / (P + 0.8 S) for P > 0.2 S, USDA-NRCS NEH-630 ch. 10, TR-55 (1986) eq. 2-3.
 * Made for storms of up to a day on unfrozen ground; weak below 13 mm of runoff.
 * Checked: TR-55 examples 2-1 and 2-2 and eight worked pairs, tests/truth/soil.ts, to 0.005 in.
 */
export function runoffMm(rainMm: number, curveNumber: number): number {
  const storageMm = stormStorageMm(curveNumber)
  if (!(rainMm >= 0) || Number.isNaN(storageMm)) return Number.NaN
  const afterAbstractionMm = rainMm - INITIAL_ABSTRACTION * storageMm
  if (afterAbstractionMm <= 0) return 0
  return afterAbstractionMm ** 2 / (afterAbstractionMm + storageMm)
}

export type AntecedentMoisture = 'I' | 'II' | 'III'

/** Rain of the five days before a storm that parts the classes, dormant and growing season [mm]. NEH-4 Table 4.2, from memory. */
const ANTECEDENT_MM = {
  dormant: { dryBelow: 0.5 * MM_PER_IN, wetAbove: 1.1 * MM_PER_IN },
  growing: { dryBelow: 1.4 * MM_PER_IN, wetAbove: 2.1 * MM_PER_IN },
} as const

/**
 * Antecedent moisture class from the rain of the five days before.
 *
 * @param fiveDayRainMm [mm], not negative. @param season a ripe crop draws no water: 'dormant'.
 * @returns class; 'II', the average, when the rain is not known.
 *
 * USDA-SCS NEH-4 (1964), Table 4.2, from memory.
 */
export function antecedentMoisture(fiveDayRainMm: number, season: 'dormant' | 'growing'): AntecedentMoisture {
  const { dryBelow, wetAbove } = ANTECEDENT_MM[season]
  if (fiveDayRainMm < dryBelow) return 'I'
  return fiveDayRainMm > wetAbove ? 'III' : 'II'
}

/**
 * Curve number for dry or wet ground from that for average ground.
 *
 * @param curveNumberII [-], above 0, to 100. @param moisture antecedent moisture class.
 * @returns curve number [-]; NaN outside the range.
 *
 * CN(I) = 4.2 CN / (10 - 0.058 CN), CN(III) = 23 CN / (10 + 0.13 CN): Chow, Maidment & Mays 1988, eq. 5.5.7-8, a fit to
 * NEH-4 Table 10.1. Checked: tests/truth/soil.ts, within 1.5 of the table from CN 50 to 100.
 */
export function curveNumberFor(curveNumberII: number, moisture: AntecedentMoisture): number {
  if (!(curveNumberII > 0 && curveNumberII <= 100)) return Number.NaN
  if (moisture === 'I') return (4.2 * curveNumberII) / (10 - 0.058 * curveNumberII)
  if (moisture === 'III') return (23 * curveNumberII) / (10 + 0.13 * curveNumberII)
  return curveNumberII
}

/** A storm is over after so many hours without rain. Common practice, no source. */
const STORM_GAP_H = 12
const FIVE_DAYS_H = 120

const unknownAsDry = (mm: number): number => (Number.isNaN(mm) ? 0 : mm)

/**
 * Rain that stays on the field, hour by hour, after the runoff of each storm as it builds up.
 *
 * @param rainMm rain [mm], member by member (index = member * hours + hour).
 * @param hours hours of each member. @param curveNumberII for average moisture [-].
 * @returns rain less runoff [mm], same layout; NaN in the hours whose rain is NaN, which count as dry for the others.
 *
 * Runoff of an hour is the growth of `runoffMm` of the storm so far; the moisture class is set when a storm begins, from
 * the five days before (the average class until five days are seen). Once per place and curve number, not per field.
 */
export function infiltratedRain(rainMm: Float32Array, hours: number, curveNumberII: number): Float32Array {
  const infiltrated = new Float32Array(rainMm.length)
  for (let start = 0; start < rainMm.length; start += hours) {
    let stormMm = 0
    let ranOffMm = 0
    let dryHours = STORM_GAP_H
    let fiveDayMm = 0
    let curveNumber = curveNumberII
    for (let h = 0; h < hours; h++) {
      const rain = rainMm[start + h] ?? Number.NaN
      if (rain > 0) {
        if (dryHours >= STORM_GAP_H) {
          stormMm = 0
          ranOffMm = 0
          const moisture = h < FIVE_DAYS_H ? 'II' : antecedentMoisture(fiveDayMm, 'dormant')
          curveNumber = curveNumberFor(curveNumberII, moisture)
        }
        stormMm += rain
        const runoff = runoffMm(stormMm, curveNumber)
        infiltrated[start + h] = rain - (runoff - ranOffMm)
        ranOffMm = runoff
        dryHours = 0
      } else {
        infiltrated[start + h] = rain
        dryHours++
      }
      const leaving = h >= FIVE_DAYS_H ? (rainMm[start + h - FIVE_DAYS_H] ?? 0) : 0
      fiveDayMm += unknownAsDry(rain) - unknownAsDry(leaving)
    }
  }
  return infiltrated
}
