import { describe, expect, it } from 'vitest'
import { epochHourOf, hoursOfLocalDay, localDateOf, zonedAt } from '#core/units/time.ts'

describe('hours of a local day', () => {
  // US daylight-saving dates of 2026: 8 March and 1 November (Energy Policy Act of 2005, 15 USC 260a).
  it.each([
    ['2026-03-08', 'America/Chicago', 23],
    ['2026-11-01', 'America/Chicago', 25],
    ['2026-07-01', 'America/Chicago', 24],
    ['2026-07-01', 'Asia/Kolkata', 24],
    ['2026-10-04', 'Australia/Lord_Howe', 23],
  ])('%s in %s has %i whole hours', (date, zone, length) => {
    const { startEpochH, endEpochH } = hoursOfLocalDay(Temporal.PlainDate.from(date), zone)
    expect(endEpochH - startEpochH).toBe(length)
  })

  it('goes to the zone and back', () => {
    const instant = Temporal.Instant.from('2010-09-25T15:40:00Z')
    expect(epochHourOf(instant)).toBe(357_063)
    expect(zonedAt(357_063, 'America/Chicago').toString()).toBe('2010-09-25T10:00:00-05:00[America/Chicago]')
    expect(localDateOf(357_063 + 14, 'America/Chicago').toString()).toBe('2010-09-26')
  })
})
