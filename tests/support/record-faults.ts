/** One of each way in which something told is not taken, so that a new one without words does not go unseen. */
import type { RecordFault } from '#app/record-faults.ts'

/** 2010-09-20T17:00Z. */
const AT = 356_945

export const FAULTS: { readonly [C in RecordFault['code']]: Extract<RecordFault, { code: C }> } = {
  'unknown-field': { code: 'unknown-field', said: 'Gama', known: ['Alpha', 'Beta'] },
  'unknown-patch': { code: 'unknown-patch', said: 'x', fieldName: 'Alpha', known: ['Swale'] },
  'unknown-outfit': { code: 'unknown-outfit', said: 'x', known: ['Main'] },
  'unknown-record': { code: 'unknown-record', said: 'k9' },
  'already-replaced': { code: 'already-replaced', key: 'a', by: 'b' },
  'key-taken': { code: 'key-taken', key: 'a', atEpochH: AT, by: 'ann' },
  'moisture-impossible': { code: 'moisture-impossible', said: 130, lowest: 3, highest: 85 },
  'time-unreadable': { code: 'time-unreadable', said: 'soon' },
  'time-ahead': { code: 'time-ahead', atEpochH: AT + 24, nowEpochH: AT },
  'before-planting': { code: 'before-planting', atEpochH: 0, plantedOn: Temporal.PlainDate.from('2010-05-02') },
  'part-finished': { code: 'part-finished', partName: 'Beta', finishedEpochH: AT },
  'area-impossible': { code: 'area-impossible', areaHa: -4.0468564224 },
  'area-too-large': { code: 'area-too-large', areaHa: 40.468564224, standingHa: 8.0937128448 },
  'mass-impossible': { code: 'mass-impossible', massT: 9999 },
  'offset-impossible': { code: 'offset-impossible', said: 9, largest: 5 },
  'error-impossible': { code: 'error-impossible', said: 0, largest: 5 },
  'days-impossible': { code: 'days-impossible', said: 365, largest: 60 },
  'who-missing': { code: 'who-missing' },
  'key-impossible': { code: 'key-impossible', said: '', longest: 200 },
  'share-impossible': { code: 'share-impossible', said: 1.4 },
  'patch-exists': { code: 'patch-exists', said: 'Swale' },
  'patch-measured': { code: 'patch-measured', said: 'Swale' },
  'name-impossible': { code: 'name-impossible', said: '--' },
  'boundary-missing': { code: 'boundary-missing', fieldName: 'Beta' },
  'changed-meanwhile': { code: 'changed-meanwhile', fieldName: 'Beta' },
  'date-past': { code: 'date-past', said: Temporal.PlainDate.from('2010-09-01') },
  'dates-turned': {
    code: 'dates-turned',
    from: Temporal.PlainDate.from('2010-09-09'),
    to: Temporal.PlainDate.from('2010-09-01'),
  },
  'hours-impossible': { code: 'hours-impossible' },
  'weekday-impossible': { code: 'weekday-impossible', said: 8 },
  'outfit-exists': { code: 'outfit-exists', said: 'main' },
  'nothing-stands': { code: 'nothing-stands', partName: 'Beta' },
  'cut-through': { code: 'cut-through', partName: 'Beta (Swale)', fieldName: 'Beta' },
  'row-unreadable': { code: 'row-unreadable', what: 'It has no time.' },
}
