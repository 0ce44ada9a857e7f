/**
 * Published values of the Canadian fire weather index. Typed in 2026-11-25.
 *
 * Noon rows are [air temperature deg C, relative humidity %, wind km/h, rain mm], as published. Outputs are [fine fuel,
 * duff, drought, initial spread, build-up, fire weather].
 */
export type Outputs = readonly [number, number, number, number, number, number]
export interface SeasonDay {
  readonly date: string
  readonly noon: readonly [number, number, number, number]
  /** Constants as printed in 1985/1987, two decimals. */
  readonly printed: Outputs
  /** Constants at full length, one decimal. */
  readonly full: Outputs
}

/**
 * First 24 days of the test season of Van Wagner C.E., Pickett T.L. 1985, For. Tech. Rep. 33 (the print itself was not
 * seen). `full`: Canadian Forest Service test file fwi_test_data.csv (figures only). `printed`: the printed equations
 * calculated elsewhere to two decimals; that they round to the 1985 print is from memory. The year is not given; start
 * 85, 6, 15; latitude of the standard day-length table.
 */
export const TEST_SEASON: readonly SeasonDay[] = [
  {
    date: '1985-04-13',
    noon: [17, 42, 25, 0],
    printed: [87.69, 8.55, 19.01, 10.85, 8.49, 10.1],
    full: [87.6, 8.5, 19, 10.8, 8.5, 10],
  },
  {
    date: '1985-04-14',
    noon: [20, 21, 25, 2.4],
    printed: [86.25, 10.41, 23.57, 8.84, 10.36, 9.28],
    full: [86.2, 10.4, 23.6, 8.8, 10.4, 9.2],
  },
  {
    date: '1985-04-15',
    noon: [8.5, 40, 17, 0],
    printed: [86.97, 11.81, 26.05, 6.54, 11.75, 7.58],
    full: [86.9, 11.8, 26.1, 6.5, 11.7, 7.5],
  },
  {
    date: '1985-04-16',
    noon: [6.5, 25, 6, 0],
    printed: [88.83, 13.19, 28.18, 4.9, 13.11, 6.16],
    full: [88.8, 13.2, 28.2, 4.9, 13.1, 6.1],
  },
  {
    date: '1985-04-17',
    noon: [13, 34, 24, 0],
    printed: [89.1, 15.45, 31.47, 12.63, 15.35, 14.85],
    full: [89, 15.4, 31.5, 12.5, 15.3, 14.7],
  },
  {
    date: '1985-04-18',
    noon: [6, 40, 22, 0.4],
    printed: [88.66, 16.48, 33.5, 10.71, 16.38, 13.47],
    full: [88.6, 16.5, 33.5, 10.6, 16.4, 13.4],
  },
  {
    date: '1985-04-19',
    noon: [5.5, 52, 6, 0],
    printed: [87.35, 17.25, 35.45, 3.97, 17.15, 5.86],
    full: [87.3, 17.2, 35.4, 3.9, 17.1, 5.8],
  },
  {
    date: '1985-04-20',
    noon: [8.5, 46, 16, 0],
    printed: [87.4, 18.5, 37.93, 6.62, 18.4, 9.66],
    full: [87.3, 18.5, 37.9, 6.5, 18.4, 9.5],
  },
  {
    date: '1985-04-21',
    noon: [9.5, 54, 20, 0],
    printed: [86.81, 19.69, 40.6, 7.44, 19.59, 10.99],
    full: [86.7, 19.7, 40.6, 7.3, 19.6, 10.9],
  },
  {
    date: '1985-04-22',
    noon: [7, 93, 14, 9],
    printed: [29.86, 10.17, 29.52, 0.01, 10.93, 0],
    full: [29.8, 10.1, 29.5, 0, 10.9, 0],
  },
  {
    date: '1985-04-23',
    noon: [6.5, 71, 17, 1],
    printed: [49.44, 10.7, 31.65, 0.36, 11.6, 0.24],
    full: [49.4, 10.7, 31.6, 0.4, 11.6, 0.2],
  },
  {
    date: '1985-04-24',
    noon: [6, 59, 17, 0],
    printed: [67.28, 11.41, 33.68, 1.35, 12.35, 0.92],
    full: [67.2, 11.4, 33.7, 1.3, 12.3, 0.9],
  },
  {
    date: '1985-04-25',
    noon: [13, 52, 4, 0],
    printed: [77.8, 13.05, 36.98, 1.13, 13.86, 0.82],
    full: [77.7, 13, 37, 1.1, 13.9, 0.8],
  },
  {
    date: '1985-04-26',
    noon: [15.5, 40, 11, 0],
    printed: [85.48, 15.46, 40.72, 3.92, 15.86, 5.53],
    full: [85.4, 15.4, 40.7, 3.9, 15.9, 5.5],
  },
  {
    date: '1985-04-27',
    noon: [23, 25, 9, 0],
    printed: [91.52, 19.84, 45.81, 8.38, 19.8, 12.17],
    full: [91.5, 19.8, 45.8, 8.3, 19.8, 12.1],
  },
  {
    date: '1985-04-28',
    noon: [19, 46, 16, 0],
    printed: [89.93, 22.48, 50.19, 9.51, 22.42, 14.3],
    full: [89.9, 22.5, 50.2, 9.4, 22.4, 14.2],
  },
  {
    date: '1985-04-29',
    noon: [18, 41, 20, 0],
    printed: [89.98, 25.21, 54.38, 11.71, 25.13, 17.72],
    full: [89.9, 25.2, 54.4, 11.5, 25.1, 17.5],
  },
  {
    date: '1985-04-30',
    noon: [14.5, 51, 16, 0],
    printed: [88.43, 27.06, 57.95, 7.67, 26.98, 13.29],
    full: [88.4, 27, 57.9, 7.6, 27, 13.2],
  },
  {
    date: '1985-05-01',
    noon: [14.5, 69, 11, 0],
    printed: [85.7, 28.33, 62.96, 4.04, 28.27, 8.02],
    full: [85.6, 28.3, 63, 4, 28.2, 7.9],
  },
  {
    date: '1985-05-02',
    noon: [15.5, 42, 8, 0],
    printed: [87.39, 30.87, 68.15, 4.41, 30.8, 9.09],
    full: [87.3, 30.8, 68.2, 4.4, 30.8, 9],
  },
  {
    date: '1985-05-03',
    noon: [21, 37, 8, 0],
    printed: [89.39, 34.53, 74.34, 5.88, 34.45, 12.26],
    full: [89.3, 34.5, 74.3, 5.8, 34.4, 12.2],
  },
  {
    date: '1985-05-04',
    noon: [23, 32, 16, 0],
    printed: [90.98, 38.85, 80.88, 11.05, 38.74, 21.01],
    full: [90.9, 38.8, 80.9, 11, 38.7, 20.9],
  },
  {
    date: '1985-05-05',
    noon: [23, 32, 14, 0],
    printed: [91.21, 43.16, 87.43, 10.31, 43.04, 21.07],
    full: [91.2, 43.1, 87.4, 10.2, 43, 20.9],
  },
  {
    date: '1985-05-06',
    noon: [27, 33, 12, 0],
    printed: [91.66, 48.12, 94.69, 9.94, 47.97, 21.69],
    full: [91.6, 48.1, 94.7, 9.9, 47.9, 21.6],
  },
]

