/**
 * Dew, drying and wetness. Typed 2026-11-25. Each block says where it is from and how it was obtained.
 */

/**
 * Garratt J.R., Segal M. 1988, Boundary-Layer Meteorol. 45:209-236, doi:10.1007/BF01066671, abstract, confirmed by
 * look-up: high dewfall rates are usually no more than about 0.06 mm/h over a canopy; 0.07-0.09 with distillation from a
 * saturated soil (which is not modelled here).
 */
export const HIGH_DEWFALL_MM_PER_H = 0.06

/**
 * Ritter F., Berkelhammer M., Beysens D. 2019, Hydrol. Earth Syst. Sci. 23:1179-1197, doi:10.5194/hess-23-1179-2019,
 * abstract, confirmed by look-up: dew yield of nine grasslands across the US, mean and standard deviation.
 */
export const GRASSLAND_NIGHT_DEW_MM = { mean: 0.14, sd: 0.12 }

/**
 * Dew at the western edge of the Gurbantunggut desert, Water 2019, 11(4):733, doi:10.3390/w11040733, abstract, confirmed
 * by look-up: highest dew of a night in four years.
 */
export const HIGHEST_NIGHT_DEW_MM = 0.62

/**
 * Iowa State University, Agronomy 541 lesson 7a.6, confirmed by look-up: dew is not expected in wind over 7 mph (height
 * not given).
 */
export const NO_DEW_ABOVE_MPH = 7

/**
 * Lu R., Siebenmorgen T.J. 1994, Trans. ASAE 37(2):553-560 (standing rice), abstract seen: dew starts at about 94 %
 * relative humidity. Gillespie et al. 1993, from memory: at 2.0 deg C dew-point depression (88 % at 15 deg C).
 */
export const DEW_ONSET_REL_HUMIDITY = { rice: 0.94, depression2C: 0.88 }

/** Plants dry off in the forenoon, 2-4 hours after sunrise on clear days: common practice, no source. */
export const DRY_AFTER_SUNRISE_H = { from: 1.5, to: 4 }

/**
 * FAO-56 example 19 (N'Diaye, Senegal): net longwave loss of the hour [MJ/m2]. From memory, agrees with FAO-56 eq. 39.
 */
export const FAO_EXAMPLE_19 = [
  { airTempC: 28, relHumidity: 0.9, clearness: 0.8, lossMJ: 0.1 },
  { airTempC: 38, relHumidity: 0.52, clearness: 0.922, lossMJ: 0.137 },
]

/**
 * Share of the available heat that evaporates water into saturated air, slope / (slope + psychrometer constant), at sea
 * level: FAO Irrigation and Drainage Paper 24 (Doorenbos & Pruitt 1977), weighting factor W. From memory.
 */
export const SATURATED_SHARE = [
  { airTempC: 10, share: 0.55 },
  { airTempC: 20, share: 0.68 },
  { airTempC: 30, share: 0.78 },
]

/** Sentelhas et al. 2008, abstract: share of hours the rule "wet at 90 %" gets right at four places. */
export const HUMIDITY_RULE_RIGHT = { from: 0.87, to: 0.92 }

/**
 * Light-wind discriminant of the CART/SLD tree (Kim et al. 2002), computed apart from this code from the equation found
 * in a secondary page. Regression rows. `wet` as that page's rule has it.
 */
export const COMPUTED_TREE = [
  { airTempC: 15, rhPct: 95, windMs: 0.5, depressionC: 0.8, a: 16.405, wet: true },
  { airTempC: 15, rhPct: 80, windMs: 1.0, depressionC: 3.4, a: 13.516, wet: false },
  { airTempC: 20, rhPct: 92, windMs: 1.5, depressionC: 1.3, a: 15.372, wet: true },
  { airTempC: 20, rhPct: 70, windMs: 1.0, depressionC: 5.6, a: 11.866, wet: false },
  { airTempC: 25, rhPct: 94, windMs: 0.4, depressionC: 1.0, a: 16.264, wet: true },
  { airTempC: 15, rhPct: 85, windMs: 2.4, depressionC: 2.5, a: 12.823, wet: false },
]

/**
 * Corn stover, lowest and highest measured moisture over 12-89 % relative humidity and 20-40 deg C [% dry basis]:
 * Karunanithy C., Muthukumarappan K. 2013, J. Renewable Energy 2013:939504, doi:10.1155/2013/939504, abstract, confirmed
 * by look-up. The wettest cell is the coolest: 20 deg C.
 */
export const STOVER_MOISTURE_DB = { dry: { rhPct: 12, db: 8.0 }, wet: { rhPct: 89, airTempC: 20, db: 19.6 } }
