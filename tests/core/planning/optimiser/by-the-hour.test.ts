import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type CrewDay, type CutToday, liveDay } from '#core/planning/optimiser/by-the-hour.ts'

/** Two jobs, an hour apart, one crew from hour 8 to 20, 5 ha an hour. */
function twoFields(more: Partial<CrewDay> = {}): CrewDay {
  const fit = new Float32Array(48)
  for (let h = 10; h < 18; h++) fit[h] = 1
  for (let h = 12; h < 20; h++) fit[24 + h] = 1
  return {
    startEpochH: 0,
    hours: 24,
    fit,
    worthPerHa: new Float64Array(48).fill(1000),
    crews: [{ fromEpochH: 8, toEpochH: 20, firstMoveH: new Float64Array(2) }],
    moveH: Float64Array.of(0, 1, 1, 0),
    haPerH: Float64Array.of(5, 5),
    haulEnd: Float64Array.of(24, 24),
    buyer: [-1, -1],
    tPerHa: [4, 4],
    crewsPerField: 1,
    ...more,
  }
}

function live(day: CrewDay, lists: number[][], leftHa = [20, 100]) {
  const cuts: CutToday[] = []
  const stock = { leftHa: Float64Array.from(leftHa), buyerT: Float64Array.of(30) }
  const done = liveDay(day, lists, stock, (cut) => cuts.push(cut))
  const ha = [0, 1].map((job) => cuts.filter((cut) => cut.job === job).reduce((sum, cut) => sum + cut.ha, 0))
  return { ...done, ha, cuts, leftHa: stock.leftHa }
}

describe('a day lived by a list', () => {
  test('worked by hand: 20 ha take 4 h from 10, an hour on the road, then 5 h of the other', () => {
    const { ha, roadH, at } = live(twoFields(), [[0, 1]])
    expect(ha[0]).toBeCloseTo(20, 9)
    expect(ha[1]).toBeCloseTo(25, 9)
    expect(roadH).toBe(1)
    expect(at).toEqual([1])
  })

  test('the other way round it stays in the second field to the end of the day', () => {
    const { ha } = live(twoFields(), [[1, 0]])
    // The first is open two hours before the second: it is cut until it is done.
    expect(ha[0]).toBeCloseTo(20, 9)
    const only = live(twoFields(), [[1]])
    expect(only.ha).toEqual([0, expect.closeTo(40, 9)])
  })

  test('a full buyer and a shut one end the work', () => {
    const full = live(twoFields({ buyer: [0, 0] }), [[0, 1]])
    expect(full.ha[0]! + full.ha[1]!).toBeCloseTo(30 / 4, 9)
    const shut = live(twoFields({ haulEnd: Float64Array.of(11, 11) }), [[0, 1]])
    expect(shut.ha).toEqual([expect.closeTo(5, 9), 0])
  })

  test('nothing is cut beyond what stands, out of hours or unfit, whatever the lists', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(0, 1), { maxLength: 3 }),
        fc.float({ min: 0, max: 60, noNaN: true }),
        (list, area) => {
          const { cuts, leftHa } = live(twoFields(), [[...new Set(list)]], [area, area])
          for (const { atEpochH, job, ha } of cuts) {
            expect(ha).toBeGreaterThan(0)
            expect(twoFields().fit[job * 24 + Math.floor(atEpochH)]).toBe(1)
          }
          expect(Math.min(...leftHa)).toBeGreaterThanOrEqual(-1e-9)
        },
      ),
    )
  })
})
