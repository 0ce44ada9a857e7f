/**
 * Published problems with known optima, on which the solver, the bounds, the scenarios and the search are checked.
 * Typed in on 2026-11-25. "confirmed": optimum seen in the source; "from memory": problem and optimum not confirmed there,
 * but re-reckoned by enumeration in the tests.
 */

/**
 * Generalised assignment, to be maximised. OR-Library, gapinfo, problem c515-1 of file gap1 (Osman 1995, OR Spektrum
 * 17:211; Cattrysse et al. 1994, EJOR 72:167). Optimum 336: confirmed.
 */
export const GENERALISED_ASSIGNMENT = {
  optimum: 336,
  profit: [
    [17, 21, 22, 18, 24, 15, 20, 18, 19, 18, 16, 22, 24, 24, 16],
    [23, 16, 21, 16, 17, 16, 19, 25, 18, 21, 17, 15, 25, 17, 24],
    [16, 20, 16, 25, 24, 16, 17, 19, 19, 18, 20, 16, 17, 21, 24],
    [19, 19, 22, 22, 20, 16, 19, 17, 21, 19, 25, 23, 25, 25, 25],
    [18, 19, 15, 15, 21, 25, 16, 16, 23, 15, 22, 17, 19, 22, 24],
  ],
  need: [
    [8, 15, 14, 23, 8, 16, 8, 25, 9, 17, 25, 15, 10, 8, 24],
    [15, 7, 23, 22, 11, 11, 12, 10, 17, 16, 7, 16, 10, 18, 22],
    [21, 20, 6, 22, 24, 10, 24, 9, 21, 14, 11, 14, 11, 19, 16],
    [20, 11, 8, 14, 9, 5, 6, 19, 19, 7, 6, 6, 13, 9, 18],
    [8, 13, 13, 13, 10, 20, 25, 16, 16, 17, 10, 10, 5, 12, 23],
  ],
  capacity: [36, 34, 38, 27, 33],
} as const

/** Single machine, total weighted tardiness. OR-Library, wtinfo, first problem of wt40. Optimum 913: confirmed. */
export const WEIGHTED_TARDINESS_40 = {
  optimum: 913,
  hours: [
    26, 24, 79, 46, 32, 35, 73, 74, 14, 67, 86, 46, 78, 40, 29, 94, 64, 27, 90, 55, 35, 52, 36, 69, 85, 95, 14, 78, 37,
    86, 44, 28, 39, 12, 30, 68, 70, 9, 49, 50,
  ],
  weight: [
    1, 10, 9, 10, 10, 4, 3, 2, 10, 3, 7, 3, 1, 3, 10, 4, 7, 7, 4, 7, 5, 3, 5, 4, 9, 5, 2, 8, 10, 4, 7, 4, 9, 5, 7, 7, 5,
    10, 1, 3,
  ],
  due: [
    1588, 1620, 1731, 1773, 1694, 1487, 1566, 1844, 1727, 1636, 1599, 1539, 1855, 1645, 1709, 1660, 1582, 1836, 1484,
    1559, 1772, 1510, 1512, 1795, 1522, 1509, 1598, 1658, 1826, 1628, 1650, 1833, 1627, 1528, 1541, 1497, 1481, 1446,
    1579, 1814,
  ],
  /** A sequence that reaches it, jobs counted from 1. */
  sequence: [
    39, 35, 11, 36, 6, 23, 19, 38, 15, 3, 26, 17, 12, 34, 31, 14, 7, 16, 5, 20, 22, 2, 37, 27, 10, 25, 9, 33, 28, 1, 30,
    4, 21, 24, 29, 18, 32, 40, 8, 13,
  ],
} as const

/** Single-machine problems in the style of Pinedo, Scheduling, ch. 3: from memory, optima re-reckoned by enumeration. */
export const SMALL_TARDINESS = [
  { hours: [12, 8, 15, 9], weight: [4, 5, 3, 5], due: [16, 26, 25, 27], optimum: 67 },
  { hours: [121, 79, 147, 83, 130], weight: [1, 1, 1, 1, 1], due: [260, 266, 266, 336, 337], optimum: 370 },
] as const

/** Number of late jobs (Moore-Hodgson; Pinedo, Scheduling, example 3.3): from memory. */
export const LATE_JOBS = { hours: [7, 8, 4, 6, 6], due: [9, 17, 18, 19, 21], optimum: 2 } as const

/** Three machines, last job done as early as can be: worst case of longest-first (Graham 1969, SIAM J. Appl. Math. 17:416). */
export const GRAHAM = { machines: 3, hours: [5, 5, 4, 4, 3, 3, 3], optimum: 9, longestFirst: 11 } as const

/**
 * The farmer (Birge & Louveaux, Introduction to Stochastic Programming, ch. 1): confirmed on a public course page,
 * ndcbe.github.io/optimization/notebooks/4/SP.html. Money as profit, wheat - corn - beets.
 */
export const FARMER = {
  acres: 500,
  plantingCost: [150, 230, 260],
  yieldT: [2.5, 3, 20],
  yieldFactors: [1.2, 1, 0.8],
  needT: [200, 240],
  buyPrice: [238, 210],
  sellPrice: [170, 150],
  beetPrice: 36,
  beetQuotaT: 6000,
  beetPriceOverQuota: 10,
  meanValueProfit: 118_600,
  meanValuePlan: [120, 80, 300],
  recourseProfit: 108_390,
  recoursePlan: [170, 80, 250],
  profitOfMeanValuePlan: 107_240,
  valueOfStochasticSolution: 1150,
  /** Of one who knows the year: good, usual, bad. */
  knowingProfit: [167_666.67, 118_600, 59_950],
  waitAndSeeProfit: 115_405.56,
  valueOfPerfectInformation: 7015.56,
} as const
