/**
 * Published dry-down of standing soybeans, corn and wheat. Typed 2026-11-25.
 * Confirmed by look-up unless marked "from memory".
 */

/** Soybean from maturity on. "15 days": Ciampitti, Kansas State University, Meadowlark Agronomy, 13 Sep 2024. */
export const SOYBEAN_58_TO_12 = { fromWb: 58, toWb: 12, days: 15 } as const
/** "3.2 points a day for 12 days, then about 13 %": Martinez-Feria, Archontoulis & Licht, Iowa State University 2017. */
export const SOYBEAN_EARLY = { pointsPerDay: 3.2, days: 12, endWb: 13 } as const
/** Soybean moisture at R6 (full seed): Kansas State University; at R7: 50 (K-State) to 55-65 (Iowa State). */
export const SOYBEAN_STAGES = { r6Wb: [75, 80], r7Wb: [50, 65] } as const
/** Days from R6 to R7: about 18, from memory. */
export const SOYBEAN_R6_TO_R7_DAYS = 18

/** Corn, points a day: rule of Iowa State University Agronomy (agron.iastate.edu). "November: about none." */
export const CORN_BY_MONTH = {
  september: [0.5, 1.0],
  october: [0.25, 0.5],
  november: [-0.1, 0.25],
} as const
/** Corn, points a day: Thomison 2023, Ohio State University (u.osu.edu). */
export const CORN_BY_MONTH_OHIO = {
  'mid to late September': [0.75, 1.0],
  'early to mid October': [0.5, 0.75],
  'late October to early November': [0.25, 0.5],
  'mid November': [0, 0.25],
} as const
/** Corn, first 20 days after maturity at about 35 %: Iowa State University 2017 (wallacesfarmer.com). */
export const CORN_FIRST_20_DAYS = 0.69
/** Corn, typical range: Elmore & Abendroth 2007, Iowa State University; below 0.3 cool and wet, up to 1.0 warm. */
export const CORN_TYPICAL = [0.4, 0.8] as const
/** Corn moisture at stages R2-R6: Abendroth et al., Iowa State University. */
export const CORN_STAGES = { r2Wb: 85, r5Wb: 60, r6Wb: 35 } as const
/** Silking to black layer about 62 days (confirmed); R2 12 days after silking, from memory. */
export const CORN_R2_TO_R6_DAYS = 50

/**
 * Corn in North Dakota: Hellevang, NDSU (slides on corn drying). An inch of potential evapotranspiration takes about
 * 4 points off; by month: equilibrium moisture [% wb], points lost in the month. His series: 35 % on 11 October, about
 * 27 % on 1 November, about 22 % on 1 December. His own monthly points give 27.6 and 23.1.
 * Mean temperatures of the months are typical for Fargo, from memory; they only set the speed of exchange.
 */
export const NORTH_DAKOTA = {
  startWb: 35,
  pointsPerInch: 4,
  months: [
    { name: 'October', days: 31, daysUsed: 21, equilibriumWb: 16, points: 11.5, tempC: 6, endWb: 27 },
    { name: 'November', days: 30, daysUsed: 30, equilibriumWb: 19, points: 4.5, tempC: -3, endWb: 22 },
  ],
} as const

/** Wheat at physiological maturity about 37 %: Thomason, Virginia Tech 2006. */
export const WHEAT_MATURITY_WB = 37
/** Wheat drying down to 18 %, points a day: from memory, unconfirmed. */
export const WHEAT_POINTS_PER_DAY = [1.5, 2.5] as const
/** Corn at black layer: 30-32 typical, 25-40 range (NDSU); 25-35 (Nielsen, Purdue); 35 (Abendroth, Iowa State). */
export const CORN_BLACK_LAYER_RANGE_WB = [25, 40] as const
