import type { CropName } from '#core/science/crop.ts'
import { type Isotherm, isothermMoistureDb, isothermRelHumidity } from './isotherm.ts'
import { dryBasisFromWet, wetBasisFromDry } from './moisture-basis.ts'

/**
 * Air more humid than this is read as this humid [0-1]. The Halsey form runs away above it (soybean at 95 % and 60 F:
 * 39 %), and from about 94 % on it is water lying on the plant that wets the grain (Lu & Siebenmorgen 1994, Trans ASAE
 * 37:553), which is another term of the model. Tables end at 90 %.
 */
export const EQUILIBRIUM_RH_CAP = 0.92
/**
 * The published data start at about 0-5 deg C and end at about 60. Outside, the temperature in the equation is held
 * at these ends [deg C]: no measurement below freezing is known to us, the Henderson and Chung-Pfost forms break down
 * when temperature + C nears zero (corn: -42), and frozen grain hardly exchanges water anyway.
 */
export const EQUILIBRIUM_TEMP_MIN_C = 0
export const EQUILIBRIUM_TEMP_MAX_C = 60

/**
 * Equation and constants of each crop; never mix two generations of constants, they differ by up to 2 points.
 *
 * | crop | set | status |
 * |---|---|---|
 * | soybean, corn, sorghum, durum | ASABE D245.5/.6 | reproduce a published table cell by cell, RH 25-40 % |
 * | wheat-soft | Pfost et al. 1976 (ASAE D245.4) | reproduces one published cell (Univ. Kentucky ID-125) |
 * | wheat-hard (hard red spring) | D245.5, cited in Storage of Cereal Grains and Their Products, 5th ed., p. 272 | secondary |
 * | barley | D245.5; one secondary source prints a = 457.12, from memory 475.12: 0.2 points apart | secondary |
 * | oats | D245.5; secondary source prints b = 21.581, per unit of decimal moisture | secondary |
 * | canola, sunflower | D245.5 | from memory; inside the band of the Cromarty equation |
 *
 * For corn the older set (8.6541e-5, 1.8634, 49.810) reproduces a dryer maker's table up to 90 % RH but lies about
 * 0.6 points drier than this one: two published tables disagree by that much.
 */
export const CROP_ISOTHERM: { readonly [C in CropName]: Isotherm } = {
  soybean: { form: 'halsey', a: 2.87, b: -0.0054, c: 1.38 },
  corn: { form: 'henderson', a: 6.6612e-5, b: 1.9677, c: 42.143 },
  'wheat-soft': { form: 'henderson', a: 1.2299e-5, b: 2.5558, c: 64.346 },
  'wheat-hard': { form: 'chung-pfost', a: 610.34, b: 0.15526, c: 93.213 },
  'wheat-durum': { form: 'oswin', a: 13.101, b: -0.052626, c: 2.9987 },
  sorghum: { form: 'chung-pfost', a: 797.33, b: 0.18159, c: 52.238 },
  barley: { form: 'chung-pfost', a: 457.12, b: 0.14843, c: 71.996 },
  oats: { form: 'chung-pfost', a: 433.157, b: 0.21581, c: 41.439 },
  canola: { form: 'henderson', a: 5.056e-4, b: 1.5702, c: 40.1204 },
  sunflower: { form: 'henderson', a: 3.1e-4, b: 1.7459, c: 66.603 },
}

const heldTempC = (tempC: number): number => Math.min(EQUILIBRIUM_TEMP_MAX_C, Math.max(EQUILIBRIUM_TEMP_MIN_C, tempC))

/**
 * Moisture that ripe grain reaches in air that stays as it is.
 *
 * @param crop one of the known crops.
 * @param airTempC temperature of the air and the grain [deg C], any; held to 0-60 in the equation.
 * @param relHumidity relative humidity [0-1]; outside gives NaN; above 0.92 read as 0.92.
 * @returns equilibrium moisture [% wet basis].
 *
 * Form: modified Henderson, Chung-Pfost, Halsey or Oswin, ASABE D245.6; constants in `CROP_ISOTHERM`.
 * No hysteresis: for a drying grain 0.5-1.5 points more is said (from memory). NaN in, NaN out.
 * Checked: tests/truth/equilibrium.ts (soybean, corn, sorghum, durum: largest difference 0.05 points; single points).
 * Not confirmed: RH above 40 % has been checked only for corn (older constants), hard and soft wheat and soybean.
 */
export const equilibriumMoistureWb = (crop: CropName, airTempC: number, relHumidity: number): number =>
  wetBasisFromDry(
    isothermMoistureDb(
      CROP_ISOTHERM[crop],
      heldTempC(airTempC),
      relHumidity > EQUILIBRIUM_RH_CAP && relHumidity <= 1 ? EQUILIBRIUM_RH_CAP : relHumidity,
    ),
  )

/**
 * Relative humidity at which ripe grain of a given moisture neither gains nor loses water.
 *
 * @param crop one of the known crops.
 * @param airTempC temperature of the air and the grain [deg C], any; held to 0-60 in the equation.
 * @param moistureWb grain moisture [% wet basis], 0 to below 100; outside gives NaN.
 * @returns equilibrium relative humidity [0-1]; not capped, wet grain comes near 1.
 *
 * Form and constants as in `equilibriumMoistureWb`, solved for humidity. NaN in, NaN out.
 * Checked: round trip; soybean 13 % near 70 % RH (Hellevang, NDSU).
 */
export const equilibriumRelHumidity = (crop: CropName, airTempC: number, moistureWb: number): number =>
  isothermRelHumidity(CROP_ISOTHERM[crop], heldTempC(airTempC), dryBasisFromWet(moistureWb))
