/**
 * The order of the visits. The planning model says where to go today; in which order a crew is best sent there, and what
 * of it is better left out, is tried by living the day in every member.
 */
import { type CrewDay, liveDay } from './by-the-hour.ts'
import { canVisit, visitMoveH } from './moves.ts'
import type { PlanProblem } from './problem.ts'
import type { Recourse, Visits } from './recourse.ts'
import { searchLists } from './search.ts'

const TRIALS = 200

export function orderVisits(recourse: Recourse, days: readonly CrewDay[], visits: Visits): Visits {
  const p = recourse.problem
  const allowed = visits.map((list) => new Set(list))
  const pinnedToday = p.rules.pins.filter(({ day }) => day === 0)
  const cost = (lists: Visits): number => {
    const breaks =
      lists.some((list, c) => list.some((job) => !allowed[c]!.has(job))) ||
      pinnedToday.some(({ job, crew }) =>
        crew >= 0 ? !lists[crew]!.includes(job) : !lists.some((list) => list.includes(job)),
      )
    return breaks ? Number.POSITIVE_INFINITY : livedLoss(recourse, days, lists)
  }
  return searchLists({
    start: visits,
    cost,
    trials: TRIALS,
    seed: 1,
    mayDrop: true,
    shakeAfter: 60,
  }).lists
}

/** Mean loss of the members when day 0 is lived by the lists and the rest goes by plain rules [money]. */
export function livedLoss(recourse: Recourse, days: readonly CrewDay[], lists: Visits): number {
  const p = recourse.problem
  let sum = 0
  for (const [m, day] of days.entries()) {
    const stock = dayStock(p)
    let loss = 0
    const { roadH } = liveDay(day, lists, stock, ({ job, ha, worthPerHa }) => {
      loss += ha * recourse.lossPerHa(job, m, worthPerHa)
    })
    sum += loss + roadH * p.rules.moveCostPerH + recourse.lossAfterToday(stock.leftHa, m)
  }
  return sum / days.length
}

export const dayStock = (p: PlanProblem) => ({
  leftHa: Float64Array.from(p.jobs, ({ areaHa }) => areaHa),
  buyerT: Float64Array.from(p.buyers, ({ dailyT }) => dailyT),
})

/** Jobs outside the lists in which an hour of a crew today saves more than the move costs, most first. */
export function backupsFor(recourse: Recourse, visits: Visits): Visits {
  const p = recourse.problem
  return p.crews.map((_, c) =>
    [...p.jobs.keys()]
      .filter((j) => !visits[c]!.includes(j) && canVisit(p, c, j))
      .map((j) => ({ j, saves: recourse.urgencyToday(c, j), road: visitMoveH(p, recourse.usualMoveH, c, j) }))
      .filter(({ saves, road }) => saves > road * p.rules.moveCostPerH)
      .sort((a, b) => b.saves - a.saves || a.j - b.j)
      .map(({ j }) => j),
  )
}
