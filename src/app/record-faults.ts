/** Why something told was not taken into the book. Data first; the words are made late. */
import type { UnitSystem } from '#core/operation/farm.ts'
import { HA_PER_ACRE } from '#core/units/convert.ts'
import { zonedAt } from '#core/units/time.ts'

export type RecordFault =
  | { readonly code: 'unknown-field'; readonly said: string; readonly known: readonly string[] }
  | {
      readonly code: 'unknown-patch'
      readonly said: string
      readonly fieldName: string
      readonly known: readonly string[]
    }
  | { readonly code: 'unknown-outfit'; readonly said: string; readonly known: readonly string[] }
  | { readonly code: 'unknown-record'; readonly said: string }
  | { readonly code: 'already-replaced'; readonly key: string; readonly by: string }
  | { readonly code: 'key-taken'; readonly key: string; readonly atEpochH: number; readonly by: string }
  | { readonly code: 'moisture-impossible'; readonly said: number; readonly lowest: number; readonly highest: number }
  | { readonly code: 'time-unreadable'; readonly said: string }
  | { readonly code: 'time-ahead'; readonly atEpochH: number; readonly nowEpochH: number }
  | { readonly code: 'before-planting'; readonly atEpochH: number; readonly plantedOn: Temporal.PlainDate }
  | { readonly code: 'part-finished'; readonly partName: string; readonly finishedEpochH: number }
  /** `NaN` = none was told. */
  | { readonly code: 'area-impossible'; readonly areaHa: number }
  | { readonly code: 'area-too-large'; readonly areaHa: number; readonly standingHa: number }
  | { readonly code: 'mass-impossible'; readonly massT: number }
  | { readonly code: 'offset-impossible'; readonly said: number; readonly largest: number }
  | { readonly code: 'error-impossible'; readonly said: number; readonly largest: number }
  | { readonly code: 'days-impossible'; readonly said: number; readonly largest: number }
  | { readonly code: 'who-missing' }
  | { readonly code: 'key-impossible'; readonly said: string; readonly longest: number }
  | { readonly code: 'share-impossible'; readonly said: number }
  | { readonly code: 'patch-exists'; readonly said: string }
  | { readonly code: 'patch-measured'; readonly said: string }
  | { readonly code: 'name-impossible'; readonly said: string }
  | { readonly code: 'boundary-missing'; readonly fieldName: string }
  | { readonly code: 'changed-meanwhile'; readonly fieldName: string }
  | { readonly code: 'date-past'; readonly said: Temporal.PlainDate }
  | { readonly code: 'dates-turned'; readonly from: Temporal.PlainDate; readonly to: Temporal.PlainDate }
  | { readonly code: 'hours-impossible' }
  | { readonly code: 'weekday-impossible'; readonly said: number }
  | { readonly code: 'outfit-exists'; readonly said: string }
  | { readonly code: 'nothing-stands'; readonly partName: string }
  | { readonly code: 'cut-through'; readonly partName: string; readonly fieldName: string }
  | { readonly code: 'row-unreadable'; readonly what: string }

export const refused = (fault: RecordFault) => ({ kind: 'refused', fault }) as const

/** A part ripens no later than this after the rest of its field, or than it would have [d]. */
export const MOST_LATER_DAYS = 60

/** Time zone and units of the farm that is spoken to. */
export interface Spoken {
  readonly timeZone: string
  readonly units: UnitSystem
}

