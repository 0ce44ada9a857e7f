/** Today's lists: improved by living the day, with the days after reckoned by the solver, or by plain rules without one. */
import { AfterToday } from '#core/planning/optimiser/after-today.ts'
import type { CrewDay } from '#core/planning/optimiser/by-the-hour.ts'
import { otherLists, type Trial } from '#core/planning/optimiser/explain.ts'
import {
  backupsFor,
  cutsToday,
  keepsToday,
  liveMember,
  orderLists,
  splitLists,
  type Today,
} from '#core/planning/optimiser/order.ts'
import type { Amount, Recourse, Visits } from '#core/planning/optimiser/recourse.ts'
import type { CutHa } from '#core/planning/optimiser/solution.ts'
import { wishWeights } from '#core/planning/optimiser/wishes.ts'
import type { Solver } from './solver-port.ts'

export interface OrderOptions {
  /** Changes tried in each round. */
  readonly trials: number
  readonly explain: boolean
  /** Other lists that will be judged by the same measure: it is exact for them, and the search may start from them. */
  readonly others?: readonly Visits[]
  readonly signal?: AbortSignal
}

export interface Ordered {
  readonly lists: Visits
  /** Mean of the members, and each [money]. */
  readonly loss: number
  readonly lossByMember: Float64Array
  /** What in each member's loss is no money. */
  readonly wishesByMember: Float64Array
  /** Today's, the same lists lived in all members; then each member's best after that. */
  readonly cuts: readonly (readonly CutHa[])[]
  readonly trials: readonly (Trial & { readonly loss: number })[]
  /** For judging other lists by the same measure. */
  readonly today: Today
}

interface Reckoned {
  readonly lists: Visits
  readonly loss: number
  readonly lossByMember: Float64Array
  readonly later: readonly (readonly CutHa[])[]
}

/** Tangents are added until the search finds nothing new, at most so often. */
const ROUNDS = 6

/** @param visits what the planning model would visit: one of the places from which the search starts. */
export async function orderWeek(
  recourse: Recourse,
  days: readonly CrewDay[],
  visits: Visits,
  solver: Solver | undefined,
  options: OrderOptions,
): Promise<Ordered> {
  const { reckon, lossAfter } = solver ? bySolver(recourse, days, solver, options.signal) : byRules(recourse, days)
  const today: Today = { recourse, days, lossAfter }
  const seen = new Set<string>()
  let best: Reckoned | undefined
  const consider = async (lists: Visits): Promise<void> => {
    if (seen.has(JSON.stringify(lists))) return
    seen.add(JSON.stringify(lists))
    const found = await reckon(lists)
    if (!best || (found.loss < best.loss && keepsToday(recourse.problem, lists))) best = found
  }
  const backups = backupsFor(recourse, visits)
  await consider(visits)
  await consider(visits.map((list, c) => [...list, ...backups[c]!]))
  await consider(visits.map(() => []))
  for (const lists of options.others ?? []) await consider(lists)
  for (let round = 0; round < ROUNDS; round++) {
    const lists = orderLists(today, best!.lists, options.trials)
    if (seen.has(JSON.stringify(lists))) break
    await consider(lists)
  }
  const { lists, loss, lossByMember, later } = best!
  const cuts = cutsToday(today, lists).map((list, m) => [...list, ...later[m]!])
  const trials: (Trial & { loss: number })[] = []
  if (options.explain) {
    const { visits: named } = splitLists(recourse.problem, lists, cuts)
    for (const trial of otherLists(today, lists, named))
      trials.push({ ...trial, loss: (await reckon(trial.lists)).loss })
  }
  const wishesByMember = wishWeights(recourse.problem, lists, cuts, solver !== undefined)
  return { lists, loss, lossByMember, wishesByMember, cuts, trials, today }
}

interface Reckoner {
  readonly reckon: (lists: Visits) => Promise<Reckoned>
  readonly lossAfter: Today['lossAfter']
}

function bySolver(
  recourse: Recourse,
  days: readonly CrewDay[],
  solver: Solver,
  signal: AbortSignal | undefined,
): Reckoner {
  const p = recourse.problem
  const after = new AfterToday(p)
  return {
    lossAfter: (leftHa, m) => after.lossOf(leftHa, m),
    async reckon(lists) {
      const leftHa = new Float64Array(p.jobs.length * p.members)
      const lossByMember = Float64Array.from(days, (day, m) => {
        const lived = liveMember(recourse, day, lists, m)
        for (let j = 0; j < p.jobs.length; j++) leftHa[j * p.members + m] = lived.leftHa[j]!
        return lived.loss
      })
      const { values, rowPrices } = await solver.solve(after.modelFor(leftHa), signal ? { signal } : {})
      const later = after.learn(leftHa, values!, rowPrices!)
      for (let m = 0; m < p.members; m++) lossByMember[m]! += later[m]!
      return { lists, loss: mean(lossByMember), lossByMember, later: after.cutsOf(values!) }
    },
  }
}

function byRules(recourse: Recourse, days: readonly CrewDay[]): Reckoner {
  const lossAfter: Today['lossAfter'] = (leftHa, m) => recourse.lossAfterToday(leftHa, m)
  return {
    lossAfter,
    async reckon(lists) {
      const later: Amount[][] = days.map(() => [])
      const lossByMember = Float64Array.from(days, (day, m) => {
        const { loss, leftHa } = liveMember(recourse, day, lists, m)
        return loss + recourse.lossAfterToday(leftHa, m, (_, amount) => later[m]!.push(amount))
      })
      return { lists, loss: mean(lossByMember), lossByMember, later }
    },
  }
}

const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / values.length
