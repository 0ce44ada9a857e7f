/** What is gained by leaving a part for another day though it is fit and an outfit could go there when its visits are done. */
import { moveHours } from '#core/planning/moving.ts'
import type { Run, Waiting } from '#core/planning/plan.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import { crewSpan } from './blocks.ts'
import type { FarmPlanInput, FarmProblem } from './build-problem.ts'
import type { CrewDay } from './by-the-hour.ts'
import { likelyWindows } from './fit.ts'
import { canVisit } from './moves.ts'
import { type LossAfter, livedLoss } from './order.ts'
import type { Recourse, Visits } from './recourse.ts'
import { SHORTEST_RUN_H } from './timed-runs.ts'

/**
 * For each job that no crew visits today: mean money lost if the best crew for it went there after its visits [money].
 * A job that no crew can visit today is not in it.
 */
export function restGains(
  recourse: Recourse,
  days: readonly CrewDay[],
  visits: Visits,
  lossAfter?: LossAfter,
): Map<number, number> {
  const p = recourse.problem
  const stands = livedLoss(recourse, days, visits, lossAfter)
  const gains = new Map<number, number>()
  for (let job = 0; job < p.jobs.length; job++) {
    if (visits.some((list) => list.includes(job))) continue
    for (let c = 0; c < p.crews.length; c++) {
      if (!canVisit(p, c, job)) continue
      const tried = visits.map((list, crew) => (crew === c ? [...list, job] : list))
      const gain = livedLoss(recourse, days, tried, lossAfter) - stands
      gains.set(job, Math.min(gain, gains.get(job) ?? Number.POSITIVE_INFINITY))
    }
  }
  return gains
}

/** Less than this is no reason to stop [money]. */
const WORTH_STOPPING = 50

/** Parts whose turn would come today, but that bring more on another day: they say so, and how much. */
export function saysRest(
  waiting: readonly Waiting[],
  runs: readonly Run[],
  gains: ReadonlyMap<number, number>,
  input: FarmPlanInput,
  farmProblem: FarmProblem,
): Waiting[] {
  return waiting.map((one) => {
    if (one.reason !== 'later-turn') return one
    const job = farmProblem.problem.jobs.findIndex(({ key }) => key === one.part.key)
    const waitingSaves = gains.get(job)
    if (waitingSaves === undefined || waitingSaves < WORTH_STOPPING) return one
    return hasTime(job, runs, input, farmProblem) ? { ...one, reason: 'worth-waiting', waitingSaves } : one
  })
}

/** Whether an outfit that can cut the job is free for long enough in one of its windows when its runs are done. */
function hasTime(
  job: number,
  runs: readonly Run[],
  { farm, date, at }: FarmPlanInput,
  farmProblem: FarmProblem,
): boolean {
  const { outlooks, outfits, rates } = farmProblem
  const outlook = outlooks[job]!
  const dayEnd = hoursOfLocalDay(date, farm.timeZone).endEpochH
  const windows = likelyWindows(outlook).filter(({ startEpochH }) => startEpochH < dayEnd)
  return outfits.some((outfit, c) => {
    const span = crewSpan(outfit, date, farm.timeZone)
    if (!span || !rates[c * outlooks.length + job]) return false
    const last = runs.filter(({ outfitId }) => outfitId === outfit.id).at(-1)
    const free = (last?.endEpochH ?? span.from) + moveHours(last?.part ?? at.get(outfit.id), outlook.part)
    return windows.some(
      ({ startEpochH, endEpochH }) => Math.min(endEpochH, span.to) - Math.max(startEpochH, free) >= SHORTEST_RUN_H,
    )
  })
}
