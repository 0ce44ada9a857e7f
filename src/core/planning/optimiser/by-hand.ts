/** A plan for day 0 without a solver: the most urgent first, then improved by search. Start of the solver, and fallback. */
import { canVisit, visitMoveH } from './moves.ts'
import type { PlanProblem, ProblemRules } from './problem.ts'
import { type Followed, Recourse, type Visits } from './recourse.ts'
import { searchLists } from './search.ts'

export interface ByHand extends Followed {
  readonly visits: Visits
  readonly recourse: Recourse
}

export function planByHand(p: PlanProblem, trials: number, seed = 1): ByHand {
  const recourse = new Recourse(p)
  const allowed = p.crews.map((_, c) => p.jobs.map((_, j) => canVisit(p, c, j)))
  const start = greedyVisits(p, recourse, allowed)
  const cost = (lists: Visits) =>
    keepsRules(p, lists) && lists.every((list, c) => list.every((j) => allowed[c]![j]))
      ? recourse.follow(lists).loss
      : Number.POSITIVE_INFINITY
  const spare = [...p.jobs.keys()].filter((j) => allowed.some((jobs) => jobs[j]))
  const { lists } = searchLists({ start, cost, trials, seed, spare, mayDrop: true, shakeAfter: 150 })
  return { visits: lists, recourse, ...recourse.follow(lists) }
}

/** Pinned visits first, then job after job to the crew to which it is worth most, as long as following it gains. */
function greedyVisits(p: PlanProblem, recourse: Recourse, allowed: readonly (readonly boolean[])[]): Visits {
  const lists: number[][] = p.crews.map(() => [])
  for (const { day, job, crew } of p.rules.pins) {
    const c = crew >= 0 ? crew : allowed.findIndex((jobs) => jobs[job])
    if (day === 0 && c >= 0 && allowed[c]![job] && !lists[c]!.includes(job)) lists[c]!.push(job)
  }
  const offers = p.crews
    .flatMap((_, c) => p.jobs.map((_, j) => ({ c, j })))
    .filter(({ c, j }) => allowed[c]![j])
    .map(({ c, j }) => ({ c, j, worth: recourse.urgencyToday(c, j) - visitMoveH(p, recourse.usualMoveH, c, j) }))
    .sort((a, b) => b.worth - a.worth || a.c - b.c || a.j - b.j)
  let loss = recourse.follow(lists).loss
  for (const { c, j } of offers) {
    if (lists[c]!.includes(j)) continue
    lists[c]!.push(j)
    const tried = keepsRules(p, lists) ? recourse.follow(lists).loss : Number.POSITIVE_INFINITY
    if (tried < loss) loss = tried
    else lists[c]!.pop()
  }
  return lists
}

function keepsRules(p: PlanProblem, lists: Visits): boolean {
  const { rules } = p
  const pinnedToday = rules.pins.filter(({ day }) => day === 0)
  for (const [c, list] of lists.entries()) {
    const most = Math.max(rules.fieldsPerDay, pinnedToday.filter(({ crew }) => crew === c).length)
    if (list.length > most) return false
  }
  for (let j = 0; j < p.jobs.length; j++) {
    let crews = 0
    for (const list of lists) if (list.includes(j)) crews++
    if (crews > mostCrews(p, rules, j)) return false
    if (crews === 0 && pinnedToday.some(({ job, crew }) => job === j && crew < 0)) return false
  }
  return pinnedToday.every(({ job, crew }) => crew < 0 || lists[crew]!.includes(job))
}

export function mostCrews(p: PlanProblem, { crewsPerField, pins }: ProblemRules, job: number): number {
  if (p.jobs[job]!.whole) return 1
  const pinned = new Set(
    pins.filter((pin) => pin.day === 0 && pin.crew >= 0 && pin.job === job).map(({ crew }) => crew),
  )
  return Math.max(crewsPerField, pinned.size)
}
