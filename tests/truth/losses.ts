/**
 * Published losses of standing and harvested grain, and market arithmetic. Typed in on 2026-11-25.
 *
 * "confirmed": read on a public page or in the abstract; "from memory": not confirmed; "common practice, no source": a
 * fact of the trade. `within` is half of the last printed digit unless a reason is given.
 */

/** Philbrook & Oplinger 1989, Agron. J. 81(2), abstract (confirmed): Wisconsin 1983-86, six soybean cultivars. */
export const PHILBROOK = {
  firstHarvestLoss: 0.061,
  lossAfter42Days: 0.139,
  /** Printed; the two losses give 0.186 %, so this is rounded. */
  ratePerDayRounded: 0.002,
  firstHarvestDaysAfterR8: [3, 7],
  /** More pods and beans on the ground, shattered at the header, and left on stems, by 42 days of waiting [kg/ha]. */
  riseKgHa: { preharvest: 62, shatter: 95, stem: 70 },
} as const

/** Missouri Extension G1280, Shay, Ellis & Hires 1993 (confirmed): lost before harvest begins, in most years. */
export const SOYBEAN_BEFORE_HARVEST = 0.0025

/** Worst pre-harvest loss after many wet-dry cycles: Sumner, University of Georgia extension (confirmed, second hand). */
export const SOYBEAN_WORST_PREHARVEST = 0.25

/** Timeliness of harvest, ASAE D497, share of crop value per day. */
export const D497_TIMELINESS = {
  /** Quoted by Schuler, University of Wisconsin extension, September 2005 (confirmed). Illinois, by variety. */
  soybean: [0.006, 0.01],
  /** Same. Iowa. */
  corn: 0.003,
  /** From memory. Ohio. */
  wheat: 0.005,
  /** From memory. Oklahoma. */
  sorghum: 0.005,
} as const

/** Casteel, Purdue extension (confirmed): pods turn brittle after this many wet-dry cycles. */
export const CYCLES_TO_BRITTLE = [2, 3] as const

/** North Dakota State and Michigan State extension (confirmed): shatter loss rises sharply below this moisture. */
export const SOYBEAN_SHATTER_TURN_WB = 11

/** North Dakota State extension, McKay, July 2007 (confirmed): days after first fit until loss rises significantly. */
export const CANOLA_DAYS_TO_SHATTER = 10

/** Wheat left standing: the sources disagree, so only the range is used. */
export const WHEAT_STANDING = {
  /** Farrer et al. 2006, Agron. J. 98:588-595 (confirmed, abstract): worst of delays of 8-19 days [kg/ha]. */
  farrerWorstKgHa: 900,
  /** Ohio State 2018 (confirmed): 9 bu/acre and 2.9 lb/bu lost from 29 June to 8 July, one rain. */
  ohioBuPerAcre: 9,
  ohioDays: 9,
  ohioLbPerBu: 2.9,
  /** Penn State on the North Carolina study (confirmed): yield hardly affected, within reason. */
  pennState: 0,
} as const

/** Test weight of wheat. */
export const WHEAT_TEST_WEIGHT = {
  /** Penn State and Virginia Tech extension on the North Carolina study (confirmed) [lb/bu per wetting]. */
  lbPerWetting: 1,
  /** North Dakota State extension 2012 (confirmed): disagrees with the row above [lb/bu per wetting]. */
  lbPerWettingNorthDakota: [2, 3],
  /** Farrer et al. 2006 (confirmed): largest fall [kg/m3]. */
  worstKgM3: 115,
  /** Thomason, Virginia Tech (confirmed): mean of 12 days' delay [lb/bu]. */
  virginia: { before: 58.8, after: 55.0, days: 12, fall: 0.064 },
  /** Ontario Soil and Crop Improvement Association 2019 (confirmed) [kg/hL]. */
  ontario: [
    { before: 78.3, after: 73.7, days: 18 },
    { before: 76.7, after: 71.9, days: 21 },
  ],
} as const

/** Thomison, Geyer & Minyo, Ohio State, eight trials (confirmed). Harvests early to middle of each month. */
export const CORN_OHIO = {
  octoberToNovember: 0.02,
  novemberToDecember: 0.11,
  total: 0.13,
  rangeOfLastMonth: [0.05, 0.24],
  /** "nearly 90 %" of the loss comes after mid-November. Their own means give 11 / 13 = 85 %. */
  shareAfterMidNovember: 0.9,
} as const

/** Thelen, Michigan State (confirmed): corn lost by the machine and in all, by month of harvest. */
export const CORN_MICHIGAN = {
  october: { machine: 0.046, total: 0.05 },
  november: { machine: 0.07, total: 0.084 },
  december: { machine: 0.118, total: 0.184 },
} as const

