/**
 * What in a plan's loss is no money: a promise broken, a deadline missed and a pin unheard weigh in the reckoning, so that
 * they are not taken lightly, but nobody pays them. What a change costs is told without them.
 */
import { pinHolds, pinWeightPerHa } from './model.ts'
import { brokenPromises } from './order.ts'
import { poolMostHa, poolsOf } from './pools.ts'
import { bestPerHa, NOTHING, type Pin, type PlanProblem } from './problem.ts'
import type { Visits } from './recourse.ts'
import type { CutHa } from './solution.ts'

/**
 * @param cuts what each member cuts, today and later.
 * @param pinsWeigh whether pins of later days were weighed at all: a plan by plain rules knows none.
 * @returns by member [money].
 */
export function wishWeights(
  p: PlanProblem,
  lists: Visits,
  cuts: readonly (readonly CutHa[])[],
  pinsWeigh: boolean,
): Float64Array {
  const promises = brokenPromises(p, lists)
  const pins = pinsWeigh ? p.rules.pins.filter(({ day }) => day > 0) : []
  const best = bestPerHa(p)
  return Float64Array.from(cuts, (list, m) => {
    let weight = promises + lateWeight(p, list)
    for (const pin of pins) weight += pinWeightPerHa(best[pin.job * p.members + m]!) * shortHa(p, pin, list, m)
    return weight
  })
}

function lateWeight({ jobs, blocks, days, rules }: PlanProblem, cuts: readonly CutHa[]): number {
  const leftHa = jobs.map(({ areaHa }) => areaHa)
  let lateHa = 0
  for (const { job, block, ha } of cuts) {
    leftHa[job]! -= ha
    if (blocks[block]!.day > rules.lastDay[job]!) lateHa += ha
  }
  for (const [job, ha] of leftHa.entries()) if (rules.lastDay[job]! < days) lateHa += Math.max(0, ha)
  return lateHa * rules.latePerHa
}

/** What a pin asks for and the weather would let be done, less what is done [ha]. */
function shortHa(p: PlanProblem, pin: Pin, cuts: readonly CutHa[], member: number): number {
  let askedHa = 0
  for (const pool of poolsOf(p)) {
    for (let block = 0; block < p.blocks.length; block++) {
      if (!pinHolds(p, pin, { pool, block, job: pin.job })) continue
      const most = poolMostHa(p, pool, pin.job, block, member)
      if (most > NOTHING) askedHa += most
    }
  }
  let doneHa = 0
  for (const cut of cuts) if (cut.job === pin.job && pinHolds(p, pin, cut)) doneHa += cut.ha
  return Math.max(0, Math.min(pin.areaHa, askedHa) - doneHa)
}
