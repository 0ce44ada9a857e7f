/** Day 0 of a farm's problem, member by member, for following crews by the hour. */

import { paceAt } from '#core/outlook/pace.ts'
import { termsFor } from '#core/planning/first-plan.ts'
import { buyerShutsAt, haulEnd } from '#core/planning/haul-end.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import { crewSpan } from './blocks.ts'
import type { FarmPlanInput, FarmProblem } from './build-problem.ts'
import type { CrewDay } from './by-the-hour.ts'
import { worthAt } from './coefficients.ts'
import { isFit } from './fit.ts'
import { cj } from './problem.ts'

/** Day 0 in each member. */
export const crewDays = (input: FarmPlanInput, farmProblem: FarmProblem): CrewDay[] =>
  farmProblem.courses.map((course) => crewDayOf(input, farmProblem, course))

/** Day 0 in one course of the outlooks. */
export function crewDayOf(input: FarmPlanInput, farmProblem: FarmProblem, course: number): CrewDay {
  const { farm, date, nowEpochH } = input
  const { problem: p, outlooks, outfits, rates } = farmProblem
  const { startEpochH: from, endEpochH: to } = hoursOfLocalDay(date, farm.timeZone)
  const startEpochH = Math.max(from, Math.floor(nowEpochH), outlooks[0]?.startEpochH ?? from)
  const hours = Math.max(0, to - startEpochH)
  const J = outlooks.length
  const fit = new Float32Array(J * hours)
  const worthPerHa = new Float64Array(J * hours)
  for (const [j, outlook] of outlooks.entries()) {
    const terms = termsFor(outlook.part, farm)!
    for (let h = 0; h < hours; h++) {
      const hour = startEpochH + h - outlook.startEpochH
      if (hour >= outlook.hours || !isFit(outlook, course, hour)) continue
      if (p.rules.keptOff[j * p.days] === 1) continue
      fit[j * hours + h] = paceAt(outlook, hour)
      worthPerHa[j * hours + h] = worthAt(outlook, terms, course, hour)
    }
  }
  const never = Number.NEGATIVE_INFINITY
  return {
    startEpochH,
    hours,
    fit,
    worthPerHa,
    crews: outfits.map((outfit, c) => {
      const span = crewSpan(outfit, date, farm.timeZone)
      return {
        fromEpochH: span ? Math.max(span.from, nowEpochH) : Number.POSITIVE_INFINITY,
        toEpochH: span?.to ?? never,
        firstMoveH: p.firstMoveH.subarray(cj(p, c, 0), cj(p, c, 0) + J),
      }
    }),
    moveH: p.moveH,
    haPerH: p.haPerH,
    haulEnd: Float64Array.from(rates, (rate, i) => {
      const outfit = outfits[Math.floor(i / J)]!
      const span = crewSpan(outfit, date, farm.timeZone)
      if (!rate || !span) return never
      return haulEnd(outfit, rate, buyerShutsAt(outlooks[i % J]!.part, farm, date), span.from, 0)
    }),
    buyer: p.jobs.map(({ buyer }) => buyer),
    tPerHa: p.jobs.map(({ tPerHa }) => tPerHa),
    crewsPerField: p.rules.crewsPerField,
  }
}