/** Combine losses of soybeans. */
export const SOYBEAN_HARVEST = {
  /** Michigan State E3487, 2023 (confirmed): total in good conditions, and the part of it lost in gathering. */
  goodTotal: [0.02, 0.04],
  gatheringShare: 0.9,
  /** Ohio State extension (second hand): cut at 9 rather than 13 %, up to. */
  at9: 0.08,
  /** Trade leaflet (confirmed): shatter at the combine below 13 %, up to. */
  dryWorst: 0.1,
  /** Extension figures, author not confirmed: height of stubble [in] and loss. */
  stubble: [
    { heightIn: 3.5, loss: 0.05 },
    { heightIn: 6.5, loss: 0.12 },
  ],
  /** Paulsen et al. 1981 (confirmed, second hand): cracking grows below 11 %. Extension: crushing above 18 %. */
  cracksBelowWb: 11,
  crushedAboveWb: 18,
} as const

/** Trade leaflet (confirmed): corn, machine loss at 23-25 %, and what 17-19 % adds. */
export const CORN_HARVEST = { at24: [0.01, 0.02], addedAt18: [0.02, 0.08] } as const

/** North Dakota State extension, Berglund, July 2002 (confirmed): loss usually tolerated. */
export const TOLERATED_HARVEST_LOSS = [0.02, 0.03] as const

/** Same leaflet: seeds in a pound and seeds on a square foot that make a bushel an acre. */
export const SEED_COUNTS = [
  { seed: 'spring wheat', perLb: 14_300, perFt2: 20, lbPerBu: 60 },
  { seed: 'durum', perLb: 11_500, perFt2: 16, lbPerBu: 60 },
  { seed: 'barley', perLb: 13_500, perFt2: 15, lbPerBu: 48 },
  { seed: 'oats', perLb: 15_500, perFt2: 11, lbPerBu: 32 },
  { seed: 'flax', perLb: 88_000, perFt2: 113, lbPerBu: 56 },
  { seed: 'soybeans, small', perLb: 3300, perFt2: 4.5, lbPerBu: 60 },
  { seed: 'soybeans, large', perLb: 2400, perFt2: 3.5, lbPerBu: 60 },
  { seed: 'corn', perLb: 1500, perFt2: 2, lbPerBu: 56 },
  { seed: 'sunflower, oil', perLb: 9000, perFt2: 5, lbPerBu: 25 },
  { seed: 'canola', perLb: 150_000, perFt2: 172, lbPerBu: 50 },
] as const
/** Rows of it that contradict themselves and are not asserted: sorghum 15,000 and 18 (gives 19.3), rye 18,000 and 42 (23.1). */
export const SEED_COUNTS_MISPRINTED = [
  { seed: 'sorghum', perLb: 15_000, perFt2: 18, lbPerBu: 56, exact: 19.3 },
  { seed: 'rye', perLb: 18_000, perFt2: 42, lbPerBu: 56, exact: 23.1 },
] as const
/** Common field rule, Michigan State E3487 and Ohio State (confirmed): 4 soybeans on a square foot, 5 if small; 2 kernels of corn. */
export const SOYBEANS_PER_FT2_PER_BU = [4, 5] as const

/** Extension tables (confirmed): 100 / (100 - final), printed to three decimals [% per point]. */
export const SHRINK_PER_POINT = [
  { toWb: 15.5, percent: 1.183 },
  { toWb: 15, percent: 1.176 },
  { toWb: 14, percent: 1.163 },
  { toWb: 13, percent: 1.149 },
  { toWb: 12, percent: 1.136 },
] as const

/** Pounds that hold the dry matter of a standard bushel: Missouri Extension weight conversion tables (confirmed). */
export const POUNDS_PER_STANDARD_BUSHEL = [
  { crop: 'corn', lb: 56, standardWb: 15.5, moistureWb: 20, printed: 59.15 },
  { crop: 'corn', lb: 56, standardWb: 15.5, moistureWb: 25, printed: 63.09 },
  { crop: 'corn', lb: 56, standardWb: 15.5, moistureWb: 30, printed: 67.6 },
  { crop: 'soybean', lb: 60, standardWb: 13, moistureWb: 10, printed: 58.0 },
  { crop: 'soybean', lb: 60, standardWb: 13, moistureWb: 11, printed: 58.65 },
  { crop: 'soybean', lb: 60, standardWb: 13, moistureWb: 18, printed: 63.66 },
  { crop: 'soybean', lb: 60, standardWb: 13, moistureWb: 20, printed: 65.25 },
] as const
/** Rows of them that are misprinted: not asserted as printed, the exact value is. */
export const POUNDS_MISPRINTED = [
  { crop: 'soybean', lb: 60, standardWb: 13, moistureWb: 19, printed: 64.64, exact: 64.44 },
  { crop: 'corn', lb: 56, standardWb: 15.5, moistureWb: 10, printed: 52.56, exact: 52.58 },
] as const