/** Single calls with all digits, as printed in public copies of Wang et al. 2015, NOR-X-424 (constants of 1985/1987). */
export const SINGLE_CALLS = {
  /** 17 deg C, 42 %, 25 km/h, no rain, from 85. */
  fineFuel: 87.692980092774448,
  /** 17 deg C, 42 %, no rain, from 6, April. */
  duff: 8.5450511359999997,
  /** 17 deg C, no rain, from 15, April. */
  drought: 19.013999999999999,
  /** The fine fuel code above, 25 km/h. */
  initialSpread: 10.853661073655068,
  /** Of 8.545051136 and 19.014. */
  buildUp: 8.4904265358371838,
  /** Of 10.853661073655068 and 8.4904265358371838. */
  fireWeather: 10.096371392382368,
} as const

/** [before, deg C, %, km/h, mm, code]: calculated elsewhere from the printed equations, three decimals. */
export const FINE_FUEL_BRANCHES = [
  [80, 10, 95, 5, 0, 77.353],
  [90, 20, 60, 10, 5, 65.575],
  [30, 15, 90, 10, 20, 17.781],
] as const

/** [deg C, %, km/h, mm, code after the hour], one after another from 85: calculated elsewhere, three decimals. */
export const HOURLY_TRACE = [
  [20, 50, 10, 0, 85.306],
  [24, 40, 12, 0, 86.044],
  [28, 30, 15, 0, 87.346],
  [30, 25, 18, 0, 88.835],
  [27, 35, 10, 0, 89.279],
  [22, 60, 6, 0, 89.031],
  [18, 85, 4, 1.2, 63.978],
] as const

