import fc from 'fast-check'
import ical from 'ical.js'
import nodeIcal from 'node-ical'
import { describe, expect, it } from 'vitest'
import { type CalendarEntry, calendarChanges, wantedEntries } from '#app/calendar.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { renderCalendar, uidOf } from '#edges/delivery/calendar.ts'
import { demoDay, demoFarm } from '#tests/app/support/demo.ts'

const farm = await demoFarm()
const [owner, , crew] = farm.people
const at = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const entry = (change: Partial<CalendarEntry> = {}): CalendarEntry => ({
  key: 'all/a/2026-11-01',
  sequence: 0,
  changedEpochH: at('2026-10-30T10:30Z'),
  startEpochH: at('2026-11-01T15:45Z'),
  endEpochH: at('2026-11-01T23:15Z'),
  status: 'tentative',
  said: {
    kind: 'window',
    partName: 'Twin Elms',
    crop: 'soybean',
    startMoistureWb: 12.7,
    endMoistureWb: 11.4,
    chance: 0.7,
  },
  ...change,
})

interface Seen {
  readonly uid: string
  readonly start: number
  readonly end: number
  readonly summary: string
  readonly description: string
  readonly status: string
  readonly sequence: number
}

/** As one library reads it. */
function byIcalJs(text: string): Seen[] {
  const calendar = new ical.Component(ical.parse(text))
  return calendar.getAllSubcomponents('vevent').map((component) => {
    const event = new ical.Event(component)
    return {
      uid: event.uid,
      start: event.startDate.toJSDate().getTime(),
      end: event.endDate.toJSDate().getTime(),
      summary: event.summary,
      description: event.description,
      status: String(component.getFirstPropertyValue('status')),
      sequence: event.sequence,
    }
  })
}

/** As another library reads it. */
function byNodeIcal(text: string): Seen[] {
  return Object.values(nodeIcal.sync.parseICS(text)).flatMap((event) => {
    if (event?.type !== 'VEVENT') return []
    return [
      {
        uid: event.uid,
        start: event.start.getTime(),
        end: event.end!.getTime(),
        summary: String(event.summary),
        description: String(event.description),
        status: String(event.status),
        sequence: Number(event.sequence),
      },
    ]
  })
}

const byUid = (events: readonly Seen[]) => events.toSorted((a, b) => a.uid.localeCompare(b.uid))

/** What RFC 5545 asks of the text itself: 3.1 (lines), 3.6 (objects), 3.6.1 (events), 3.8 (properties). */
function checkText(text: string): void {
  expect(text.endsWith('\r\n')).toBe(true)
  const lines = text.slice(0, -2).split('\r\n')
  for (const line of lines) {
    expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75)
    expect(line).not.toMatch(/[^\P{Cc}\t]/u)
  }
  const whole = text.replaceAll('\r\n ', '').slice(0, -2).split('\r\n')
  expect(whole[0]).toBe('BEGIN:VCALENDAR')
  expect(whole.at(-1)).toBe('END:VCALENDAR')
  for (const name of ['VERSION', 'PRODID']) expect(whole.filter((line) => line.startsWith(`${name}:`))).toHaveLength(1)
  expect(whole.some((line) => line.startsWith('METHOD'))).toBe(false)
  const events = whole.join('\n').split('BEGIN:VEVENT').slice(1)
  for (const event of events) {
    for (const name of ['UID', 'DTSTAMP', 'DTSTART', 'DTEND', 'SEQUENCE', 'STATUS', 'SUMMARY']) {
      expect(event.match(new RegExp(`^${name}[:;]`, 'gm'))).toHaveLength(1)
    }
    expect(event).toMatch(/^STATUS:(TENTATIVE|CONFIRMED|CANCELLED)$/m)
    for (const [, time] of event.matchAll(/^DT(?:STAMP|START|END):(.*)$/gm)) expect(time).toMatch(/^\d{8}T\d{6}Z$/)
    expect(event).not.toMatch(/^DURATION/m)
  }
  expect(new Set(events.map((event) => /^UID:(.*)$/m.exec(event)![1])).size).toBe(events.length)
}

