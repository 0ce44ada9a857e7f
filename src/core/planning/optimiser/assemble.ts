/** From a solution in numbers to the plan that is told: timed, checked, explained. */
import { firstPlan } from '#core/planning/first-plan.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { waitingParts } from '#core/planning/waiting.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import type { FarmPlanInput, FarmProblem } from './build-problem.ts'
import { type BrokenDayRule, brokenDayRules, type DayCheck } from './check-day.ts'
import { brokenRules } from './check-solution.ts'
import { smallestClash } from './conflict.ts'
import { explainVisits, type Trial } from './explain.ts'
import { splitLists, type Today } from './order.ts'
import { bestValue } from './problem.ts'
import { laterCuts, leftAtEnd, meanOfWorst } from './read-week.ts'
import type { Recourse, Visits } from './recourse.ts'
import { restGains, saysRest } from './rest.ts'
import { priceRules } from './simple-rules.ts'
import type { Solution } from './solution.ts'
import { SHORTEST_RUN_H, timedRuns } from './timed-runs.ts'
import type { PlanStatus, WeekPlan } from './week-plan.ts'

/** The planning model solved: its first-day decision as it sees it. */
export interface Found {
  readonly solution: Solution
  readonly status: PlanStatus
  readonly loss: number
  readonly leastLoss: number
  readonly seconds: number
  readonly lossByMember: ArrayLike<number>
}

/** What is done about it today: the lists that all members share, and what each member does after. */
export interface Decided {
  readonly lists: Visits
  readonly loss: number
  readonly lossByMember: ArrayLike<number>
  readonly cuts: Solution['cuts']
  /** Other lists reckoned for comparison. */
  readonly trials: readonly (Trial & { readonly loss: number })[]
  /** What in each member's loss is no money. */
  readonly wishesByMember: ArrayLike<number>
  /** By what measure the lists were judged. */
  readonly today: Today
}

function wishesIn({ lossByMember, wishesByMember }: Decided, badLoss: number): NonNullable<WeekPlan['wishes']> {
  const wishes = Array.from(wishesByMember)
  const moneyLost = Float64Array.from(lossByMember, (loss, m) => loss - wishes[m]!)
  return { mean: wishes.reduce((sum, one) => sum + one, 0) / wishes.length, bad: badLoss - meanOfWorst(moneyLost) }
}

export class BrokenPlan extends Error {
  override readonly name = 'BrokenPlan'
  readonly broken: readonly BrokenDayRule[]

  constructor(broken: readonly BrokenDayRule[]) {
    super(`A plan breaks its own rules: ${broken.map(({ rule, partKey }) => `${rule} in ${partKey}`).join(', ')}`)
    this.broken = broken
  }
}

/** @throws BrokenPlan when a broken rule can't be laid to any run; nothing must be published then. */
export function assembleWeek(
  input: FarmPlanInput,
  farmProblem: FarmProblem,
  recourse: Recourse,
  found: Found,
  decided: Decided,
): WeekPlan {
  const { problem: p, outlooks } = farmProblem
  const { farm, date, rules } = input
  const clash = smallestClash(p, recourse.usualMoveH)
  const conflict = clash.map(({ pin, because }) => ({
    partKey: p.jobs[pin.job]!.key,
    date: date.add({ days: pin.day }),
    outfitId: pin.crew >= 0 ? p.crews[pin.crew]!.id : undefined,
    because,
  }))
  const first = firstPlan(input)
  const check = {
    ...input,
    // Pins in conflict can't all be heard.
    rules: conflict.length > 0 ? { ...rules, pins: [] } : rules,
  }
  const sound = brokenRules(p, found.solution).length === 0
  const { visits, backups } = splitLists(p, decided.lists, decided.cuts)
  const runs = sound ? timedRuns(input, farmProblem, visits, first.ranking) : []
  const planned: DayPlan = { ...first, runs, waiting: waitingAfter(input, first.ranking, runs) }
  const kept = keepSound(planned, check)
  const gains = restGains(recourse, decided.today.days, decided.lists, decided.today.lossAfter)
  const day = { ...kept, waiting: saysRest(kept.waiting, kept.runs, gains, input, farmProblem) }
  const status = sound && kept === planned ? found.status : 'fallback'
  const riskOf = new Map(first.ranking.map(({ part, atRiskPerHaDay }) => [part.key, atRiskPerHaDay]))
  const { loss } = decided
  const leastLoss = Math.min(loss, found.leastLoss)
  const badLoss = meanOfWorst(decided.lossByMember)
  return {
    day,
    status,
    value: bestValue(p) - loss,
    loss,
    leastLoss,
    gap: loss > 0 ? Math.max(0, loss - leastLoss) / loss : 0,
    seconds: found.seconds,
    badLoss,
    wishes: wishesIn(decided, badLoss),
    visits: named(visits),
    backups: named(backups),
    later: laterCuts(farmProblem, decided, date),
    left: leftAtEnd(farmProblem, decided),
    against: priceRules(input, farmProblem, decided.today),
    choices: explainVisits({
      recourse,
      visits,
      loss,
      trials: decided.trials,
      atRiskPerHaDay: outlooks.map(({ part }) => riskOf.get(part.key) ?? Number.NaN),
    }),
    conflict,
  }

  function named(lists: Visits): WeekPlan['visits'] {
    return lists.flatMap((list, c) => list.map((j) => ({ outfitId: p.crews[c]!.id, partKey: p.jobs[j]!.key })))
  }

  /** A run that breaks a rule is taken out; the rest stands. */
  function keepSound(plan: DayPlan, checks: DayCheck): DayPlan {
    const broken = brokenDayRules(plan, checks).filter(({ rule }) => rule !== 'pin-unheard')
    if (broken.length === 0) {
      const unheard = brokenDayRules(plan, checks)
      return unheard.length === 0 ? plan : { ...plan }
    }
    const left = plan.runs.filter(
      ({ part, outfitId }) => !broken.some((one) => one.partKey === part.key && one.outfitId === outfitId),
    )
    if (left.length === plan.runs.length) throw new BrokenPlan(broken)
    return keepSound({ ...plan, runs: left, waiting: waitingAfter(input, first.ranking, left) }, checks)
  }

  function waitingAfter(given: FarmPlanInput, ranking: DayPlan['ranking'], made: DayPlan['runs']): DayPlan['waiting'] {
    const left = new Map(given.outlooks.map(({ part }) => [part.key, given.standingHa.get(part.key) ?? part.areaHa]))
    for (const run of made) left.set(run.part.key, left.get(run.part.key)! - run.areaHa)
    const ranked = ranking.map(({ part }) => ({
      outlook: given.outlooks.find((outlook) => outlook.part.key === part.key)!,
    }))
    return waitingParts(ranked, made, left, {
      farm,
      dayEnd: hoursOfLocalDay(date, farm.timeZone).endEpochH,
      nowEpochH: given.nowEpochH,
      shortestH: SHORTEST_RUN_H,
      rateOf: given.rateOf,
      isKeptOff: (partKey) =>
        rules.keepOffs.some(
          (one) =>
            one.partKey === partKey &&
            Temporal.PlainDate.compare(one.from, date) <= 0 &&
            Temporal.PlainDate.compare(date, one.to) <= 0,
        ),
    })
  }
}