/**
 * [before, deg C, %, km/h, mm, code] after 9 hours: Canadian Forest Service test data, HourlyFineFuelMoistureCode.csv
 * (repository cffdrs_r, figures only). Rain 0 stands as -10 in the file.
 */
export const HOURLY_NINE = [
  [0, 29.9, 19.16, 72.9, 186.83, 88.2855556767824],
  [0, 34.9, 48.32, 0, 186.83, 46.1119616016578],
  [0, 21.8, 84.77, 0, 186.83, 9.58754396368629],
  [0, -20.8, 41.03, 0, 186.83, 6.49862794418851],
  [0, 11.4, 55.61, 72.9, 252.44, 51.5108733930868],
  [72.9, 26.4, 11.87, 0, 55.61, 54.7205998035188],
  [72.9, 29.6, 41.03, 72.9, 55.61, 83.7096132615213],
  [72.9, 37.8, 99.35, 72.9, 55.61, 12.7963791060518],
  [72.9, -3.9, 55.61, 0, 55.61, 17.1143709789425],
  [72.9, 42.7, 4.58, 72.9, 55.61, 99.1793743047698],
  [72.9, 31.8, 11.87, 0, 0, 91.4575032800931],
  [72.9, 22.8, 77.48, 0, 0, 76.0615270363307],
  [72.9, -28.8, 99.35, 0, 0, 72.0821842358872],
  [72.9, 43.2, 99.35, 72.9, 0, 73.382257412009],
] as const

/**
 * [before, deg C, %, mm, latitude, code] in January, constants at full length: same test data, DuffMoistureCode.csv.
 */
export const DUFF_JANUARY = [
  [210.9, 18.6, 55.61, 55.61, -90, 67.9706495373823],
  [85.5, 42.9, 55.61, 55.61, -90, 38.5132977723838],
  [24.3, -30, 55.61, 55.61, -90, 8.07363407573775],
  [121.8, 18.6, 55.61, 0, -90, 123.7047114223],
  [219, 18.6, 55.61, 55.61, -17.1, 68.5804417500646],
  [214.8, -5.7, 55.61, 121.22, -17.1, 65.1416149676891],
  [129.9, 18.6, 55.61, 0, -17.1, 131.57283351002],
  [138, 18.6, 55.61, 0, 55.8, 139.0765760213],
  [227.1, 18.6, 55.61, 55.61, 55.8, 68.7593105241435],
  [8.4, 18.6, 55.61, 55.61, 55.8, 4.27168900479638],
  [40.5, -30, 55.61, 55.61, 55.8, 12.7687175034663],
  [40.8, 18.6, 55.61, 252.44, -90, 13.1659284480768],
  [45, 42.9, 55.61, 186.83, -90, 17.4655580779144],
] as const

/** [before, deg C, mm, latitude, code] in January: same test data, DroughtCode.csv. */
export const DROUGHT_JANUARY = [
  [210.9, 18.6, 55.61, -90, 90.7864432569069],
  [307.8, -30, 55.61, -90, 155.0363000957],
  [0, -30, 0, -90, 3.2],
  [125.7, -5.7, 55.61, -17.1, 20.6984438680324],
  [531, 42.9, 55.61, -17.1, 297.515045426489],
  [8.1, -30, 0, -17.1, 8.8],
  [117.9, 42.9, 186.83, -17.1, 8.926],
] as const

/** [duff, drought, index]: same test data, BuildupIndex.csv. */
export const BUILD_UP_ROWS = [
  [0, 0, 0],
  [2.7, 0, 1.77730811410816],
  [64.8, 0, 63.2823928880494],
  [999, 0, 935.562791576939],
  [1.5, 218.7, 2.94942683749157],
  [85.2, 218.7, 86.3249478804726],
  [87.9, 218.7, 87.8953935916281],
  [528, 218.7, 512.207041275286],
] as const

/** [initial spread, build-up, index]: same test data, FireWeatherIndex.csv. */
export const FIRE_WEATHER_ROWS = [
  [0, 0, 0],
  [4.5, 0, 0.9],
  [5.4, 0, 1.35203037234625],
  [99.9, 0, 25.0973631045783],
  [0.5, 218.7, 3.37851047518788],
  [14, 218.7, 48.6579416026911],
  [145.4, 218.7, 187.640499319626],
] as const
