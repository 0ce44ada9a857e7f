/** The planner's decisions, kept in the book: pins, keep-offs, hours and machines, each by whom and when. */

import { partOfKey } from '#core/field/parts.ts'
import { seasonStart } from '#core/field/season.ts'
import type { Farm } from '#core/operation/farm.ts'
import { applyChanges, type PlanChange, type Plannable } from '#core/planning/optimiser/changes.ts'
import { NO_RULES, type PlanRules } from '#core/planning/optimiser/plan-rules.ts'
import { instantOf, localDateOf, MINUTES_PER_DAY } from '#core/units/time.ts'
import { type RecordFault, refused } from './record-faults.ts'
import { findPerson } from './record-lookup.ts'
import { type Answer, answerToResend, type Book, isKey, LONGEST_KEY } from './records.ts'
import type { FarmRecord, RecordStore, Standing } from './records-port.ts'

const DAYS_IN_WEEK = 7

/**
 * Keeps a decision.
 *
 * @param key makes sending it again harmless; left out, it is made from what was decided, by whom and when.
 */
export async function decide(book: Book, change: PlanChange, by: string, key?: string): Promise<Answer<'decision'>> {
  const { farm, store, nowEpochH } = book
  const who = findPerson(farm, by)
  if (who === '') return refused({ code: 'who-missing' })
  const named = key ?? `${change.kind}@${instantOf(nowEpochH).toString()}/${subjectOf(change)}/${who}`
  if (!isKey(named, who)) return refused({ code: 'key-impossible', said: named, longest: LONGEST_KEY })
  const part = partOfKey(farm, partOf(change))
  const record: FarmRecord<'decision'> = {
    farmId: farm.id,
    kind: 'decision',
    key: named,
    fieldId: part?.field.id ?? '',
    atEpochH: nowEpochH,
    by: who,
    toldAtEpochH: nowEpochH,
    body: change,
  }
  // A resend gets the first answer, whatever has come of it since.
  const before = await store.find(farm.id, 'decision', named)
  if (before) return answerToResend(record, before, [])
  const fault = faultOfChange(change, farm, localDateOf(nowEpochH, farm.timeZone))
  if (fault) return refused(fault)
  const kept = await store.keep(record)
  return kept.kind === 'kept' ? { kind: 'kept', record } : answerToResend(record, kept.record, [])
}

/**
 * The farm and the rules of its plan with every decision that holds, in the order they were made. Dates that have passed
 * and decisions about last year's crop are left out.
 *
 * @param usual the rules without any decision, with what was promised for today.
 */
export async function plannableFromBook(
  farm: Farm,
  store: Pick<RecordStore, 'current'>,
  nowEpochH: number,
  usual: PlanRules = NO_RULES,
): Promise<Plannable> {
  const standing = await standingDecisions(farm, store, nowEpochH)
  return applyChanges(
    { farm, rules: usual },
    standing.map(({ body }) => body),
  )
}

/** The decisions that hold, oldest first. */
export async function standingDecisions(
  farm: Farm,
  store: Pick<RecordStore, 'current'>,
  nowEpochH: number,
): Promise<Standing<'decision'>[]> {
  const today = localDateOf(nowEpochH, farm.timeZone)
  const decisions = await store.current(farm.id, 'decision')
  return decisions.filter((decision) => ofThisCrop(decision, farm) && !isPast(decision.body, today))
}

function ofThisCrop({ body, atEpochH }: Standing<'decision'>, farm: Farm): boolean {
  const partKey = partOf(body)
  if (partKey === undefined) return true
  const part = partOfKey(farm, partKey)
  return part !== undefined && atEpochH >= seasonStart(part.field)
}

function isPast(change: PlanChange, today: Temporal.PlainDate): boolean {
  const last = lastDateOf(change)
  return last !== undefined && Temporal.PlainDate.compare(last, today) < 0
}

function lastDateOf(change: PlanChange): Temporal.PlainDate | undefined {
  switch (change.kind) {
    case 'pin':
      return change.pin.date
    case 'keep-off':
      return change.keepOff.to
    // A deadline missed still presses.
    default:
      return undefined
  }
}

export function partOf(change: PlanChange): string | undefined {
  switch (change.kind) {
    case 'pin':
      return change.pin.partKey
    case 'keep-off':
      return change.keepOff.partKey
    case 'deadline':
      return change.deadline.partKey
    case 'unpin':
    case 'allow':
      return change.partKey
    default:
      return undefined
  }
}

function outfitOf(change: PlanChange): string | undefined {
  switch (change.kind) {
    case 'pin':
      return change.pin.outfitId
    case 'hours':
    case 'days-off':
    case 'add-cart':
    case 'add-truck':
    case 'drop-outfit':
      return change.outfitId
    default:
      return undefined
  }
}

const subjectOf = (change: PlanChange): string =>
  partOf(change) ?? outfitOf(change) ?? (change.kind === 'add-outfit' ? change.outfit.id : '')

/** Why a change can't be decided on this farm; nothing where it can. */
export function faultOfChange(change: PlanChange, farm: Farm, today: Temporal.PlainDate): RecordFault | undefined {
  const partKey = partOf(change)
  const part = partOfKey(farm, partKey)
  if (partKey !== undefined && !part) {
    return { code: 'unknown-field', said: partKey, known: farm.fields.map(({ name }) => name) }
  }
  const last = lastDateOf(change)
  if (last && isPast(change, today)) return { code: 'date-past', said: last }
  if (change.kind === 'keep-off' && Temporal.PlainDate.compare(change.keepOff.from, change.keepOff.to) > 0) {
    return { code: 'dates-turned', from: change.keepOff.from, to: change.keepOff.to }
  }
  if (change.kind === 'pin' && part && change.pin.areaHa !== undefined) {
    const { areaHa } = change.pin
    if (!(areaHa > 0)) return { code: 'area-impossible', areaHa }
    if (areaHa > part.areaHa) return { code: 'area-too-large', areaHa, standingHa: part.areaHa }
  }
  return outfitFault(change, farm)
}

function outfitFault(change: PlanChange, { outfits }: Farm): RecordFault | undefined {
  const outfitId = outfitOf(change)
  if (outfitId !== undefined && !outfits.some(({ id }) => id === outfitId)) {
    return { code: 'unknown-outfit', said: outfitId, known: outfits.map(({ id }) => id) }
  }
  switch (change.kind) {
    case 'hours': {
      const { startMinute, endMinute } = change
      const holds = startMinute >= 0 && startMinute < endMinute && endMinute <= MINUTES_PER_DAY
      return holds ? undefined : { code: 'hours-impossible' }
    }
    case 'days-off': {
      const said = change.daysOff.find((day) => !(Number.isInteger(day) && day >= 1 && day <= DAYS_IN_WEEK))
      return said === undefined ? undefined : { code: 'weekday-impossible', said }
    }
    case 'add-outfit': {
      const { id } = change.outfit
      return outfits.some((one) => one.id === id) ? { code: 'outfit-exists', said: id } : undefined
    }
    default:
      return undefined
  }
}
