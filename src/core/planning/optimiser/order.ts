/**
 * Today's lists: for each crew where it goes first, and where next when that is done or not fit. The planning model says
 * which places are worth a visit; which list is best, all members holding to the same one, is tried by living the day in
 * every member. Nobody knows this day what the member brings later.
 */

import { mostCrews } from './by-hand.ts'
import { type CrewDay, type CutToday, liveDay } from './by-the-hour.ts'
import { canVisit, visitMoveH } from './moves.ts'
import { cj, NOTHING, type PlanProblem } from './problem.ts'
import type { Recourse, Visits } from './recourse.ts'
import { searchLists } from './search.ts'
import type { CutHa } from './solution.ts'

/** Loss of the days after day 0 of a member, when so much is left of each job [money]; may use `leftHa` up. */
export type LossAfter = (leftHa: Float64Array, member: number) => number

/** A farm's day, member by member, and what follows it, for judging lists. */
export interface Today {
  readonly recourse: Recourse
  readonly days: readonly CrewDay[]
  readonly lossAfter: LossAfter
}

/** The lists improved. Only what a crew can visit is put in; what is pinned for today stays in, before all else. */
export function orderLists(today: Today, start: Visits, trials: number): Visits {
  const p = today.recourse.problem
  const cost = (lists: Visits) =>
    keepsToday(p, lists) ? livedLoss(today.recourse, today.days, lists, today.lossAfter) : Number.POSITIVE_INFINITY
  const spare = [...p.jobs.keys()].filter((j) => p.crews.some((_, c) => canVisit(p, c, j)))
  return searchLists({ start, cost, trials, seed: 1, spare, mayDrop: true, shakeAfter: 60 }).lists
}

/** Whether lists may be gone by: no more crews in a field than fit, pins in front. */
export function keepsToday(p: PlanProblem, lists: Visits): boolean {
  const pins = p.rules.pins.filter(({ day }) => day === 0)
  for (const [c, list] of lists.entries()) {
    const pinned = (job: number) => pins.some((pin) => pin.job === job && (pin.crew < 0 || pin.crew === c))
    let free = false
    for (const job of list) {
      if (!canVisit(p, c, job) || (free && pinned(job))) return false
      free ||= !pinned(job)
    }
  }
  for (const { job, crew } of pins) {
    const able = p.crews.some((_, c) => (crew < 0 || c === crew) && canVisit(p, c, job))
    const heard = lists.some((list, c) => (crew < 0 || c === crew) && list.includes(job))
    if (able && !heard) return false
  }
  return p.jobs.every((_, j) => lists.filter((list) => list.includes(j)).length <= mostCrews(p, p.rules, j))
}

/** Mean loss of the members when day 0 is lived by the lists [money]; the days after by plain rules unless told. */
export function livedLoss(
  recourse: Recourse,
  days: readonly CrewDay[],
  lists: Visits,
  lossAfter: LossAfter = (leftHa, m) => recourse.lossAfterToday(leftHa, m),
): number {
  let sum = 0
  for (const [m, day] of days.entries()) {
    const { loss, leftHa } = liveMember(recourse, day, lists, m)
    sum += loss + lossAfter(leftHa, m)
  }
  return sum / days.length
}

/** Day 0 of a member lived by the lists. @returns what it loses, roads and broken promises too [money], and what it leaves, by job [ha]. */
export function liveMember(
  recourse: Recourse,
  day: CrewDay,
  lists: Visits,
  member: number,
  note?: (cut: CutToday) => void,
): { readonly loss: number; readonly leftHa: Float64Array } {
  const p = recourse.problem
  const leftHa = Float64Array.from(p.jobs, ({ areaHa }) => areaHa)
  const buyerT = Float64Array.from(p.buyers, ({ dailyT }) => dailyT)
  let loss = brokenPromises(p, lists)
  const { roadH } = liveDay(day, lists, { leftHa, buyerT }, (cut) => {
    loss += cut.ha * recourse.lossPerHa(cut.job, member, cut.worthPerHa)
    note?.(cut)
  })
  return { loss: loss + roadH * p.rules.moveCostPerH, leftHa }
}

/** What broken promises weigh [money]; one is kept by what a crew may get to in a day. */
export function brokenPromises(p: PlanProblem, lists: Visits): number {
  let cost = 0
  for (let c = 0; c < p.crews.length; c++) {
    for (let j = 0; j < p.jobs.length; j++) {
      const promise = p.rules.promised[cj(p, c, j)]!
      if (promise > 0 && !lists[c]!.slice(0, p.rules.fieldsPerDay).includes(j)) cost += promise
    }
  }
  return cost
}

/** What the members cut on day 0 when it is lived by the lists. */
export function cutsToday({ recourse, days }: Today, lists: Visits): CutHa[][] {
  const p = recourse.problem
  const blocks = [...p.blocks.entries()].filter(([, { day }]) => day === 0)
  const blockAt = (epochH: number) =>
    (blocks.find(([, { endEpochH }]) => epochH < endEpochH) ?? blocks.at(-1))?.[0] ?? 0
  return days.map((day, m) => {
    const sums = new Map<string, CutHa>()
    liveMember(recourse, day, lists, m, ({ crew, job, atEpochH, ha }) => {
      const block = blockAt(atEpochH)
      const key = `${crew}/${job}/${block}`
      sums.set(key, { pool: { crews: [crew] }, job, block, ha: ha + (sums.get(key)?.ha ?? 0) })
    })
    return [...sums.values()]
  })
}

/** Share of the members in which a crew must get to a place for it to be named among the visits. */
const LIKELY = 0.5

export interface SplitLists {
  readonly visits: Visits
  readonly backups: Visits
}

/** Each list in two: up to the last place that its crew is likely to get to, or that is pinned; and what comes after. */
export function splitLists(p: PlanProblem, lists: Visits, cuts: readonly (readonly CutHa[])[]): SplitLists {
  const ends = lists.map((list, c) => {
    const likely = (job: number) => {
      const count = cuts.filter((member) => member.some((cut) => cut.job === job && isCrewToday(p, cut, c))).length
      return count >= LIKELY * p.members
    }
    const pinned = (job: number) =>
      p.rules.pins.some((pin) => pin.day === 0 && pin.job === job && (pin.crew < 0 || pin.crew === c))
    return list.findLastIndex((job) => likely(job) || pinned(job)) + 1
  })
  return {
    visits: lists.map((list, c) => list.slice(0, ends[c])),
    backups: lists.map((list, c) => list.slice(ends[c])),
  }
}

const isCrewToday = (p: PlanProblem, { pool, block, ha }: CutHa, crew: number): boolean =>
  p.blocks[block]!.day === 0 && pool.crews[0] === crew && ha > NOTHING

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
