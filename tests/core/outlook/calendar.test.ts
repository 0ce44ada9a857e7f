import { describe, expect, it } from 'vitest'
import { calendarOf } from '#core/outlook/calendar.ts'
import { HOLDBACK_BIT, holdbacksIn } from '#core/outlook/holdback.ts'
import { epochHoursOf, zonedAt } from '#core/units/time.ts'
import { testOutfit } from '#tests/support/fields.ts'

const PLACE = { latDeg: 40, lonDeg: -88, elevationM: 215 }
const CHICAGO = 'America/Chicago'
const hours = (text: string) => epochHoursOf(Temporal.Instant.from(text))

describe('crew hours', () => {
  it.each([
    ['2010-03-14T06:00Z', 23, CHICAGO],
    ['2010-11-07T05:00Z', 25, CHICAGO],
    ['2010-09-30T05:00Z', 24, CHICAGO],
    ['2010-09-29T19:00Z', 24, 'Asia/Kolkata'],
  ])('from %s, %d hours in %s: out from 7 to 22 by the clock on the wall', (start, count, zone) => {
    const { holdbackBits } = calendarOf(hours(start), count, zone, PLACE, [testOutfit()])
    for (let h = 0; h < count; h++) {
      const local = zonedAt(hours(start) + h + 0.5, zone)
      const minute = local.hour * 60 + local.minute
      const out = minute >= 7 * 60 && minute < 22 * 60
      expect((holdbackBits[h]! & HOLDBACK_BIT['crew-off']) === 0, local.toString()).toBe(out)
    }
  })

  it('one crew out is enough; a day off is off', () => {
    const sundays = testOutfit({ daysOff: [7] })
    const { weekday, holdbackBits } = calendarOf(hours('2010-10-03T05:00Z'), 48, CHICAGO, PLACE, [sundays])
    expect([weekday[0], weekday[24]]).toEqual([7, 1])
    expect(holdbackBits.slice(0, 24).every((bits) => (bits & HOLDBACK_BIT['crew-off']) !== 0)).toBe(true)
    expect(holdbackBits[24 + 12]).toBe(0)
    const both = calendarOf(hours('2010-10-03T05:00Z'), 24, CHICAGO, PLACE, [sundays, testOutfit({ id: 'b' })])
    expect(both.holdbackBits[12]).toBe(0)
  })

  it('a farm without a crew is never out', () => {
    const { holdbackBits } = calendarOf(hours('2010-10-04T05:00Z'), 24, CHICAGO, PLACE, [])
    expect(holdbackBits.every((bits) => bits !== 0)).toBe(true)
  })
})

describe('darkness', () => {
  it('does not stop a crew that is out under lights', () => {
    const { holdbackBits } = calendarOf(hours('2010-10-05T02:00Z'), 1, CHICAGO, PLACE, [testOutfit()])
    expect(holdbackBits[0]).toBe(0)
  })

  it('is told at night and not by day where nobody is out', () => {
    const { holdbackBits } = calendarOf(hours('2010-10-03T05:00Z'), 24, CHICAGO, PLACE, [testOutfit({ daysOff: [7] })])
    expect(holdbacksIn(holdbackBits[2]!)).toEqual(['crew-off', 'dark'])
    expect(holdbacksIn(holdbackBits[12]!)).toEqual(['crew-off'])
  })

  it('lasts all day in polar night and never comes under the midnight sun', () => {
    const arctic = { latDeg: 78, lonDeg: 15, elevationM: 0 }
    const dark = (start: string) =>
      calendarOf(hours(start), 24, 'Arctic/Longyearbyen', arctic, []).holdbackBits.map((bits) =>
        bits & HOLDBACK_BIT.dark ? 1 : 0,
      )
    expect(dark('2010-12-20T23:00Z').every((d) => d === 1)).toBe(true)
    expect(dark('2010-06-20T22:00Z').every((d) => d === 0)).toBe(true)
  })
})