/** One sentence or two: what is wrong, and what would be right. */
export function sayFault(fault: RecordFault, { timeZone, units }: Spoken): string {
  const time = (epochH: number) => sayTime(epochH, timeZone)
  switch (fault.code) {
    case 'unknown-field':
      return `No field is called "${fault.said}". Fields here: ${list(fault.known)}.`
    case 'unknown-patch':
      return fault.known.length === 0
        ? `${fault.fieldName} has no patches, so none called "${fault.said}".`
        : `${fault.fieldName} has no patch called "${fault.said}". Its patches: ${list(fault.known)}.`
    case 'unknown-outfit':
      return `No outfit is called "${fault.said}". Outfits here: ${list(fault.known)}.`
    case 'unknown-record':
      return `Nothing was ever told under the key "${fault.said}".`
    case 'already-replaced':
      return `"${fault.key}" has been corrected already, by "${fault.by}". Correct that one.`
    case 'key-taken':
      return `The key "${fault.key}" stands for something else, told by ${fault.by} for ${time(fault.atEpochH)}. Send this under a key of its own, or as a correction of that one.`
    case 'moisture-impossible':
      return `${number(fault.said)} % is not the moisture of a standing crop: ${fault.lowest} to ${fault.highest} % wet basis is.`
    case 'time-unreadable':
      return `"${fault.said}" is not a time. Write it like 2010-09-28T14:05-05:00, or 2010-09-28 14:05 for the farm's own clock.`
    case 'time-ahead':
      return `${time(fault.atEpochH)} has not come yet; it is ${time(fault.nowEpochH)}.`
    case 'before-planting':
      return `${time(fault.atEpochH)} is before this crop was planted on ${fault.plantedOn.toString()}.`
    case 'part-finished':
      return `${fault.partName} was finished at ${time(fault.finishedEpochH)}: nothing of it stands any more. If that is wrong, correct the cut.`
    case 'area-impossible':
      return Number.isNaN(fault.areaHa)
        ? 'Say how much was cut, or that all of it is.'
        : `${sayArea(fault.areaHa, units)} is not an area that can be cut; it must be more than none.`
    case 'area-too-large':
      return `${sayArea(fault.areaHa, units)} is more than the ${sayArea(fault.standingHa, units)} that still stand there.`
    case 'mass-impossible':
      return `${number(fault.massT)} t of grain cannot have come from that area.`
    case 'offset-impossible':
      return `A meter that is off by ${number(fault.said)} points is broken: up to ${fault.largest} either way is taken.`
    case 'error-impossible':
      return `${number(fault.said)} points is not the error of a meter: more than 0, at most ${fault.largest}.`
    case 'days-impossible':
      return `${number(fault.said)} days is not a delay of ripening: more than 0, at most ${fault.largest}.`
    case 'who-missing':
      return 'Say who tells it.'
    case 'key-impossible':
      return `"${fault.said}" is not a key: 1 to ${fault.longest} characters without spaces at its ends.`
    case 'share-impossible':
      return `${Number(fault.said.toFixed(3))} is not a share that fits: all patches of a field together take more than 0 and less than 1 of it.`
    case 'patch-exists':
      return `There is a patch called "${fault.said}" already.`
    case 'patch-measured':
      return `"${fault.said}" has readings or cuts of its own, so it stays.`
    case 'name-impossible':
      return `"${fault.said}" is not a name: it needs a letter or a digit.`
    case 'boundary-missing':
      return `${fault.fieldName} has no drawn boundary, so an outline says nothing of its share. Give the share.`
    case 'changed-meanwhile':
      return `${fault.fieldName} was changed by someone else at this moment. Look at it and try again.`
    case 'date-past':
      return `${fault.said.toString()} has passed.`
    case 'dates-turned':
      return `${fault.from.toString()} is after ${fault.to.toString()}: the first day comes first.`
    case 'hours-impossible':
      return 'A crew starts before it ends, both within one day.'
    case 'weekday-impossible':
      return `${fault.said} is not a weekday: 1 is Monday, 7 is Sunday.`
    case 'outfit-exists':
      return `There is an outfit called "${fault.said}" already.`
    case 'nothing-stands':
      return `Nothing of ${fault.partName} stands any more, so there is nothing to plan there.`
    case 'cut-through':
      return `${fault.partName} is cut through with ${fault.fieldName}, in the same load, and has no plan of its own. Decide it for ${fault.fieldName}; to plan the patch by itself, have it left standing (handling: leave).`
    case 'row-unreadable':
      return fault.what
  }
}

export const sayTime = (epochH: number, timeZone: string): string =>
  zonedAt(epochH, timeZone).toPlainDateTime().toString({ smallestUnit: 'minute' }).replace('T', ' ')

/** To a tenth, in the farm's unit. */
export const sayArea = (ha: number, units: UnitSystem): string =>
  units === 'us' ? `${number(ha / HA_PER_ACRE)} acres` : `${number(ha)} ha`

const number = (value: number): string => String(Number(value.toFixed(1)))

const list = (names: readonly string[]): string => names.join(', ')
