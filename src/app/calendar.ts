/**
 * The farm's calendar: what is set to run today, what the planner fixed for a day, and when each waiting field is likely
 * fit, kept so that a move is seen once.
 */
import type { SaidEntry } from '#core/messages/calendar.ts'
import { partName } from '#core/messages/names.ts'
import type { PartPin } from '#core/planning/optimiser/plan-rules.ts'
import { epochHoursAtMinute, HOURS_PER_DAY, hoursOfLocalDay, localDateOf } from '#core/units/time.ts'
import type { Day } from './make-day.ts'

export interface CalendarEntry {
  /** Farm, part and local date: the same entry for ever. */
  readonly key: string
  /** RFC 5545, 3.8.7.4: raised by one at each change that a person must notice. */
  readonly sequence: number
  readonly changedEpochH: number
  readonly startEpochH: number
  readonly endEpochH: number
  readonly status: 'confirmed' | 'tentative' | 'cancelled'
  readonly said: SaidEntry
}

export interface CalendarStore {
  entries(farmId: string): Promise<readonly CalendarEntry[]>
  /** Adds or replaces, and takes away. */
  keep(farmId: string, changed: readonly CalendarEntry[], dropped: readonly string[]): Promise<void>
}

type Wanted = Omit<CalendarEntry, 'sequence' | 'changedEpochH'>

/** A shift smaller than this moves nothing: nobody plans by a quarter of an hour [h]. */
const LEAST_MOVE_H = 0.5
/** Times are told to the quarter of an hour. */
const STEPS_PER_HOUR = 4
/** A cancelled or past entry is kept for clients that ask seldom [h]. */
const KEPT_H = 14 * HOURS_PER_DAY

const rounded = (epochHours: number): number => Math.round(epochHours * STEPS_PER_HOUR) / STEPS_PER_HOUR

/** @param pins what the planner fixed. */
export function wantedEntries(day: Day, pins: readonly PartPin[] = []): Wanted[] {
  const { farm, plan } = day
  const keyOf = (partKey: string, epochH: number) => `${farm.id}/${partKey}/${localDateOf(epochH, farm.timeZone)}`
  const times = new Map<string, number>()
  const runs = plan.runs.map((run): Wanted => {
    const { part, startMoistureWb, endMoistureWb, chance } = run
    const key = keyOf(part.key, run.startEpochH)
    const time = (times.get(key) ?? 0) + 1
    times.set(key, time)
    return {
      // A part that is run twice on a day has two entries.
      key: time === 1 ? key : `${key}/${time}`,
      startEpochH: rounded(run.startEpochH),
      endEpochH: rounded(run.endEpochH),
      status: 'confirmed',
      said: { kind: 'run', partName: partName(part), crop: part.field.crop, startMoistureWb, endMoistureWb, chance },
    }
  })
  const pinned = pins.flatMap((pin) => pinEntry(day, pin, keyOf))
  const taken = new Set(runs.map(({ key }) => key))
  const fixed = pinned.filter(({ key }) => !taken.has(key))
  for (const { key } of fixed) taken.add(key)
  const windows = plan.waiting.flatMap(({ part, next }): Wanted[] => {
    const outlook = day.outlooks.find((found) => found.part.key === part.key)
    const window = next && outlook?.windows.find(({ endEpochH }) => endEpochH > next.startEpochH)
    if (!window) return []
    const { startMoistureWb, endMoistureWb, chance } = window
    return [
      {
        key: keyOf(part.key, next.startEpochH),
        startEpochH: rounded(next.startEpochH),
        endEpochH: rounded(window.endEpochH),
        status: 'tentative',
        said: {
          kind: 'window',
          partName: partName(part),
          crop: part.field.crop,
          startMoistureWb,
          endMoistureWb,
          chance,
        },
      },
    ]
  })
  return [...runs, ...fixed, ...windows.filter(({ key }) => !taken.has(key))].filter(
    ({ startEpochH, endEpochH }) => endEpochH > startEpochH,
  )
}

/** In the window of that day, or in the crew's hours where there is none. */
function pinEntry(
  { farm, outlooks }: Day,
  { partKey, date, outfitId }: PartPin,
  keyOf: (partKey: string, epochH: number) => string,
): Wanted[] {
  const outlook = outlooks.find(({ part }) => part.key === partKey)
  const outfit = farm.outfits.find(({ id }) => id === outfitId) ?? farm.outfits[0]
  if (!outlook || !outfit) return []
  const { startEpochH, endEpochH } = hoursOfLocalDay(date, farm.timeZone)
  const window = outlook.windows.find((found) => found.startEpochH < endEpochH && found.endEpochH > startEpochH)
  const at = (minute: number) => epochHoursAtMinute(date, minute, farm.timeZone)
  return [
    {
      key: keyOf(partKey, startEpochH),
      startEpochH: rounded(Math.max(startEpochH, window?.startEpochH ?? at(outfit.crewHours.startMinute))),
      endEpochH: rounded(Math.min(endEpochH, window?.endEpochH ?? at(outfit.crewHours.endMinute))),
      status: 'confirmed',
      said: {
        kind: 'pin',
        partName: partName(outlook.part),
        crop: outlook.part.field.crop,
        startMoistureWb: window?.startMoistureWb ?? Number.NaN,
        endMoistureWb: window?.endMoistureWb ?? Number.NaN,
        chance: window?.chance ?? Number.NaN,
      },
    },
  ]
}

/**
 * From what stands in the calendar and what should to what changes: a new entry, a move, a cancelling, each once. What
 * has begun is left as it was told.
 */
export function calendarChanges(
  kept: readonly CalendarEntry[],
  wanted: readonly Wanted[],
  nowEpochH: number,
): { readonly changed: readonly CalendarEntry[]; readonly dropped: readonly string[] } {
  const before = new Map(kept.map((entry) => [entry.key, entry]))
  const changed: CalendarEntry[] = []
  for (const entry of wanted) {
    const old = before.get(entry.key)
    before.delete(entry.key)
    if (!old) changed.push({ ...entry, sequence: 0, changedEpochH: nowEpochH })
    else if (old.startEpochH > nowEpochH && isMoved(old, entry)) {
      changed.push({ ...entry, sequence: old.sequence + 1, changedEpochH: nowEpochH })
    }
  }
  const dropped: string[] = []
  for (const old of before.values()) {
    if (Math.max(old.endEpochH, old.changedEpochH) < nowEpochH - KEPT_H) dropped.push(old.key)
    else if (old.startEpochH > nowEpochH && old.status !== 'cancelled') {
      changed.push({ ...old, status: 'cancelled', sequence: old.sequence + 1, changedEpochH: nowEpochH })
    }
  }
  return { changed, dropped }
}

const isMoved = (old: CalendarEntry, entry: Wanted): boolean =>
  old.status !== entry.status ||
  old.said.kind !== entry.said.kind ||
  old.said.partName !== entry.said.partName ||
  Math.abs(old.startEpochH - entry.startEpochH) >= LEAST_MOVE_H ||
  Math.abs(old.endEpochH - entry.endEpochH) >= LEAST_MOVE_H

/** @returns whether anything changed. */
export async function keepCalendar(
  day: Day,
  store: CalendarStore,
  nowEpochH: number,
  pins: readonly PartPin[] = [],
): Promise<boolean> {
  const { changed, dropped } = calendarChanges(await store.entries(day.farm.id), wantedEntries(day, pins), nowEpochH)
  if (changed.length === 0 && dropped.length === 0) return false
  await store.keep(day.farm.id, changed, dropped)
  return true
}
