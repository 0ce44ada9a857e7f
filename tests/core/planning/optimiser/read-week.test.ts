import { describe, expect, it } from 'vitest'
import type { FarmProblem } from '#core/planning/optimiser/build-problem.ts'
import { laterCuts, leftAtEnd } from '#core/planning/optimiser/read-week.ts'

const DATE = Temporal.PlainDate.from('2010-09-30')

/** One part of 20 ha, one day, so many members of the weather. */
const farmOf = (members: number) =>
  ({
    problem: { members, days: 1, dayLength: [1], blocks: [{ day: 0 }], jobs: [{ key: 'alder', areaHa: 20 }] },
  }) as unknown as FarmProblem
type Solution = Parameters<typeof laterCuts>[1]
const cutIn = (members: number, cutting: number, ha: number) =>
  ({
    cuts: Array.from({ length: members }, (_, m) => (m < cutting ? [{ job: 0, block: 0, ha }] : [])),
  }) as unknown as Solution

describe('chances over the members', () => {
  it('are shares of them: exactly 1 when all cut, whatever their number', () => {
    for (let members = 1; members <= 60; members++) {
      const [cut] = laterCuts(farmOf(members), cutIn(members, members, 8), DATE)
      expect(cut!.chance).toBe(1)
      expect(leftAtEnd(farmOf(members), cutIn(members, members, 8))[0]!.chance).toBe(1)
    }
  })

  it('count the members that cut, and those in which some stands after', () => {
    const [cut] = laterCuts(farmOf(8), cutIn(8, 3, 20), DATE)
    expect(cut).toMatchObject({ partKey: 'alder', date: DATE, chance: 3 / 8, meanHa: 7.5 })
    expect(leftAtEnd(farmOf(8), cutIn(8, 3, 20))[0]).toEqual({ partKey: 'alder', meanHa: 12.5, chance: 5 / 8 })
  })
})