describe('the calendar feed', () => {
  it('of a real day is read alike by two libraries, in both languages, times to the minute', async () => {
    const { day } = await demoDay('2010-09-30T05:30-05:00')
    const { changed } = calendarChanges([], wantedEntries(day!), day!.nowEpochH)
    for (const person of [owner!, crew!]) {
      const text = renderCalendar(farm, person, changed)
      checkText(text)
      const [one, two] = [byUid(byIcalJs(text)), byUid(byNodeIcal(text))]
      expect(one).toEqual(two)
      const expected = changed.map(({ key, startEpochH, endEpochH }) => [
        uidOf(key),
        startEpochH * 3_600_000,
        endEpochH * 3_600_000,
      ])
      expect(one.map(({ uid, start, end }) => [uid, start, end])).toEqual(
        expected.sort((a, b) => String(a[0]).localeCompare(String(b[0]))),
      )
    }
    expect(byIcalJs(renderCalendar(farm, owner!, changed)).some(({ summary }) => summary === 'Run Twin Elms')).toBe(
      true,
    )
    expect(byIcalJs(renderCalendar(farm, crew!, changed)).some(({ summary }) => summary === 'Corte Twin Elms')).toBe(
      true,
    )
  })

  it('tells what the planner fixed, and that a day without a window has none', () => {
    const said = {
      ...entry().said,
      kind: 'pin',
      startMoistureWb: Number.NaN,
      endMoistureWb: Number.NaN,
      chance: Number.NaN,
    }
    for (const read of [byIcalJs, byNodeIcal]) {
      const fixed = (person: typeof owner) =>
        read(renderCalendar(farm, person!, [entry({ said: said as CalendarEntry['said'], status: 'confirmed' })]))[0]!
      expect([fixed(owner).summary, fixed(crew).summary]).toEqual(['Twin Elms, fixed', 'Twin Elms, fijo'])
      expect(fixed(owner).description).toContain(
        'Fixed for this day by the planner: beans. No window in sight that day yet.',
      )
      expect(fixed(owner).description).not.toMatch(/NaN|unknown/)
    }
  })

  it('shows a move and a cancelling of the same entry to both', () => {
    for (const read of [byIcalJs, byNodeIcal]) {
      const [before] = read(renderCalendar(farm, owner!, [entry()]))
      const [moved] = read(renderCalendar(farm, owner!, [entry({ sequence: 1, startEpochH: at('2026-11-01T17:00Z') })]))
      const [gone] = read(renderCalendar(farm, owner!, [entry({ sequence: 2, status: 'cancelled' })]))
      expect([moved!.uid, gone!.uid]).toEqual([before!.uid, before!.uid])
      expect([before!.sequence, moved!.sequence, gone!.sequence]).toEqual([0, 1, 2])
      expect(moved!.start - before!.start).toBe(75 * 60_000)
      expect(gone!.status).toBe('CANCELLED')
    }
  })

  it('stands at the right instant on both sides of a clock change', () => {
    // IANA time zone database: Chicago goes from UTC-5 to UTC-6 on 2026-11-01 at 07:00Z, back to -5 on 2027-03-14 at 08:00Z.
    for (const time of ['2026-11-01T06:30Z', '2026-11-01T07:30Z', '2027-03-14T07:30Z', '2027-03-14T08:30Z']) {
      const text = renderCalendar(farm, owner!, [entry({ startEpochH: at(time), endEpochH: at(time) + 1 })])
      for (const read of [byIcalJs, byNodeIcal]) expect(read(text)[0]!.start).toBe(at(time) * 3_600_000)
    }
  })

  it('gives the same bytes for the same entries, so that an unchanged feed is seen as such', () => {
    expect(renderCalendar(farm, owner!, [entry()])).toBe(renderCalendar(farm, owner!, [entry()]))
  })

  it('carries any name whole through folding and escaping, and can be broken out of by none', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 120 }), (name) => {
        const said = { ...entry().said, partName: name }
        const text = renderCalendar(farm, owner!, [entry({ said })])
        checkText(text)
        const plain = name.replaceAll(/\r\n|\r/g, '\n').replaceAll(/[^\P{Cc}\t\n]/gu, '')
        const seen = byIcalJs(text)
        return seen.length === 1 && seen[0]!.summary === `${plain} likely fit`
      }),
    )
    const trap = 'x\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:evil;,\\'
    const text = renderCalendar(farm, owner!, [entry({ said: { ...entry().said, partName: trap } })])
    expect(byNodeIcal(text)).toHaveLength(1)
  })

  it('empty is a calendar still', () => {
    const text = renderCalendar(farm, owner!, [])
    checkText(text)
    expect(byIcalJs(text)).toEqual([])
  })
})
