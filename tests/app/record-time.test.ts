import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { epochHoursFrom } from '#app/record-time.ts'
import { instantOf, zonedAt } from '#core/units/time.ts'

const CHICAGO = 'America/Chicago'

describe('a time as people write it', () => {
  it.each([
    ['2010-09-28T14:05-05:00', '2010-09-28T19:05:00Z'],
    ['2010-09-28T19:05Z', '2010-09-28T19:05:00Z'],
    ['2010-09-28t19:05:30z', '2010-09-28T19:05:30Z'],
    ['2010-09-28 14:05', '2010-09-28T19:05:00Z'],
    [' 2010-09-28 14:05:10 ', '2010-09-28T19:05:10Z'],
    ['2010-09-28T14:05', '2010-09-28T19:05:00Z'],
    // Central Standard Time from 7 November 2010, 02:00 on: six hours behind UTC.
    ['2010-11-07 03:00', '2010-11-07T09:00:00Z'],
    ['2010-11-07T01:30-05:00', '2010-11-07T06:30:00Z'],
    ['2010-11-07T01:30-06:00', '2010-11-07T07:30:00Z'],
  ])('%s is %s', (text, instant) => {
    expect(instantOf(epochHoursFrom(text, CHICAGO)).toString()).toBe(instant)
  })

  it.each([
    '',
    'soon',
    '14:05',
    '2010-09-28',
    '2010-09-28-05:00',
    '2010-09-31 12:00',
    '2010-09-28 25:00',
    '28.09.2010 14:05',
    '09/28/2010 2:05 PM',
    '1285700700',
    // The clock shows 02:30 never on the night it springs forward, and 01:30 twice on the night it falls back.
    '2010-03-14 02:30',
    '2010-11-07 01:30',
  ])('"%s" is not one', (text) => {
    expect(epochHoursFrom(text, CHICAGO)).toBeNaN()
  })

  it('comes back from what the farm clock shows, but for the hours it shows twice', () => {
    fc.assert(
      fc.property(fc.integer({ min: 350_000, max: 520_000 }), (epochH) => {
        const zoned = zonedAt(epochH, CHICAGO)
        const local = epochHoursFrom(zoned.toPlainDateTime().toString(), CHICAGO)
        expect(Number.isNaN(local) || local === epochH).toBe(true)
        expect(epochHoursFrom(zoned.toString({ timeZoneName: 'never' }), CHICAGO)).toBe(epochH)
      }),
    )
  })
})
