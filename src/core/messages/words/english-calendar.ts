/** English words for calendar entries. */
import type { SaidEntry } from '#core/messages/calendar.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { capital } from './capital.ts'
import { holds } from './english.ts'
import { type Manner, moisture } from './format.ts'

export interface EntryText {
  readonly summary: string
  readonly description: string
}

export function entry(said: SaidEntry, manner: Manner): EntryText {
  const crop = CROP_TRADE[said.crop].spoken
  const span = Number.isFinite(said.startMoistureWb + said.endMoistureWb)
    ? ` ${moisture(said.startMoistureWb, manner)} at the start, ${moisture(said.endMoistureWb, manner)} at the end`
    : ''
  const sure = `${capital(holds(said.chance))}.`
  const advice = 'This is advice: what you see in the field, and local fire rules, come first.'
  return said.kind === 'run'
    ? { summary: `Run ${said.partName}`, description: `Set to cut: ${crop}${span}. ${sure} ${advice}` }
    : { summary: `${said.partName} likely fit`, description: `Likely fit: ${crop}${span}. ${sure} ${advice}` }
}

export const calendarName = (farmName: string): string => `${farmName}: harvest`
