/** Why a form of the week was not taken, and which of its inputs are to blame. */
import type { RecordFault } from '#app/record-faults.ts'
import type { Farm } from '#core/operation/farm.ts'
import { Change, MOST_MACHINES } from '#edges/web/api/plan-changes.ts'
import type { Reason, RefusedForm, Sent } from '#edges/web/refused-form.ts'
import { grainL, speedMs, widthM } from '#edges/web/typed.ts'
import type { Words } from '#edges/web/words/words.ts'
import type { WrongWords } from '#edges/web/words/wrong.ts'
import { saidBy } from './week-form.ts'

/** Figures of a machine, by where they stand in a change: their input, and what one that is typed is in SI. */
const FIGURES: Readonly<Record<string, readonly [input: string, si: (typed: number, farm: Farm) => number]>> = {
  'outfit.combines.tankL': ['tank', grainL],
  'outfit.combines.unloadLPerS': ['unload', grainL],
  'outfit.combines.heads.widthM': ['width', widthM],
  'outfit.combines.heads.speedMs': ['speed', speedMs],
  'outfit.combines.heads.efficiency': ['efficiency', (percent) => percent / 100],
  'outfit.carts.capacityL': ['cartSize', grainL],
  'outfit.carts.unloadLPerS': ['cartUnload', grainL],
  'outfit.trucks.capacityL': ['truckSize', grainL],
  'outfit.trucks.roadSpeedMs': ['roadSpeed', speedMs],
}

type Says = (wrong: WrongWords) => string
const number: Says = (wrong) => wrong.number
const choice: Says = (wrong) => wrong.choice
const time: Says = (wrong) => wrong.time
const name: Says = (wrong) => wrong.name
const count =
  (least: number): Says =>
  (wrong) =>
    wrong.count(least, MOST_MACHINES)
/** The others, by where they stand. */
const INPUTS: Readonly<Record<string, readonly [input: string, says: Says]>> = {
  part: ['part', choice],
  date: ['date', choice],
  from: ['from', choice],
  to: ['to', choice],
  areaHa: ['area', number],
  start: ['start', time],
  end: ['end', time],
  daysOff: ['daysOff', choice],
  'outfit.id': ['name', name],
  'outfit.name': ['name', name],
  'outfit.combines': ['combines', count(1)],
  'outfit.carts': ['carts', count(0)],
  'outfit.trucks': ['trucks', count(0)],
  'outfit.combines.heads.crops': ['crops', (wrong) => wrong.crops],
  'outfit.start': ['start', time],
  'outfit.end': ['end', time],
  'outfit.daysOff': ['daysOff', choice],
}

/** A form that is none of ours, or that says what can not be. */
export function notValid(sent: Sent, farm: Farm, words: Words): RefusedForm {
  const found = new Map<string, string>()
  for (const { path, code, ...issue } of Change.safeParse(saidBy(sent, farm)).error?.issues ?? []) {
    const at = path.filter((step) => typeof step === 'string').join('.')
    const [input, si] = FIGURES[at] ?? []
    const [other, says] = INPUTS[at] ?? []
    if (input && si && !found.has(input)) {
      const most = code === 'too_big' && 'maximum' in issue ? Number(issue.maximum) : undefined
      found.set(
        input,
        most === undefined ? words.wrong.number : words.wrong.most(Math.floor((10 * most) / si(1, farm)) / 10),
      )
    } else if (other && says && !found.has(other)) found.set(other, says(words.wrong))
  }
  const reasons = [...found].map(([input, text]) => ({ text, inputs: [input] }))
  return { sent, reasons: reasons.length > 0 ? reasons : [{ text: words.failures['not-valid'].title, inputs: [] }] }
}

const BLAMED: { readonly [C in RecordFault['code']]?: readonly string[] } = {
  'unknown-field': ['part'],
  'nothing-stands': ['part'],
  'cut-through': ['part'],
  'unknown-outfit': ['outfit'],
  'area-impossible': ['area'],
  'area-too-large': ['area'],
  'dates-turned': ['from', 'to'],
  'hours-impossible': ['start', 'end'],
  'weekday-impossible': ['daysOff'],
  'name-impossible': ['name'],
  'outfit-exists': ['name'],
}

/** A change that the farm can not take. */
export function notTaken(sent: Sent, fault: RecordFault, farm: Farm, words: Words): RefusedForm {
  const reason: Reason = { text: words.refusal(fault, farm), inputs: blamed(sent, fault) }
  return { sent, reasons: [reason] }
}

function blamed({ kind, ...inputs }: Sent, { code }: RecordFault): readonly string[] {
  // The last day of those that a change names has passed.
  if (code === 'date-past') return [kind === 'keep-off' ? 'to' : 'date']
  // An outfit is chosen in one form alone; elsewhere it is whose form it is.
  if (code === 'unknown-outfit' && kind !== 'pin') return []
  return (BLAMED[code] ?? []).filter((input) => input in inputs)
}
