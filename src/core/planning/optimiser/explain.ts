/** Why this field and not the next one: what the best other choice would lose, and what would turn it. */
import { canVisit, visitMoveH } from './moves.ts'
import { cj, cjbm, type PlanProblem } from './problem.ts'
import type { Recourse, Visits } from './recourse.ts'

export type ChoiceReason =
  /** A pin of the planner. */
  | 'pinned'
  /** Nothing else can be cut by this outfit today. */
  | 'only-one-fit'
  /** It loses more by waiting. */
  | 'loses-more'
  /** The other loses about as much, but the outfit would spend the time on the road. */
  | 'nearer'
  /** The other opens later or closes sooner today. */
  | 'longer-window'
  /** Said so yesterday, and nothing worth the change. */
  | 'promised'
  /** None of these alone: the whole week comes out better. */
  | 'better-week'

export interface Choice {
  readonly partKey: string
  readonly outfitId: string
  readonly reason: ChoiceReason
  /** What this part loses by each day it waits, mean of the coming round [money/d]. */
  readonly perDayWaiting: number
  /** The best part to go to in its place; absent when there is none. */
  readonly instead: Alternative | undefined
}

export interface Alternative {
  readonly partKey: string
  /** What going there in its place would cost over the outlook, on average [money]; below 0 is noise of the estimate. */
  readonly costs: number
  readonly perDayWaiting: number
  /** It would come first if a hectare of it lost so much more by waiting [money/ha]. */
  readonly turnsAtPerHa: number
}

export interface Explained {
  readonly recourse: Recourse
  readonly visits: Visits
  /** Loss by waiting, by job [money/(ha d)]. */
  readonly atRiskPerHaDay: readonly number[]
}

/** Two losses closer than this share count as equal. */
const ALIKE = 0.1

export function explainVisits({ recourse, visits, atRiskPerHaDay }: Explained): Choice[] {
  const p = recourse.problem
  const now = recourse.follow(visits).loss
  return visits.flatMap((list, c) =>
    list.map((j): Choice => {
      const best = bestInstead(recourse, visits, c, j)
      const perDayWaiting = atRiskPerHaDay[j]! * p.jobs[j]!.areaHa
      const base = { partKey: p.jobs[j]!.key, outfitId: p.crews[c]!.id, perDayWaiting }
      if (!best) return { ...base, reason: pinned(p, c, j) ? 'pinned' : 'only-one-fit', instead: undefined }
      const reachHa = reachToday(p, c, best.job)
      const instead = {
        partKey: p.jobs[best.job]!.key,
        costs: best.loss - now,
        perDayWaiting: atRiskPerHaDay[best.job]! * p.jobs[best.job]!.areaHa,
        turnsAtPerHa: Math.max(0, best.loss - now) / reachHa,
      }
      return { ...base, reason: reasonFor(recourse, atRiskPerHaDay, c, j, best.job), instead }
    }),
  )
}

function bestInstead(recourse: Recourse, visits: Visits, crew: number, job: number) {
  const p = recourse.problem
  let best: { job: number; loss: number } | undefined
  for (let other = 0; other < p.jobs.length; other++) {
    if (visits[crew]!.includes(other) || !canVisit(p, crew, other)) continue
    if (visits.filter((list) => list.includes(other)).length >= p.rules.crewsPerField) continue
    const tried = visits.map((list, c) => (c === crew ? list.map((j) => (j === job ? other : j)) : list))
    const { loss } = recourse.follow(tried)
    if (!best || loss < best.loss) best = { job: other, loss }
  }
  return best
}

const pinned = (p: PlanProblem, crew: number, job: number): boolean =>
  p.rules.pins.some((pin) => pin.day === 0 && pin.job === job && (pin.crew < 0 || pin.crew === crew))

function reasonFor(
  recourse: Recourse,
  atRiskPerHaDay: readonly number[],
  crew: number,
  job: number,
  other: number,
): ChoiceReason {
  const p = recourse.problem
  if (pinned(p, crew, job)) return 'pinned'
  // What an hour of the outfit saves in each.
  const saved = (j: number) => atRiskPerHaDay[j]! * p.haPerH[cj(p, crew, j)]!
  if (saved(job) > saved(other) * (1 + ALIKE)) return 'loses-more'
  const move = (j: number) => visitMoveH(p, recourse.usualMoveH, crew, j)
  if (move(job) < move(other)) return 'nearer'
  if (openToday(p, crew, job) > openToday(p, crew, other) * (1 + ALIKE)) return 'longer-window'
  return p.rules.promised[cj(p, crew, job)]! > 0 ? 'promised' : 'better-week'
}

/** Fit hours of a crew in a job on day 0, mean of the members [h]. */
function openToday(p: PlanProblem, crew: number, job: number): number {
  let sum = 0
  for (const [b, { day }] of p.blocks.entries()) {
    if (day !== 0) continue
    for (let m = 0; m < p.members; m++) sum += p.fitH[cjbm(p, crew, job, b, m)]!
  }
  return sum / p.members
}

const reachToday = (p: PlanProblem, crew: number, job: number): number =>
  Math.max(1e-6, Math.min(p.jobs[job]!.areaHa, openToday(p, crew, job) * p.haPerH[cj(p, crew, job)]!))
