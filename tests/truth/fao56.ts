/**
 * Worked examples of FAO-56: Allen R.G., Pereira L.S., Raes D., Smith M. 1998, Crop evapotranspiration, FAO Irrigation
 * and Drainage Paper 56 (fao.org/3/x0490e). Typed in 2026-11-25.
 *
 * How obtained: the paper itself could not be opened. Examples 2 to 18 are as the public test suites of pyet, PyETo and
 * CSLSevap print them, with their example numbers. Examples 19 and 20 are from memory; second-hand through public
 * ports are the hour of 0.63 mm (hydpy's documentation: 0.6279) and the inputs of 20 (the R package nightmares).
 */

/** Example 8 and 9: 3 September, 20 deg S. */
export const EXAMPLE_8 = {
  dayOfYear: 246,
  latDeg: -20,
  inverseDistance: 0.985,
  declinationRad: 0.12,
  sunsetRad: 1.527,
  extraterrestrialMJ: 32.2,
  daylightH: 11.7,
} as const

/** Examples 10 to 12: Rio de Janeiro, 22.9 deg S, mid May. Rns is printed 11.1 (0.77 x 14.5 = 11.17, theirs cut). */
export const EXAMPLE_11 = {
  dayOfYear: 135,
  latDeg: -22.9,
  extraterrestrialMJ: 25.1,
  daylightH: 10.9,
  clearSkyMJ: 18.8,
  solarMJ: 14.5,
  tempMaxC: 25.1,
  tempMinC: 19.1,
  vapourKPa: 2.1,
  netLongwaveMJ: 3.5,
  netMJ: 7.6,
} as const

/** Example 14: 3.2 m/s at 10 m. Example 18: 10 km/h at 10 m. [m/s] */
export const WIND_EXAMPLES = [
  { windMs: 3.2, heightM: 10, wind2mMs: 2.4, digits: 1 },
  { windMs: 10 / 3.6, heightM: 10, wind2mMs: 2.078, digits: 3 },
] as const

/** Example 15: inland, mid July near 45.7 deg N; the island coefficient is not used. */
export const EXAMPLE_15 = { extraterrestrialMJ: 40.6, tempMaxC: 26.6, tempMinC: 14.8, solarMJ: 22.3 } as const

/** Example 17: Bangkok, April. ETo 5.72 mm/d; CSLSevap 5.718284 from RH 51-87 %. */
export const EXAMPLE_17 = {
  latDeg: 13 + 44 / 60,
  dayOfYear: 105,
  elevationM: 2,
  tempMaxC: 34.8,
  tempMinC: 25.6,
  vapourKPa: 2.85,
  wind2mMs: 2,
  solarMJ: 22.65,
  soilMJ: 0.14,
  extraterrestrialMJ: 38.06,
  clearSkyMJ: 28.54,
  netMJ: 14.33,
  etMm: 5.72,
} as const

/** Example 18: Uccle, 6 July. ETo 3.88, printed as 3.9 mm/d. */
export const EXAMPLE_18 = {
  latDeg: 50 + 48 / 60,
  dayOfYear: 187,
  elevationM: 100,
  tempMaxC: 21.5,
  tempMinC: 12.3,
  relHumidityMax: 0.84,
  relHumidityMin: 0.63,
  vapourKPa: 1.409,
  wind2mMs: 2.078,
  solarMJ: 22.07,
  extraterrestrialMJ: 41.09,
  daylightH: 16.1,
  clearSkyMJ: 30.9,
  netMJ: 13.28,
  etMm: 3.88,
  /** With e0 of the mean temperature for the mean of e0, hydpy's documentation: the usual mistake. */
  etOfMeanTempMm: 3.75,
} as const

/** Example 19: N'Diaye, 1 October; clock of 15 deg W. */
export const EXAMPLE_19 = {
  latDeg: 16 + 13 / 60,
  lonDeg: -(16 + 15 / 60),
  elevationM: 8,
  /** 14-15 h on the clock of 15 deg W is 15-16 h UTC. */
  day: {
    utcHour: 15,
    airTempC: 38,
    relHumidity: 0.52,
    wind2mMs: 3.3,
    solarMJ: 2.45,
    extraterrestrialMJ: 3.543,
    clearSkyMJ: 2.658,
    netMJ: 1.749,
    etMm: 0.63,
  },
  night: {
    utcHour: 3,
    airTempC: 28,
    relHumidity: 0.9,
    wind2mMs: 1.9,
    clearness: 0.8,
    netMJ: -0.1,
    etMm: 0,
  },
} as const

/** Example 20: near Lyon, 15 July, temperature only. Penman-Monteith 4.56 is recomputed; 5.0 (Hargreaves) from memory. */
export const EXAMPLE_20 = {
  latDeg: 45 + 43 / 60,
  dayOfYear: 196,
  elevationM: 200,
  tempMaxC: 26.6,
  tempMinC: 14.8,
  extraterrestrialMJ: 40.55,
  solarMJ: 22.29,
  vapourKPa: 1.68,
  etMm: 4.56,
  hargreavesMm: 5.0,
} as const

/** NCAR Command Language, documentation of radext_fao56 and radsol_clrsky_fao56: 22.9 deg S, day 135. [MJ/m2/d] */
export const NCL_CLEAR_SKY = { dayOfYear: 135, latDeg: -22.9, extraterrestrialMJ: 25.111, clearSkyMJ: 18.833 } as const

/** Meeus J. 1998, Astronomical Algorithms, examples 25.a and 28.b: 1992 October 13, 0 h. Second-hand, not opened. */
export const MEEUS_1992_10_13 = { dayOfYear: 287, declinationDeg: -7.78507, equationOfTimeMin: 13.71 } as const
