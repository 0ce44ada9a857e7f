/** Who is told what: the crew what it can act on in the field, owner and planner what they can decide. */
import type { Farm, Person } from '#core/operation/farm.ts'
import { MINUTES_PER_DAY, zonedAt } from '#core/units/time.ts'
import type { AlertKind } from './alert.ts'

const HEARS: Record<Person['role'], readonly AlertKind[]> = {
  crew: ['fire-stop', 'official-warning', 'rain', 'fire-care', 'dust', 'too-wet', 'dew', 'soft-ground', 'plan-changed'],
  owner: ['fire-stop', 'official-warning', 'plan-changed', 'over-dry', 'meter-disagrees', 'sources-down'],
  planner: ['fire-stop', 'official-warning', 'plan-changed', 'over-dry', 'meter-disagrees', 'sources-down'],
}

/** On a farm without a crew in its file, owner and planner work the field themselves and hear everything. */
export function hears(person: Person, kind: AlertKind, farm: Farm): boolean {
  if (HEARS[person.role].includes(kind)) return true
  return HEARS.crew.includes(kind) && farm.people.every(({ role }) => role !== 'crew')
}

/** Quiet hours may run over midnight; their end is no longer quiet. */
export function isQuiet({ quietHours }: Person, nowEpochH: number, timeZone: string): boolean {
  if (!quietHours) return false
  const { hour, minute } = zonedAt(nowEpochH, timeZone)
  const since = (((hour * 60 + minute - quietHours.startMinute) % MINUTES_PER_DAY) + MINUTES_PER_DAY) % MINUTES_PER_DAY
  const length =
    (((quietHours.endMinute - quietHours.startMinute) % MINUTES_PER_DAY) + MINUTES_PER_DAY) % MINUTES_PER_DAY
  return since < length
}
