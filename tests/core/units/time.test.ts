import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  epochHourOf,
  epochHoursAtMinute,
  epochHoursOf,
  hoursOfLocalDay,
  instantOf,
  localDateOf,
  zonedAt,
} from '#core/units/time.ts'

const hours = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const date = (text: string) => Temporal.PlainDate.from(text)

/**
 * Changes of the clock that are on record (IANA time zone database): United States 2010-03-14 and 2010-11-07; Lord Howe
 * Island, half an hour, 2010-04-04; India keeps half an hour off the full one all year; Nepal three quarters.
 */
const DAYS = [
  { zone: 'America/Chicago', day: '2010-03-14', start: '2010-03-14T06:00Z', end: '2010-03-15T05:00Z' },
  { zone: 'America/Chicago', day: '2010-11-07', start: '2010-11-07T05:00Z', end: '2010-11-08T06:00Z' },
  { zone: 'America/Chicago', day: '2010-09-30', start: '2010-09-30T05:00Z', end: '2010-10-01T05:00Z' },
  { zone: 'Asia/Kolkata', day: '2010-09-30', start: '2010-09-29T19:00Z', end: '2010-09-30T19:00Z' },
  { zone: 'Australia/Lord_Howe', day: '2010-04-04', start: '2010-04-03T13:00Z', end: '2010-04-04T14:00Z' },
] as const

describe('the hours of a local day', () => {
  it.each(DAYS)('$day in $zone', ({ zone, day, start, end }) => {
    expect(hoursOfLocalDay(date(day), zone)).toEqual({ startEpochH: hours(start), endEpochH: hours(end) })
  })

  it('days follow on each other without gap or overlap, in every zone', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('America/Chicago', 'Asia/Kolkata', 'Pacific/Apia', 'Asia/Kathmandu', 'America/St_Johns'),
        fc.integer({ min: 0, max: 3000 }),
        (zone, n) => {
          const day = date('2008-01-01').add({ days: n })
          const { startEpochH, endEpochH } = hoursOfLocalDay(day, zone)
          expect(hoursOfLocalDay(day.add({ days: 1 }), zone).startEpochH).toBe(endEpochH)
          // Apia went over the date line at the end of 2011 and had no 30 December at all.
          expect([0, 23, 24, 25]).toContain(endEpochH - startEpochH)
        },
      ),
      { numRuns: 60 },
    )
  })
})

describe('a minute of the clock on the wall', () => {
  const sevenOf = (zone: string, day: string) => epochHoursAtMinute(date(day), 7 * 60, zone)

  it('is the same time on the clock on days of 23 and 25 hours', () => {
    expect(sevenOf('America/Chicago', '2010-03-14')).toBe(hours('2010-03-14T07:00-05:00'))
    expect(sevenOf('America/Chicago', '2010-11-07')).toBe(hours('2010-11-07T07:00-06:00'))
    expect(sevenOf('Asia/Kolkata', '2010-11-07')).toBe(hours('2010-11-07T07:00+05:30'))
  })

  it('takes a skipped minute as long after the last one before it, and 24:00 as the next midnight', () => {
    expect(epochHoursAtMinute(date('2010-03-14'), 150, 'America/Chicago')).toBe(hours('2010-03-14T03:30-05:00'))
    expect(epochHoursAtMinute(date('2010-11-07'), 1440, 'America/Chicago')).toBe(hours('2010-11-08T00:00-06:00'))
  })
})

describe('instants', () => {
  it('go to hours and back, to the millisecond', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e12, max: 4e12 }), (ms) => {
        const instant = Temporal.Instant.fromEpochMilliseconds(ms)
        expect(instantOf(epochHoursOf(instant)).epochMilliseconds).toBe(ms)
        expect(epochHourOf(instant)).toBe(Math.floor(ms / 3_600_000))
      }),
    )
  })

  it('know their date at the farm', () => {
    expect(localDateOf(hours('2010-10-01T04:59Z'), 'America/Chicago').toString()).toBe('2010-09-30')
    expect(localDateOf(hours('2010-10-01T05:00Z'), 'America/Chicago').toString()).toBe('2010-10-01')
    expect(zonedAt(hours('2010-10-01T05:00Z'), 'Asia/Kolkata').hour).toBe(10)
  })
})
