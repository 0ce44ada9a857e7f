/** Why this field and not the next one: what the best other choice would lose, and what would turn it. */
import { canVisit, visitMoveH } from './moves.ts'
import { keepsToday, livedLoss, type Today } from './order.ts'
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
  /** What going there in its place would cost over the outlook, on average [money]; below 0 within the plan's gap. */
  readonly costs: number
  readonly perDayWaiting: number
  /** It would come first if a hectare of it lost so much more by waiting [money/ha]. */
  readonly turnsAtPerHa: number
}

/** Other lists: in the place of one job an outfit goes elsewhere. */
export interface Trial {
  readonly crew: number
  readonly job: number
  readonly other: number
  readonly lists: Visits
}

/** For each visit the best other place by what is known of the days after, to be reckoned with care. */
export function otherLists(today: Today, lists: Visits, visits: Visits): Trial[] {
  const { recourse, days, lossAfter } = today
  const p = recourse.problem
  return lists.flatMap((list, crew) =>
    visits[crew]!.flatMap((job) => {
      if (pinned(p, crew, job)) return []
      let best: Trial | undefined
      let least = Number.POSITIVE_INFINITY
      for (let other = 0; other < p.jobs.length; other++) {
        if (other === job || !canVisit(p, crew, other)) continue
        const instead = list.map((j) => (j === job ? other : j === other ? job : j))
        const tried = lists.map((there, c) => (c === crew ? instead : there))
        if (!keepsToday(p, tried)) continue
        const guess = livedLoss(recourse, days, tried, lossAfter)
        if (guess < least) {
          least = guess
          best = { crew, job, other, lists: tried }
        }
      }
      return best ? [best] : []
    }),
  )
}

export interface Explained {
  readonly recourse: Recourse
  readonly visits: Visits
  /** Loss of the plan, reckoned as that of the trials [money]. */
  readonly loss: number
  readonly trials: readonly (Trial & { readonly loss: number })[]
  /** Loss by waiting, by job [money/(ha d)]. */
  readonly atRiskPerHaDay: readonly number[]
}

/** Two losses closer than this share count as equal. */
const ALIKE = 0.1

export function explainVisits({ recourse, visits, loss, trials, atRiskPerHaDay }: Explained): Choice[] {
  const p = recourse.problem
  return visits.flatMap((list, c) =>
    list.map((j): Choice => {
      const [best] = trials.filter(({ crew, job }) => crew === c && job === j).sort((a, b) => a.loss - b.loss)
      const perDayWaiting = atRiskPerHaDay[j]! * p.jobs[j]!.areaHa
      const base = { partKey: p.jobs[j]!.key, outfitId: p.crews[c]!.id, perDayWaiting }
      if (!best) return { ...base, reason: pinned(p, c, j) ? 'pinned' : 'only-one-fit', instead: undefined }
      const { other } = best
      const costs = best.loss - loss
      const instead = {
        partKey: p.jobs[other]!.key,
        costs,
        perDayWaiting: atRiskPerHaDay[other]! * p.jobs[other]!.areaHa,
        turnsAtPerHa: Math.max(0, costs) / reachToday(p, c, other),
      }
      return { ...base, reason: reasonFor(recourse, atRiskPerHaDay, c, j, other), instead }
    }),
  )
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
