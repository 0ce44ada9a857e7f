import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CalendarEntry, calendarChanges, keepCalendar, wantedEntries } from '#app/calendar.ts'
import { partName } from '#core/messages/names.ts'
import { epochHoursOf, localDateOf } from '#core/units/time.ts'
import { type CalendarTables, calendarStore } from '#edges/storage/calendar-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { demoDay } from '#tests/app/support/demo.ts'

const utc = (text: string) => epochHoursOf(Temporal.Instant.from(text))

type Wanted = Parameters<typeof calendarChanges>[1][number]
const wanted = (key: string, startEpochH: number, endEpochH: number, change: Partial<Wanted> = {}): Wanted => ({
  key,
  startEpochH,
  endEpochH,
  status: 'tentative',
  said: { kind: 'window', partName: key, crop: 'corn', startMoistureWb: 20, endMoistureWb: 19, chance: 0.7 },
  ...change,
})
const apply = (kept: readonly CalendarEntry[], { changed, dropped }: ReturnType<typeof calendarChanges>) => [
  ...kept.filter(({ key }) => !dropped.includes(key) && changed.every((entry) => entry.key !== key)),
  ...changed,
]

describe('changes of the calendar', () => {
  it('are told once: new, moved, cancelled, back again', () => {
    let kept: CalendarEntry[] = []
    const look = (now: number, list: readonly Wanted[]) => {
      const changes = calendarChanges(kept, list, now)
      kept = apply(kept, changes)
      return changes.changed.map(({ key, sequence, status }) => `${key} ${sequence} ${status}`)
    }
    expect(look(100, [wanted('a', 110, 114)])).toEqual(['a 0 tentative'])
    expect(look(101, [wanted('a', 110.25, 114)])).toEqual([])
    expect(look(102, [wanted('a', 110.5, 114)])).toEqual(['a 1 tentative'])
    expect(look(103, [wanted('a', 110.5, 114)])).toEqual([])
    expect(look(104, [])).toEqual(['a 2 cancelled'])
    expect(look(105, [])).toEqual([])
    expect(look(106, [wanted('a', 110.5, 114, { status: 'confirmed' })])).toEqual(['a 3 confirmed'])
    // Begun: it stays as it was told, moved or gone.
    expect(look(111, [wanted('a', 111, 116)])).toEqual([])
    expect(look(112, [])).toEqual([])
    expect(kept).toHaveLength(1)
    expect(look(114 + 15 * 24, [])).toEqual([])
    expect(kept).toHaveLength(0)
  })

  it('settle: a second look at the same day changes nothing, and no sequence ever falls', () => {
    const list = fc.uniqueArray(
      fc.record({
        key: fc.constantFrom('a', 'b', 'c', 'd'),
        start: fc.integer({ min: 400, max: 480 }),
        length: fc.integer({ min: 1, max: 8 }),
      }),
      { selector: ({ key }) => key },
    )
    fc.assert(
      fc.property(fc.array(list, { maxLength: 12 }), (looks) => {
        let kept: CalendarEntry[] = []
        let now = 390
        for (const look of looks) {
          now += 3
          const entries = look.map(({ key, start, length }) => wanted(key, start / 2 + 210, start / 2 + 210 + length))
          const before = new Map(kept.map(({ key, sequence }) => [key, sequence]))
          kept = apply(kept, calendarChanges(kept, entries, now))
          for (const { key, sequence } of kept) if (sequence < (before.get(key) ?? 0)) return false
          const again = calendarChanges(kept, entries, now)
          if (again.changed.length + again.dropped.length > 0) return false
        }
        return true
      }),
    )
  })

  it('hold what the planner fixed: in the window of that day, in the crew’s hours where there is none, once', async () => {
    const { day, farm } = await demoDay('2010-09-30T05:30-05:00')
    const date = (text: string) => Temporal.PlainDate.from(text)
    const waits = day!.plan.waiting.find(({ next }) => next !== undefined)!
    const { startEpochH } = waits.next!
    const fitOn = localDateOf(startEpochH, farm.timeZone)
    const ran = day!.plan.runs[0]!
    const pins = [
      { partKey: waits.part.key, date: fitOn },
      { partKey: 'wheat-hill', date: date('2010-10-04') },
      { partKey: 'lone-oak', date: date('2010-10-01') },
      { partKey: ran.part.key, date: day!.date },
      { partKey: 'no-such-part', date: day!.date },
    ]
    const entries = wantedEntries(day!, pins)
    const keys = entries.map(({ key }) => key)
    expect(new Set(keys).size).toBe(keys.length)
    const pinned = entries.filter(({ said }) => said.kind === 'pin')
    expect(pinned.map(({ said }) => said.partName)).toEqual([partName(waits.part), 'Lone Oak'])
    expect(pinned[0]).toMatchObject({ status: 'confirmed', startEpochH: Math.round(startEpochH * 4) / 4 })
    // Corn at 23 % has no window on the next day: the crew works from 7:00 to 22:00.
    expect(pinned[1]).toMatchObject({ startEpochH: utc('2010-10-01T12:00Z'), endEpochH: utc('2010-10-02T03:00Z') })
    expect(pinned[1]!.said.chance).toBeNaN()
    // What runs today is told as a run.
    expect(entries.find(({ said }) => said.partName === partName(ran.part))!.said.kind).toBe('run')
  })

  it('tell a window that was fixed as one change of the same entry, and its release as another', async () => {
    const { day, farm } = await demoDay('2010-09-30T05:30-05:00')
    const waits = day!.plan.waiting.find(({ next }) => next !== undefined)!
    const pin = { partKey: waits.part.key, date: localDateOf(waits.next!.startEpochH, farm.timeZone) }
    const now = day!.nowEpochH
    const first = apply([], calendarChanges([], wantedEntries(day!), now))
    const fixed = calendarChanges(first, wantedEntries(day!, [pin]), now + 1)
    expect(fixed.changed.map(({ sequence, said, status }) => [sequence, said.kind, status])).toEqual([
      [1, 'pin', 'confirmed'],
    ])
    const released = calendarChanges(apply(first, fixed), wantedEntries(day!), now + 2)
    expect(released.changed.map(({ sequence, said }) => [sequence, said.kind])).toEqual([[2, 'window']])
  })

  it('hold the runs of a real day as confirmed and the next windows as tentative, once each', async () => {
    const { day } = await demoDay('2010-09-30T05:30-05:00')
    const entries = wantedEntries(day!)
    expect(new Set(entries.map(({ key }) => key)).size).toBe(entries.length)
    expect(entries.filter(({ status }) => status === 'confirmed')).toHaveLength(day!.plan.runs.length)
    expect(entries.some(({ status }) => status === 'tentative')).toBe(true)
    const database = openDatabase<CalendarTables>(':memory:')
    await migrate(database)
    const store = calendarStore(database)
    expect(await keepCalendar(day!, store, day!.nowEpochH)).toBe(true)
    expect(await keepCalendar(day!, store, day!.nowEpochH + 0.5)).toBe(false)
    expect(await store.entries(day!.farm.id)).toHaveLength(entries.length)
  })
})
