import { beforeEach, describe, expect, it } from 'vitest'
import type { PlanStore } from '#app/plan-store.ts'
import type { ChangeReason, PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import { openAt } from '#edges/storage/open.ts'
import { type PlanTables, planStore } from '#edges/storage/plan-store.ts'
import { testDatabases } from '#tests/support/databases.ts'
import { smallOutfit } from '#tests/support/small-outlook.ts'

const databases = testDatabases()

async function withStore<T>(where: string, use: (store: PlanStore) => Promise<T>): Promise<T> {
  const database = await openAt<PlanTables>(where)
  try {
    return await use(planStore(database))
  } finally {
    await database.destroy()
  }
}

const day = (text: string) => Temporal.PlainDate.from(text)

/** With everything in it that JSON has no word for: dates, what is not known, what is absent. */
function record(publishedAtEpochH: number, reason: ChangeReason, more: Partial<PlanRecord> = {}): PlanRecord {
  const date = day('2010-09-30')
  return {
    publishedAtEpochH,
    reason,
    difference: {
      moved: [
        { partKey: 'a', was: undefined, now: { date, outfitId: 'one', meanHa: 12.5 } },
        { partKey: 'b', was: { date, outfitId: undefined, meanHa: 1 / 3 }, now: undefined },
      ],
      money: -120.25,
      badMoney: 0,
    },
    plan: {
      day: {
        date,
        runs: [
          {
            partKey: 'a',
            outfitId: 'one',
            startEpochH: 10.5,
            endEpochH: 14.25,
            areaHa: 20,
            massT: 70,
            startMoistureWb: 13.1,
            endMoistureWb: Number.NaN,
          },
        ],
      },
      status: 'fallback',
      value: 1000,
      loss: 100,
      leastLoss: 90,
      gap: 0.1,
      seconds: Number.NaN,
      badLoss: 200,
      visits: [{ outfitId: 'one', partKey: 'a' }],
      backups: [],
      later: [{ date, partKey: 'a', meanHa: 12.5, chance: 0.88 }],
      left: [{ partKey: 'b', meanHa: 3, chance: 0.2 }],
      choices: [{ partKey: 'a', outfitId: 'one', reason: 'pinned', perDayWaiting: Number.NaN, instead: undefined }],
      conflict: [{ partKey: 'a', date, outfitId: undefined, because: 'never-fit' }],
    },
    ...more,
  }
}

const REASONS: readonly ChangeReason[] = [
  { kind: 'first' },
  { kind: 'reading', partKey: 'a' },
  {
    kind: 'planner',
    personId: 'ann',
    takenBack: [{ kind: 'deadline', deadline: { partKey: 'a', date: day('2010-10-05') } }],
    changes: [
      { kind: 'pin', pin: { partKey: 'a', date: day('2010-10-02') } },
      { kind: 'keep-off', keepOff: { partKey: 'a', from: day('2010-10-01'), to: day('2010-10-03') } },
      { kind: 'days-off', outfitId: 'one', daysOff: [7] },
      { kind: 'add-outfit', outfit: smallOutfit('two') },
    ],
  },
]

/** Two dates are the same to `toEqual` whatever they are: as text they are compared. */
const told = (value: unknown) =>
  JSON.parse(JSON.stringify(value, (_, part) => (typeof part === 'number' && Number.isNaN(part) ? 'NaN' : part)))

describe.each(databases)('published plans in $name', (database) => {
  let where: string
  beforeEach(async () => {
    where = await database.fresh()
  })

  it('come back as they were after a restart, dates as dates and what is not known as such', async () => {
    const kept = REASONS.map((reason, n) => record(10 + n / 4, reason))
    await withStore(where, async (store) => {
      for (const one of kept) await store.keep('farm', one)
    })
    const read = await withStore(where, (store) => store.history('farm', 10))
    expect(told(read)).toEqual(told(kept.toReversed()))
    const [newest] = read
    expect(newest!.plan.day.date).toBeInstanceOf(Temporal.PlainDate)
    expect(newest!.difference!.moved[0]!.now!.date).toBeInstanceOf(Temporal.PlainDate)
    expect(newest!.plan.seconds).toBeNaN()
    expect(newest!.plan.day.runs[0]!.endMoistureWb).toBeNaN()
    const { reason } = newest!
    expect(
      reason.kind === 'planner' && reason.changes[0]!.kind === 'pin' && reason.changes[0]!.pin.date,
    ).toBeInstanceOf(Temporal.PlainDate)
  })

  it('the first has no difference, and comes back without one', async () => {
    await withStore(where, async (store) => {
      await store.keep('farm', record(1, { kind: 'first' }, { difference: undefined }))
      expect((await store.last('farm'))!.difference).toBeUndefined()
    })
  })

  it('are told newest first, page by page, each once, and only of their own farm', async () => {
    await withStore(where, async (store) => {
      expect(await store.last('farm')).toBeUndefined()
      for (const at of [3, 1, 5, 2, 4]) await store.keep('farm', record(at, { kind: 'new-weather' }))
      await store.keep('other', record(9, { kind: 'first' }))
      const at = (records: readonly PlanRecord[]) => records.map(({ publishedAtEpochH }) => publishedAtEpochH)
      expect((await store.last('farm'))!.publishedAtEpochH).toBe(5)
      expect(at(await store.history('farm', 2))).toEqual([5, 4])
      expect(at(await store.history('farm', 2, 4))).toEqual([3, 2])
      expect(at(await store.history('farm', 2, 2))).toEqual([1])
      expect(await store.history('farm', 2, 1)).toEqual([])
    })
  })

  it('a second one of the same moment is left out', async () => {
    await withStore(where, async (store) => {
      await store.keep('farm', record(1, { kind: 'first' }))
      await store.keep('farm', record(1, { kind: 'new-weather' }))
      expect((await store.history('farm', 5)).map(({ reason }) => reason.kind)).toEqual(['first'])
    })
  })
})
