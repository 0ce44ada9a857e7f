/** From a solution to what is told of the week: what is likely cut when, what is left, how bad it can get. */
import { SLIVER_HA } from '#core/planning/plan.ts'
import type { FarmProblem } from './build-problem.ts'
import type { Solution } from './solution.ts'
import type { WeekPlan } from './week-plan.ts'

/** Share of the members that make the bad end. */
const BAD_SHARE = 0.2

export function laterCuts(
  { problem: p }: FarmProblem,
  { cuts }: Pick<Solution, 'cuts'>,
  date: Temporal.PlainDate,
): WeekPlan['later'] {
  const sum = new Float64Array(p.jobs.length * p.days)
  const count = new Float64Array(p.jobs.length * p.days)
  for (const list of cuts) {
    const own = new Float64Array(sum.length)
    for (const { job, block, ha } of list) own[job * p.days + p.blocks[block]!.day]! += ha
    for (let k = 0; k < own.length; k++) {
      sum[k]! += own[k]! / p.members
      if (own[k]! > SLIVER_HA) count[k]!++
    }
  }
  return p.jobs.flatMap(({ key }, j) =>
    Array.from({ length: p.days }, (_, day) => day)
      .filter((day) => count[j * p.days + day]! > 0 && p.dayLength[day] === 1)
      .map((day) => ({
        date: date.add({ days: day }),
        partKey: key,
        meanHa: sum[j * p.days + day]!,
        chance: count[j * p.days + day]! / p.members,
      })),
  )
}

export function leftAtEnd({ problem: p }: FarmProblem, { cuts }: Pick<Solution, 'cuts'>): WeekPlan['left'] {
  return p.jobs.map(({ key, areaHa }, j) => {
    let mean = 0
    let standing = 0
    for (const list of cuts) {
      const seen = ({ job, block }: { job: number; block: number }) =>
        job === j && p.dayLength[p.blocks[block]!.day] === 1
      const left = areaHa - list.reduce((sum, cut) => (seen(cut) ? sum + cut.ha : sum), 0)
      mean += Math.max(0, left) / p.members
      if (left > SLIVER_HA) standing++
    }
    return { partKey: key, meanHa: mean, chance: standing / p.members }
  })
}

export function meanOfWorst(lossByMember: ArrayLike<number>): number {
  const worst = Array.from(lossByMember).sort((a, b) => b - a)
  const count = Math.max(1, Math.round(worst.length * BAD_SHARE))
  return worst.slice(0, count).reduce((sum, loss) => sum + loss, 0) / count
}
