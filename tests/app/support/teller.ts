/** Tells a book a reading, a cut or an event that holds, but for what a test says otherwise. */
import {
  type Book,
  noteEvent,
  type ToldCut,
  type ToldEvent,
  type ToldReading,
  takeCut,
  takeReading,
} from '#app/records.ts'
import type { RecordKind } from '#app/records-port.ts'

const READING: ToldReading = { field: 'Alpha', moistureWb: 12.4, instrument: { kind: 'hand' }, by: 'Ann' }
const CUT: ToldCut = { field: 'Beta', areaHa: 10, by: 'Bo' }
const EVENT: ToldEvent = { field: 'Alpha', kind: 'maturity-seen', by: 'Ann' }

/** @param bookOf the book at hand. */
export function teller(bookOf: () => Book) {
  return {
    reading: (more: Partial<ToldReading> = {}) => takeReading(bookOf(), { ...READING, ...more }),
    cut: (more: Partial<ToldCut> = {}) => takeCut(bookOf(), { ...CUT, ...more }),
    event: (more: Partial<ToldEvent> = {}) => noteEvent(bookOf(), { ...EVENT, ...more }),
    current: async <K extends RecordKind>(kind: K) => await bookOf().store.current(bookOf().farm.id, kind),
    /** What was ever kept, of every kind. */
    everything: async () => {
      const { store, farm } = bookOf()
      const kinds = ['reading', 'cut', 'event'] as const
      return (await Promise.all(kinds.map((kind) => store.history(farm.id, kind)))).flat()
    },
  }
}
