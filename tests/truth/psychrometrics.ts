/**
 * Published values of moist air. Typed in 2026-11-25.
 *
 * How obtained: the ASHRAE rows are as the public test suite of the PsychroLib project prints them from the handbook
 * (the handbook itself was not opened); FAO-56 examples 3 to 6 as the public test suites of pyet and PyETo print them;
 * rows marked "from memory" were not confirmed.
 */

/** ASHRAE Handbook of Fundamentals 2017, chapter 1, table 3: over ice below 0 deg C, over water above. [deg C, Pa] */
export const ASHRAE_SATURATION = [
  { airTempC: -20, pressurePa: 103.24, over: 'ice' },
  { airTempC: -5, pressurePa: 401.74, over: 'ice' },
  { airTempC: 5, pressurePa: 872.6, over: 'water' },
  { airTempC: 25, pressurePa: 3169.7, over: 'water' },
  { airTempC: 50, pressurePa: 12351.3, over: 'water' },
] as const

/** Over supercooled water: Smithsonian Meteorological Tables 1951, table 94 (Goff-Gratch), from memory. [deg C, Pa] */
export const SMITHSONIAN_SUPERCOOLED = [
  { airTempC: -10, pressurePa: 286.27 },
  { airTempC: -20, pressurePa: 125.4 },
  { airTempC: -30, pressurePa: 50.88 },
  { airTempC: -40, pressurePa: 18.91 },
  { airTempC: -50, pressurePa: 6.356 },
] as const

/** FAO-56 examples 3 and 4: e0(T), with the decimals that are printed. [deg C, kPa] */
export const FAO_SATURATION = [
  { airTempC: 24.5, pressureKPa: 3.075, digits: 3 },
  { airTempC: 15, pressureKPa: 1.705, digits: 3 },
  { airTempC: 19.75, pressureKPa: 2.3, digits: 2 },
  { airTempC: 19.5, pressureKPa: 2.267, digits: 3 },
] as const

/** FAO-56 examples 17, 18 and (28 and 38 deg C, from memory) 19: slope of the curve. [deg C, kPa/deg C] */
export const FAO_SLOPE = [
  { airTempC: 30.2, slope: 0.246 },
  { airTempC: 16.9, slope: 0.122 },
  { airTempC: 28, slope: 0.22 },
  { airTempC: 38, slope: 0.358 },
] as const

/** FAO-56 example 2 (1800 m), 4 (1200 m) and 18 (100 m). [m, kPa] */
export const FAO_PRESSURE = [
  { elevationM: 1800, pressureKPa: 81.8 },
  { elevationM: 1200, pressureKPa: 87.9 },
  { elevationM: 100, pressureKPa: 100.1 },
] as const

/** ASHRAE 2017 ch. 1 table 1, standard atmosphere (15 deg C at sea level). [m, Pa] */
export const ASHRAE_PRESSURE = [
  { elevationM: -500, pressurePa: 107478 },
  { elevationM: 0, pressurePa: 101325 },
  { elevationM: 500, pressurePa: 95461 },
  { elevationM: 1000, pressurePa: 89875 },
  { elevationM: 4000, pressurePa: 61640 },
] as const

/** FAO-56 example 2: psychrometric constant at 81.8 kPa; example 18 at 100.1 kPa. [kPa, kPa/deg C] */
export const FAO_PSYCHROMETRIC = [
  { pressureKPa: 81.8, constant: 0.054, digits: 3 },
  { pressureKPa: 100.1, constant: 0.0666, digits: 4 },
] as const

/** FAO-56 example 4: ventilated psychrometer at 1200 m. ea is printed 1.91 kPa. */
export const FAO_PSYCHROMETER = { airTempC: 25.6, wetBulbC: 19.5, pressureKPa: 87.9, vapourKPa: 1.91 } as const

/** ASHRAE 2017 ch. 1 example 1, read from the chart: 14 % and 7 deg C are whole units. */
export const ASHRAE_EXAMPLE_1 = {
  airTempC: 40,
  wetBulbC: 20,
  pressureKPa: 101.325,
  relHumidity: 0.14,
  dewPointC: 7,
} as const

/** PsychroLib's own test case from the ASHRAE equations: humidity ratio at a wet bulb. [kg/kg] */
export const ASHRAE_WET_BULB = { airTempC: 30, wetBulbC: 25, pressureKPa: 95.461, humidityRatio: 0.0192281 } as const

/** PsychroLib's own test case: 25 deg C, 80 %. */
export const ASHRAE_DEW_POINT = { airTempC: 25, relHumidity: 0.8, dewPointC: 21.3094 } as const

/** Stull R. 2011, J. Appl. Meteor. Climatol. 50:2267-2269: 20 deg C, 50 %, sea level; printed example from memory. */
export const STULL_EXAMPLE = { airTempC: 20, relHumidity: 0.5, wetBulbC: 13.7 } as const
/** Error range that the same abstract states for the approximation [deg C]. */
export const STULL_ERROR = { low: -1, high: 0.65 } as const
