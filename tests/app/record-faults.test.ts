import { describe, expect, it } from 'vitest'
import { type RecordFault, sayFault } from '#app/record-faults.ts'
import { FAULTS } from '#tests/support/record-faults.ts'

const chicago = { timeZone: 'America/Chicago', units: 'us' } as const
const metric = { timeZone: 'Europe/Vienna', units: 'metric' } as const
const SAID: { readonly [C in RecordFault['code']]: string } = {
  'unknown-field': 'Alpha, Beta',
  'unknown-patch': 'Its patches: Swale',
  'unknown-outfit': 'Outfits here: Main',
  'unknown-record': '"k9"',
  'already-replaced': 'by "b"',
  'key-taken': 'told by ann for 2010-09-20 12:00',
  'moisture-impossible': '130 % is not',
  'time-unreadable': '"soon" is not a time',
  'time-ahead': '2010-09-21 12:00 has not come yet',
  'before-planting': 'planted on 2010-05-02',
  'part-finished': 'Beta was finished at 2010-09-20 12:00',
  'area-impossible': '-10 acres',
  'area-too-large': '100 acres is more than the 20 acres',
  'mass-impossible': '9999 t',
  'offset-impossible': 'up to 5',
  'error-impossible': 'at most 5',
  'days-impossible': 'at most 60',
  'who-missing': 'who tells it',
  'key-impossible': '1 to 200 characters',
  'share-impossible': '1.4 is not a share',
  'patch-exists': '"Swale"',
  'patch-measured': 'so it stays',
  'name-impossible': 'a letter or a digit',
  'boundary-missing': 'Beta has no drawn boundary',
  'changed-meanwhile': 'Beta was changed',
  'date-past': '2010-09-01 has passed',
  'dates-turned': '2010-09-09 is after 2010-09-01',
  'hours-impossible': 'starts before it ends',
  'weekday-impossible': '8 is not a weekday',
  'outfit-exists': '"main" already',
  'nothing-stands': 'Nothing of Beta stands',
  'cut-through': 'Decide it for Beta; to plan the patch by itself, have it left standing',
  'row-unreadable': 'It has no time.',
}

describe('the answer to what does not hold up', () => {
  it.each(Object.values(FAULTS))('is a plain sentence for $code', (fault) => {
    const said = sayFault(fault, chicago)
    expect(said).toContain(SAID[fault.code])
    expect(said).toMatch(/^["A-Z0-9-].*\.$/)
    expect(said).not.toMatch(/undefined|NaN|\[object/)
  })

  it('speaks in the units and the clock of the farm', () => {
    expect(sayFault(FAULTS['area-too-large'], metric)).toBe('40.5 ha is more than the 8.1 ha that still stand there.')
    expect(sayFault(FAULTS['part-finished'], metric)).toContain('2010-09-20 19:00')
  })

  it('knows a field without patches', () => {
    expect(sayFault({ ...FAULTS['unknown-patch'], known: [] }, chicago)).toContain('has no patches')
  })
})
