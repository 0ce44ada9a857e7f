/**
 * Published and worked figures of harvest capacity. Typed in on 2026-11-25.
 *
 * "confirmed": read on a public page; "from memory": not confirmed; "common practice, no source": a fact of the trade;
 * "worked by hand": the published formula with numbers of our own, reckoned apart from the code.
 */

/** Hancock, Swetnam & Benson 1991, University of Kentucky AEN-73 (confirmed): acres/h = mph x ft / 8.25. */
export const ACRES_PER_H_DIVISOR = 8.25

/** ASAE EP496 and Srivastava et al. 2006, eq. 15.1 and 15.2 (confirmed), worked by hand. */
export const WORKED_CAPACITY = [
  { what: 'soybean', widthFt: 30, mph: 3.5, efficiency: 0.7, acresPerH: 8.91, buPerAcre: 60, buPerH: 535 },
  {
    what: 'corn, 8 rows of 30 in',
    widthFt: 20,
    mph: 4,
    efficiency: 0.7,
    acresPerH: 6.79,
    buPerAcre: 200,
    buPerH: 1357,
  },
] as const
/** The same in metric: 9.1 m at 6 km/h and 0.75, 4 t/ha of wheat. */
export const WORKED_METRIC = { widthM: 9.1, kmh: 6, efficiency: 0.75, haPerH: 4.1, yieldTHa: 4, tPerH: 16.4 } as const

/** ASAE D497 (from memory): field efficiency of a self-propelled combine. */
export const D497_COMBINE_EFFICIENCY = { low: 0.65, usual: 0.7, high: 0.8 } as const

/** Common practice, no source. */
export const TRADE_FACTS = {
  /** Corn of 230 bu/acre, cut 30 ft wide at 4 mph, fills 400 bu in about this time [min]. */
  fillMin: 7,
  fillWithin: 0.5,
  /** 400 bu go out at 3.8 bu/s in about this time [s]. */
  unloadS: 105,
  unloadWithin: 1,
  /** 45 ft at 4 mph in a long day of 12 h [acres]. */
  acresInALongDay: [150, 200],
  longDayH: 12,
} as const

/**
 * A trade sourcebook of 2010 prints 6,600 bu/h and 2 bu/s for 330 bu/acre, 5 mph, 30 ft. That is 20 acres/h, where AEN-73
 * gives 18.2 even without a turn: rounded up by the source, not asserted.
 */
export const INCONSISTENT_THROUGHPUT = {
  buPerAcre: 330,
  mph: 5,
  widthFt: 30,
  printedBuPerH: 6600,
  exactBuPerH: 6000,
} as const

/** 56 lb in a bushel of 2,150.42 in3 (NIST Handbook 44): 44.8 lb/ft3, 0.7208 t/m3, as in many bin tables (confirmed). */
export const CORN_KG_M3 = 720.8

/** Worked by hand from the textbook cycle times: 3 combines, 12 acres/h each, corn of 200 bu/acre. */
export const WORKED_OUTFIT = {
  combines: 3,
  acresPerH: 12,
  buPerAcre: 200,
  tankBu: 350,
  augerBuPerS: 3.5,
  cartBu: 1000,
  cartBuPerMin: 500,
  travelMin: 2,
  positionMin: 1,
  fillMin: 8.75,
  tankUnloadMin: 1.67,
  cartCycleMin: 13.6,
  cartsExact: 1.63,
  carts: 2,
  cartUse: 0.82,
  truckBu: 950,
  /** 25 min each way. */
  haulMin: 50,
  turnaroundMin: 19,
  loadMin: 2,
  truckCycleMin: 71,
  trucks: 9,
  sixTrucksBuPerH: 4817,
  sixTrucksShare: 0.67,
} as const

/**
 * Finite queuing tables, population 5 (Peck & Hazelwood 1958, as reprinted in a textbook appendix; confirmed on a public
 * page). X = service / (service + running time), M servers, F = share of the population not waiting.
 */
export const FINITE_QUEUE_OF_FIVE = [
  { x: 0.012, servers: 1, f: 0.999 },
  { x: 0.025, servers: 1, f: 0.997 },
  { x: 0.05, servers: 1, f: 0.989 },
  { x: 0.06, servers: 2, f: 0.999 },
  { x: 0.06, servers: 1, f: 0.983 },
  { x: 0.07, servers: 2, f: 0.999 },
  { x: 0.07, servers: 1, f: 0.977 },
  { x: 0.08, servers: 2, f: 0.998 },
  { x: 0.08, servers: 1, f: 0.969 },
  { x: 0.09, servers: 2, f: 0.998 },
  { x: 0.09, servers: 1, f: 0.96 },
  { x: 0.1, servers: 2, f: 0.997 },
  { x: 0.1, servers: 1, f: 0.95 },
] as const

/** One-server queue, worked example of a calculator handbook (confirmed): 0.5 a minute come, 0.9 can be served. */
export const ONE_SERVER = { arrivalsPerMin: 0.5, servedPerMin: 0.9, waitMin: 1.39 } as const
