import { describe, expect, it } from 'vitest'
import { bulkDensityKgM3 } from '#core/planning/capacity/cutting.ts'
import type { OutfitRate } from '#core/planning/capacity/outfit.ts'
import { joinRuns, makeRun, medianAt } from '#core/planning/run.ts'
import { headerLossFraction } from '#core/science/loss/header.ts'
import { testOutfit, testPart } from '#tests/support/fields.ts'
import { handOutlook } from '#tests/support/outlooks.ts'

const START = 357_000
const outlook = handOutlook({
  part: testPart(),
  startEpochH: START,
  hours: 24,
  fitShare: () => 1,
  moistureWb: (h) => 14 - h / 10,
})
const rate = { haPerH: 5, limitedBy: 'trucks', trucksNeeded: 4, cartsNeeded: 1 } as OutfitRate
const run = (more: Partial<Parameters<typeof makeRun>[0]> = {}) =>
  makeRun({
    outfit: testOutfit(),
    candidate: { outlook, window: outlook.windows[0]!, riskPerHaDay: 9, standardWb: 13 },
    rate,
    start: START + 10,
    end: START + 14,
    areaLeft: 40,
    ...more,
  })

describe('runs of one field', () => {
  const green = { id: 'p', name: 'P', share: 0.1, kind: 'green', laterDays: 4, handling: 'leave' } as const
  const main = run()
  const patch = {
    ...run({ start: START + 14, end: START + 14.3, areaLeft: 1.5 }),
    part: { ...main.part, key: 'alder/p', patch: green },
  }
  const other = { ...patch, part: testPart({ id: 'birch' }) }

  it('right after each other are told as one, with the loads that they fill together', () => {
    const [joined, ...more] = joinRuns([main, patch], [testOutfit()])
    expect(more).toEqual([])
    expect(joined).toMatchObject({
      part: main.part,
      startEpochH: START + 10,
      endEpochH: START + 14.3,
      areaHa: main.areaHa + patch.areaHa,
      massT: main.massT + patch.massT,
      startMoistureWb: main.startMoistureWb,
    })
    expect(joined!.truckLoads).toBe(Math.ceil((main.volumeL + patch.volumeL) / 33_000 - 0.05))
  })

  it('stay apart when time lies between, when the field or the outfit is another, and when a patch comes first', () => {
    const later = { ...patch, startEpochH: START + 16, endEpochH: START + 17 }
    for (const runs of [
      [main, later],
      [main, other],
      [main, { ...patch, outfitId: 'second' }],
      [patch, { ...patch, startEpochH: patch.endEpochH }],
    ]) {
      expect(joinRuns(runs, [testOutfit(), testOutfit({ id: 'second' })])).toEqual(runs)
    }
  })
})

describe('a run', () => {
  it('takes what the outfit cuts in its hours, never more than is left', () => {
    expect(run().areaHa).toBe(20)
    expect(run({ areaLeft: 12 }).areaHa).toBe(12)
    expect(run().ofAreaHa).toBe(40)
  })

  it('weighs the usual yield at the buyer standard, less what the header drops', () => {
    const { massT } = run()
    expect(massT).toBeCloseTo(20 * 3.5 * (1 - headerLossFraction('soybean', (13 + 12.7) / 2)), 4)
  })

  it('fills trucks with wet grain: dry matter is kept from the buyer standard to the moisture in the field', () => {
    const { massT, volumeL } = run()
    const wetT = (massT * (100 - 13)) / (100 - 12.85)
    expect(volumeL).toBeCloseTo((wetT / bulkDensityKgM3('soybean')) * 1e6, -1)
    const drier = run({ candidate: { outlook, window: outlook.windows[0]!, riskPerHaDay: 9, standardWb: 15.5 } })
    expect(drier.volumeL / volumeL).toBeCloseTo((100 - 15.5) / (100 - 13), 4)
  })

  it('needs a truckload for each begun truck, a twentieth of one let pass', () => {
    const { volumeL, truckLoads } = run()
    expect(truckLoads).toBeGreaterThanOrEqual(volumeL / 33_000 - 0.05)
    expect(truckLoads).toBeLessThan(volumeL / 33_000 + 1)
  })

  it('tells the median moisture at its ends, held to the hours of the outlook', () => {
    expect(run().startMoistureWb).toBeCloseTo(13, 4)
    // It ends on the stamp of hour 14: the last it cuts is hour 13.
    expect(run().endMoistureWb).toBeCloseTo(12.7, 4)
    expect(medianAt(outlook, START - 5)).toBe(outlook.medianWb[0])
    expect(medianAt(outlook, START + 500)).toBe(outlook.medianWb[23])
  })

  it('passes on what limits it and what the window says', () => {
    expect(run()).toMatchObject({
      limitedBy: 'trucks',
      trucksNeeded: 4,
      cartsNeeded: 1,
      combines: 2,
      chance: 1,
      atRiskPerHaDay: 9,
    })
  })
})
