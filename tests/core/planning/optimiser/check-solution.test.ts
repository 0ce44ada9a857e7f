import { describe, expect, test } from 'vitest'
import { planByHand } from '#core/planning/optimiser/by-hand.ts'
import { brokenRules } from '#core/planning/optimiser/check-solution.ts'
import { alone } from '#core/planning/optimiser/pools.ts'
import type { PlanProblem } from '#core/planning/optimiser/problem.ts'
import type { Amount } from '#core/planning/optimiser/recourse.ts'
import { randomPlan } from '#tests/support/random-plan.ts'

const problem = randomPlan({ seed: 3, jobs: 6, days: 4, crews: 2, members: 2 })
const hand = planByHand(problem, 100)
const cuts: Amount[][] = [[], []]
hand.recourse.follow(hand.visits, (m, amount) => cuts[m]!.push(amount))
const sound = { visits: hand.visits, cuts }
const rulesBroken = (p: PlanProblem, solution: typeof sound) =>
  new Set(brokenRules(p, solution).map(({ rule }) => rule))

describe('the re-check of a solution', () => {
  test('passes a sound one', () => {
    expect(brokenRules(problem, sound)).toEqual([])
    expect(cuts.flat().length).toBeGreaterThan(4)
  })

  test('finds too much area, hours and grain', () => {
    const grown = { ...sound, cuts: cuts.map((list) => list.map((cut) => ({ ...cut, ha: cut.ha * 3 }))) }
    const rules = rulesBroken(problem, grown)
    expect(rules).toContain('area')
    expect(rules).toContain('crew-hours')
    const small = { ...problem, buyers: [{ id: 'elevator', dailyT: 1 }] }
    expect(rulesBroken(small, sound)).toContain('buyer-full')
  })

  test('finds what is cut unfit, unvisited, kept off, without a head or unknown', () => {
    const wet = { ...problem, fitH: new Float32Array(problem.fitH.length) }
    expect(rulesBroken(wet, sound)).toContain('not-fit')
    expect(rulesBroken(problem, { ...sound, visits: [[], []] })).toContain('no-visit')
    const keptOff = new Uint8Array(problem.rules.keptOff.length).fill(1)
    expect(rulesBroken({ ...problem, rules: { ...problem.rules, keptOff } }, sound)).toContain('kept-off')
    const noHeads = { ...problem, haPerH: new Float64Array(problem.haPerH.length) }
    expect(rulesBroken(noHeads, sound)).toContain('no-head')
    const nan = { ...sound, cuts: [[{ pool: alone(0), job: 0, block: 0, ha: Number.NaN }], []] }
    expect(rulesBroken(problem, nan)).toContain('not-a-number')
  })

  test('finds too many crews, too many fields, a pin not heard', () => {
    const everywhere = { ...sound, visits: [[0, 1, 2, 3, 4, 5], [0]] }
    const rules = rulesBroken({ ...problem, rules: { ...problem.rules, crewsPerField: 1 } }, everywhere)
    expect(rules).toContain('too-many-crews')
    expect(rules).toContain('too-many-fields')
    const pins = [{ job: 5, day: 0, crew: 0, areaHa: 1 }]
    const unheard = { ...sound, visits: [[0], [0]] }
    expect(rulesBroken({ ...problem, rules: { ...problem.rules, pins } }, unheard)).toContain('pin-unheard')
  })
})