/** Soybeans sold too dry: Nebraska CropWatch 2016, Pryor, Jasa & Zoubek (confirmed), printed to the digits shown [%]. */
export const SOYBEAN_OVER_DRY = [
  { moistureWb: 8, percent: 5.43, within: 0.0051 },
  { moistureWb: 9, percent: 4.4, within: 0.05 },
  { moistureWb: 10, percent: 3.3, within: 0.05 },
  { moistureWb: 11, percent: 2.25, within: 0.005 },
  { moistureWb: 12, percent: 1.14, within: 0.005 },
] as const
/** The same as money an acre. `within` of North Dakota rows allows for bushels rounded before the price is put on. */
export const SOYBEAN_OVER_DRY_DOLLARS = [
  { source: 'Nebraska 2016', buPerAcre: 75, moistureWb: 9, perBu: 9, dollars: 30, within: 0.5 },
  { source: 'Nebraska, Dorn 2009', buPerAcre: 60, moistureWb: 11, perBu: 8.5, dollars: 11.48, within: 0.03 },
  { source: 'North Dakota', buPerAcre: 40, moistureWb: 9, perBu: 13, dollars: 23.4, within: 0.05 * 13 },
  { source: 'North Dakota', buPerAcre: 35, moistureWb: 10, perBu: 8, dollars: 9.6, within: 0.05 * 8 },
] as const
/** Ohio trade paper: 60 bu at 10 % "2.3 bu". Contradicts its own 3.3 %, which gives 2.0: not asserted. */
export const SOYBEAN_OVER_DRY_INCONSISTENT = { buPerAcre: 60, moistureWb: 10, printedBu: 2.3, exactBu: 2.0 } as const

/** South Dakota State, Karki (confirmed): corn from 25 to 15.5 % [%]. */
export const CORN_WATER_SHRINK = { fromWb: 25, toWb: 15.5, percent: 11.24 } as const
/** Trade leaflet (confirmed): 1,000 lb corn from 25.5 to 15.5 %, then with 0.5 % handling. Its "15.8 bu" is rounded on the way. */
export const CORN_1000_LB = {
  fromWb: 25.5,
  toWb: 15.5,
  percent: 11.83,
  withHandlingLb: 876.7,
  handlingPercent: 0.5,
} as const

/**
 * Soybean sold wet: Michigan State, Staton (confirmed). 60 bu/acre at 13 %, shrink 1.4 % a point, drying 5 cents a point and
 * wet bushel. The price is not printed; 12.90 $/bu was solved from the row at 13 % (774 / 60). `within` is a bushel
 * hundredth of the table times the price.
 */
export const SOYBEAN_SOLD_WET = {
  perBu: 12.9,
  buPerAcre: 60,
  shrinkPerPoint: 1.4,
  dryingPerBuPoint: 0.05,
  within: 0.13,
  rows: [
    { moistureWb: 18, wetBu: 63.66, shrinkPercent: 7, paidBu: 59.2, netPerAcre: 747.81 },
    { moistureWb: 17, wetBu: 62.89, shrinkPercent: 5.6, paidBu: 59.37, netPerAcre: 753.27 },
    { moistureWb: 16, wetBu: 62.14, shrinkPercent: 4.2, paidBu: 59.53, netPerAcre: 758.62 },
    { moistureWb: 15, wetBu: 61.41, shrinkPercent: 2.8, paidBu: 59.69, netPerAcre: 763.87 },
    { moistureWb: 13, wetBu: 60, shrinkPercent: 0, paidBu: 60, netPerAcre: 774 },
  ],
} as const

/** Corn sold wet: Iowa State AgDM A2-32 (confirmed). 1,000 wet bushels at 20.5 %, 3.50 $/bu, standard 15 %. */
export const CORN_SOLD_WET = {
  wetBu: 1000,
  moistureWb: 20.5,
  standardWb: 15,
  perBu: 3.5,
  /** Discount of 2 % of the price a point: 39 cents, 3.11 $/bu, both rounded to a cent, so 3,110 within 5 dollars. */
  dockPerPoint: 2,
  dockedDollars: 3110,
  dockedWithin: 5.01,
  /** Drying at 4.8 cents a point and bushel. */
  dryingPerBuPoint: 0.048,
  dryingDollars: 264,
} as const

/** Illinois FEFO 09-16, 2009 (confirmed): 190 bu at 15 % are 216 bu at 25 % with 0.25 % handling; 186 paid at 1.4 % a point. */
export const CORN_ACRE = {
  buAtStandard: 190,
  standardWb: 15,
  moistureWb: 25,
  handlingPercent: 0.25,
  wetBu: 216,
  shrinkPerPoint: 1.4,
  paidBu: 186,
} as const

/**
 * A northern plains elevator's public schedule of 2023 (confirmed): standard 14.5, shrink 1.5 % a point; drying from 15.1 % 6
 * cents and 1 more each half point, from 17.6 % 12 cents and 2 more each half point [share of weight, $/bu].
 */
export const ELEVATOR_SCHEDULE = {
  standardWb: 14.5,
  shrinkPerPoint: 1.5,
  drying: [
    { fromWb: 15.1, base: 0.06, every: 0.5, add: 0.01 },
    { fromWb: 17.6, base: 0.12, every: 0.5, add: 0.02 },
  ],
  rows: [
    { moistureWb: 15.1, shrink: 0.009, drying: 0.06 },
    { moistureWb: 16.0, shrink: 0.0225, drying: 0.07 },
    { moistureWb: 20.0, shrink: 0.0825, drying: 0.2 },
    { moistureWb: 22.0, shrink: 0.1125, drying: 0.28 },
    { moistureWb: 25.5, shrink: 0.165, drying: 0.42 },
  ],
} as const
