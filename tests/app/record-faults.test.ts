import { describe, expect, it } from 'vitest'
import { type RecordFault, sayFault } from '#app/record-faults.ts'

const chicago = { timeZone: 'America/Chicago', units: 'us' } as const
const metric = { timeZone: 'Europe/Vienna', units: 'metric' } as const
/** 2010-09-20T17:00Z. */
const AT = 356_945

/** One of each, so that a new code without words does not go unseen. */
const FAULTS: { readonly [C in RecordFault['code']]: [Extract<RecordFault, { code: C }>, string] } = {
  'unknown-field': [{ code: 'unknown-field', said: 'Gama', known: ['Alpha', 'Beta'] }, 'Alpha, Beta'],
  'unknown-patch': [{ code: 'unknown-patch', said: 'x', fieldName: 'Alpha', known: ['Swale'] }, 'Its patches: Swale'],
  'unknown-outfit': [{ code: 'unknown-outfit', said: 'x', known: ['Main'] }, 'Outfits here: Main'],
  'unknown-record': [{ code: 'unknown-record', said: 'k9' }, '"k9"'],
  'already-replaced': [{ code: 'already-replaced', key: 'a', by: 'b' }, 'by "b"'],
  'key-taken': [{ code: 'key-taken', key: 'a', atEpochH: AT, by: 'ann' }, 'told by ann for 2010-09-20 12:00'],
  'moisture-impossible': [{ code: 'moisture-impossible', said: 130, lowest: 3, highest: 85 }, '130 % is not'],
  'time-unreadable': [{ code: 'time-unreadable', said: 'soon' }, '"soon" is not a time'],
  'time-ahead': [{ code: 'time-ahead', atEpochH: AT + 24, nowEpochH: AT }, '2010-09-21 12:00 has not come yet'],
  'before-planting': [
    { code: 'before-planting', atEpochH: 0, plantedOn: Temporal.PlainDate.from('2010-05-02') },
    'planted on 2010-05-02',
  ],
  'part-finished': [
    { code: 'part-finished', partName: 'Beta', finishedEpochH: AT },
    'Beta was finished at 2010-09-20 12:00',
  ],
  'area-impossible': [{ code: 'area-impossible', areaHa: -4.0468564224 }, '-10 acres'],
  'area-too-large': [
    { code: 'area-too-large', areaHa: 40.468564224, standingHa: 8.0937128448 },
    '100 acres is more than the 20 acres',
  ],
  'mass-impossible': [{ code: 'mass-impossible', massT: 9999 }, '9999 t'],
  'offset-impossible': [{ code: 'offset-impossible', said: 9, largest: 5 }, 'up to 5'],
  'error-impossible': [{ code: 'error-impossible', said: 0, largest: 5 }, 'at most 5'],
  'days-impossible': [{ code: 'days-impossible', said: 365, largest: 60 }, 'at most 60'],
  'who-missing': [{ code: 'who-missing' }, 'who tells it'],
  'key-impossible': [{ code: 'key-impossible', said: '', longest: 200 }, '1 to 200 characters'],
  'share-impossible': [{ code: 'share-impossible', said: 1.4 }, '1.4 is not a share'],
  'patch-exists': [{ code: 'patch-exists', said: 'Swale' }, '"Swale"'],
  'patch-measured': [{ code: 'patch-measured', said: 'Swale' }, 'so it stays'],
  'name-impossible': [{ code: 'name-impossible', said: '--' }, 'a letter or a digit'],
  'boundary-missing': [{ code: 'boundary-missing', fieldName: 'Beta' }, 'Beta has no drawn boundary'],
  'changed-meanwhile': [{ code: 'changed-meanwhile', fieldName: 'Beta' }, 'Beta was changed'],
  'date-past': [{ code: 'date-past', said: Temporal.PlainDate.from('2010-09-01') }, '2010-09-01 has passed'],
  'dates-turned': [
    { code: 'dates-turned', from: Temporal.PlainDate.from('2010-09-09'), to: Temporal.PlainDate.from('2010-09-01') },
    '2010-09-09 is after 2010-09-01',
  ],
  'hours-impossible': [{ code: 'hours-impossible' }, 'starts before it ends'],
  'weekday-impossible': [{ code: 'weekday-impossible', said: 8 }, '8 is not a weekday'],
  'outfit-exists': [{ code: 'outfit-exists', said: 'main' }, '"main" already'],
  'nothing-stands': [{ code: 'nothing-stands', partName: 'Beta' }, 'Nothing of Beta stands'],
  'cut-through': [
    { code: 'cut-through', partName: 'Beta (Swale)', fieldName: 'Beta' },
    'Decide it for Beta; to plan the patch by itself, have it left standing',
  ],
  'row-unreadable': [{ code: 'row-unreadable', what: 'It has no time.' }, 'It has no time.'],
}

describe('the answer to what does not hold up', () => {
  it.each(Object.values(FAULTS))('is a plain sentence for $code', (fault, piece) => {
    const said = sayFault(fault, chicago)
    expect(said).toContain(piece)
    expect(said).toMatch(/^["A-Z0-9-].*\.$/)
    expect(said).not.toMatch(/undefined|NaN|\[object/)
  })

  it('speaks in the units and the clock of the farm', () => {
    expect(sayFault(FAULTS['area-too-large'][0], metric)).toBe(
      '40.5 ha is more than the 8.1 ha that still stand there.',
    )
    expect(sayFault(FAULTS['part-finished'][0], metric)).toContain('2010-09-20 19:00')
  })

  it('knows a field without patches', () => {
    expect(sayFault({ ...FAULTS['unknown-patch'][0], known: [] }, chicago)).toContain('has no patches')
  })
})
