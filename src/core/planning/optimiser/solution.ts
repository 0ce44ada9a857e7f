/** Between the columns of the planning model and what they mean. */

import type { Extensive } from './linear/two-stage.ts'
import type { PlanModel } from './model.ts'
import type { Pool } from './pools.ts'
import { NOTHING, type PlanProblem } from './problem.ts'
import type { Visits } from './recourse.ts'

/** What is cut in one member. */
export interface CutHa {
  readonly pool: Pool
  readonly job: number
  readonly block: number
  readonly ha: number
}

export interface Solution {
  readonly visits: Visits
  /** By member. */
  readonly cuts: readonly (readonly CutHa[])[]
}

export function startFrom(model: PlanModel, visits: Visits): Float64Array {
  return Float64Array.from(model.visits, ({ crew, job }) => (visits[crew]!.includes(job) ? 1 : 0))
}

/** Reads a solution of the extensive form; the visits of a crew in the order in which they are cut on average. */
export function readSolution(p: PlanProblem, model: PlanModel, extensive: Extensive, values: Float64Array): Solution {
  const cuts = model.cuts.map((list, m) =>
    list.flatMap((cut, k): CutHa[] => {
      const ha = values[extensive.scenarioCol[m]! + k]!
      return ha > NOTHING ? [{ ...cut, ha }] : []
    }),
  )
  const visits = p.crews.map((_, c) => {
    const jobs = model.visits.flatMap(({ crew, job }, v) => (crew === c && values[v]! > 0.5 ? [job] : []))
    const when = new Map(jobs.map((job) => [job, meanBlock(p, cuts, c, job)]))
    return jobs.sort((a, b) => when.get(a)! - when.get(b)! || a - b)
  })
  return { visits, cuts }
}

/** Mean block in which a crew cuts a job on day 0, weighed by area; last where it never does. */
function meanBlock(p: PlanProblem, cuts: Solution['cuts'], crew: number, job: number): number {
  let sum = 0
  let ha = 0
  for (const list of cuts) {
    for (const cut of list) {
      if (cut.job !== job || p.blocks[cut.block]!.day !== 0 || cut.pool.crews[0] !== crew) continue
      sum += cut.block * cut.ha
      ha += cut.ha
    }
  }
  return ha > 0 ? sum / ha : Number.POSITIVE_INFINITY
}
