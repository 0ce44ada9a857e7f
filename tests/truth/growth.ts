/**
 * Growth of crops: degree days, stages, dates of maturity. Typed in 2026-11-25. Each row names its source; "confirmed" means
 * read in the source or in an extension page that quotes it, everything else is marked from memory.
 */

/** Ohio State University Extension AGF-101: a day of 90 and 48 F counts 18. Confirmed. */
export const CORN_DAY = { maxF: 90, minF: 48, degreeDaysF: 18 } as const

/** McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300: the two readings, base 0 deg C. Confirmed. */
export const TWO_READINGS = { maxC: 5, minC: -5, baseC: 0, meanFirst: 0, clippedFirst: 2.5 } as const

/** Oregon State University EM 8578 (1994), Table 1: six days, rounded to whole degree days C, base 0. Confirmed. */
export const OREGON_WHEAT_WEEK = [
  { maxF: 72, minF: 48, degreeDaysC: 16 },
  { maxF: 78, minF: 45, degreeDaysC: 17 },
  { maxF: 69, minF: 43, degreeDaysC: 13 },
  { maxF: 73, minF: 45, degreeDaysC: 15 },
  { maxF: 75, minF: 46, degreeDaysC: 16 },
  { maxF: 74, minF: 49, degreeDaysC: 17 },
] as const

/** Canola Council of Canada, Canola Watch, 22 May 2014: a day of 20 and 10 C counts 15, base 0; about 1500 from seeding. Confirmed. */
export const CANOLA = { maxC: 20, minC: 10, degreeDaysC: 15, toMaturityC: 1500 } as const

/** Nielsen, Purdue University (from memory): RM 105. Wisconsin (agweather.cals.wisc.edu, confirmed): R6 of RM 95-105 at 2400-2600. */
export const CORN_RM_105 = { silkF: 1303.5, blackLayerF: 2521.4, wisconsinBandF: [2400, 2600] } as const
/** Purdue University for Indiana: usual hybrids (RM 105-115) 2500-2800 to black layer. Confirmed, the RM range common practice. */
export const INDIANA_BAND_F = [2500, 2800] as const

/** Nielsen et al. 2002, as quoted in extension news: 2700 deg F d planted on 31 May needs 2496. Confirmed. */
export const LATE_CORN = { ratedF: 2700, daysLate: 30, neededF: 2496 } as const

/** Silking to black layer [d]: about 62 (No-Till Farmer 2209), 64-66 (Abendroth et al. 2011, Iowa State). Confirmed. */
export const SILK_TO_BLACK_LAYER_D = [62, 66] as const

/** NDSU 2016: mean deg F d from planting to R8 by RM (00.8 = -0.2), n = 1816. Confirmed. */
export const NDSU_R8 = [
  { maturityGroup: -0.2, degreeDaysF: 1694 },
  { maturityGroup: 0.5, degreeDaysF: 1890 },
  { maturityGroup: 1.1, degreeDaysF: 2058 },
] as const

/**
 * Stoneville, Mississippi, 33.43 N, April plantings 1979-2003 (Heatherly 2005, Crop Management; Delta Farm Press): group 4 flowers
 * after 42 d and is mature after 135-140 d; group 5 is 17 and 19 d later. Confirmed.
 */
export const STONEVILLE = {
  latDeg: 33.43,
  plantedOn: '2025-04-15',
  flowerD: 42,
  fullMaturityD: [135, 140],
  nextGroup: { flowerD: 17, fullMaturityD: 19 },
} as const

/** One maturity group: about 10 d (Licht, Iowa State; Wiebold, University of Missouri). Confirmed. */
export const DAYS_PER_GROUP = 10

/** Planting 30 d later: maturity 10 d later (Staton, Michigan State 2023) to 14 d (Conley & Shaner, Purdue, groups 2.6-3.6). Confirmed. */
export const THIRTY_DAYS_LATER_D = [10, 14] as const

/** Iowa 2014-2016, groups 2.2-2.5, early May to early July: VE-R3 and R3-R7 each up to 15-20 d shorter (Iowa State thesis 17482). Confirmed. */
export const IOWA_SHORTER_D = [30, 40] as const

/** Double crop in Pennsylvania: about 90 d from planting in July to dry seed (No-Till Farmer 4885). Confirmed. */
export const DOUBLE_CROP_D = 90

/** Sorghum: black layer, base 50, ceiling 100 F (Kansas State University, Agronomy eUpdate 661). Confirmed. */
export const SORGHUM_BLACK_LAYER_F = { mediumEarly: 2556, mediumLate: 3006 } as const
/** Sorghum: USDA FAS growth stage model after Vanderlip & Reeves 1972, short and medium season [deg C d]. Confirmed; its base is not stated there. */
export const SORGHUM_USDA_C = [1690, 1944] as const

/** Sunflower: R9, base 6.7 C (Kubinec, Manitoba 2014). Confirmed. Worked day: 25 and 10 C count 10.8. */
export const SUNFLOWER = { maxC: 25, minC: 10, degreeDaysC: 10.8, toMaturityC: 1276 } as const

/** Spring cereals: about 1500 deg C d, base 0 (Meadow Lake, Saskatchewan). Confirmed. Wheat 1538-1665, barley 1269-1522: from memory. */
export const SPRING_CEREALS_C = { rough: 1500, wheat: [1538, 1665], barley: [1269, 1522] } as const

/** FAO-56 example 9: 20 deg S, 3 September (day 246): 11.7 h. From memory. */
export const FAO56_EXAMPLE_9 = { latDeg: -20, dayOfYear: 246, dayLengthH: 11.7 } as const

/**
 * Champaign, Illinois, 40.06 N: mean of daily highest and lowest hour, 1996-2023 [deg C]. Computed from hourly data of the SURFRAD
 * and Illinois WARM networks as packed in the BioCro R package (MIT).
 */
export const CHAMPAIGN_MONTHS = [
  { month: 7, dayOfYear: 197, meanC: 23.44 },
  { month: 8, dayOfYear: 228, meanC: 22.48 },
  { month: 9, dayOfYear: 258, meanC: 19.5 },
  { month: 10, dayOfYear: 289, meanC: 12.76 },
  { month: 11, dayOfYear: 319, meanC: 5.71 },
] as const

/** Champaign, 1996-2023, the same data: spread between years of the mean temperature of so many days from July or August on [deg C]. */
export const CHAMPAIGN_SPANS = [
  { days: 1, sdC: 2.67 },
  { days: 5, sdC: 2.18 },
  { days: 10, sdC: 1.74 },
  { days: 20, sdC: 1.39 },
  { days: 40, sdC: 1.13 },
  { days: 60, sdC: 1.03 },
  { days: 90, sdC: 0.97 },
  { days: 120, sdC: 0.93 },
] as const
