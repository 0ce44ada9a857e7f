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
  const sure = Number.isNaN(said.chance) ? 'No window in sight that day yet.' : `${capital(holds(said.chance))}.`
  const advice = 'This is advice: what you see in the field, and local fire rules, come first.'
  switch (said.kind) {
    case 'run':
      return { summary: `Run ${said.partName}`, description: `Set to cut: ${crop}${span}. ${sure} ${advice}` }
    case 'pin':
      return {
        summary: `${said.partName}, fixed`,
        description: `Fixed for this day by the planner: ${crop}${span}. ${sure} ${advice}`,
      }
    case 'window':
      return { summary: `${said.partName} likely fit`, description: `Likely fit: ${crop}${span}. ${sure} ${advice}` }
  }
}

export const calendarName = (farmName: string): string => `${farmName}: harvest`
