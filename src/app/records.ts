/**
 * Use-cases of the farm's book: take a reading, take a cut, note an event, take back. Whatever does not hold up gets a
 * clear answer and changes nothing; whatever is sent twice counts once.
 */

import type { Cut } from '#core/field/cut.ts'
import type { FieldEvent } from '#core/field/event.ts'
import { USUAL_SD_WB } from '#core/field/filter/reading-error.ts'
import type { FieldPart } from '#core/field/parts.ts'
import { HIGHEST_READING_WB, type Instrument, type InstrumentKind, LOWEST_READING_WB } from '#core/field/reading.ts'
import { ofThisSeason, seasonStart } from '#core/field/season.ts'
import { blendOf, finishedBy, uncutHa } from '#core/field/standing-area.ts'
import { partName } from '#core/messages/names.ts'
import type { Farm, Field } from '#core/operation/farm.ts'
import { instantOf } from '#core/units/time.ts'
import { MOST_LATER_DAYS, type RecordFault, refused } from './record-faults.ts'
import { findOutfit, findPart, findPerson, type Where } from './record-lookup.ts'
import { epochHoursFrom } from './record-time.ts'
import type { FarmRecord, RecordBodies, RecordKind, RecordStore } from './records-port.ts'

/** The farm with its fields as they are now known, its book, and the moment. */
export interface Book {
  readonly farm: Farm
  readonly store: RecordStore
  readonly nowEpochH: number
}

/** What every telling has. */
interface Told {
  /** Id or name of who tells it. */
  readonly by: string
  /** Makes sending it again harmless. Left out, it is made from what was told: the same words are the same record. */
  readonly key?: string | undefined
  /** Key of the record that this one corrects. */
  readonly replaces?: string | undefined
  /** As people write it (see `epochHoursFrom`), or hours since the epoch. Left out: now. */
  readonly at?: string | number | undefined
}

export interface ToldReading extends Told, Where {
  readonly moistureWb: number
  readonly instrument: {
    readonly kind: InstrumentKind
    readonly id?: string | undefined
    readonly sdWb?: number | undefined
    readonly offsetWb?: number | undefined
  }
}

export interface ToldCut extends Told, Where {
  /** May be left out where the part is done: then it is what was left. */
  readonly areaHa?: number | undefined
  readonly done?: boolean | undefined
  readonly massT?: number | undefined
  readonly moistureWb?: number | undefined
  /** Id or name; may be left out where the farm has only one. */
  readonly outfit?: string | undefined
}

export interface ToldEvent extends Told, Where {
  readonly kind: FieldEvent['kind']
  /** For `regreened` [d]. */
  readonly laterDays?: number | undefined
}

export type Answer<K extends RecordKind> =
  | { readonly kind: 'kept' | 'known'; readonly record: FarmRecord<K> }
  | { readonly kind: 'refused'; readonly fault: RecordFault }

/** Clocks of phones and machines differ by a little [h]. */
const CLOCK_SLACK_H = 0.25
const LARGEST_OFFSET_WB = 5
const LARGEST_ERROR_WB = 5
export const LONGEST_KEY = 200
/** A header driven beyond the drawn edge, and areas drawn by hand, give so much more than what stands. */
const AREA_SLACK_SHARE = 0.1
const AREA_SLACK_HA = 0.5
/** No grain crop yields more [t/ha]. */
const MOST_T_PER_HA = 30

export async function takeReading(book: Book, told: ToldReading): Promise<Answer<'reading'>> {
  const part = findPart(book.farm, told)
  if ('code' in part) return refused(part)
  const { moistureWb } = told
  if (!moistureHolds(moistureWb)) return refused(moistureFault(moistureWb))
  const { kind, id, sdWb = USUAL_SD_WB[kind], offsetWb } = told.instrument
  if (!(sdWb > 0 && sdWb <= LARGEST_ERROR_WB)) {
    return refused({ code: 'error-impossible', said: sdWb, largest: LARGEST_ERROR_WB })
  }
  if (offsetWb !== undefined && !(Math.abs(offsetWb) <= LARGEST_OFFSET_WB)) {
    return refused({ code: 'offset-impossible', said: offsetWb, largest: LARGEST_OFFSET_WB })
  }
  const instrument: Instrument = {
    id: id ?? (kind === 'ticket' ? part.field.buyerId : kind),
    kind,
    sdWb,
    ...(offsetWb === undefined ? {} : { offsetWb }),
  }
  const blend = kind === 'ticket' ? blendOf(part) : []
  return await tell(book, 'reading', told, part, {
    content: `${instrument.id}/${moistureWb}`,
    bodyOf: (base) => ({ ...base, moistureWb, instrument, ...(blend.length > 0 ? { blend } : {}) }),
  })
}

export async function takeCut(book: Book, told: ToldCut): Promise<Answer<'cut'>> {
  const part = findPart(book.farm, told)
  if ('code' in part) return refused(part)
  const { massT, moistureWb, done = false } = told
  const outfit = findOutfit(book.farm, told.outfit)
  if ('code' in outfit) return refused(outfit)
  if (moistureWb !== undefined && !moistureHolds(moistureWb)) return refused(moistureFault(moistureWb))
  const uncut = uncutHa(part, await cutsWithout(book, told.replaces))
  const areaHa = told.areaHa ?? (done ? Math.max(0, uncut) : Number.NaN)
  if (!(areaHa > 0 || (done && areaHa === 0)) || areaHa === Number.POSITIVE_INFINITY) {
    return refused({ code: 'area-impossible', areaHa })
  }
  if (massT !== undefined && !(massT > 0 && massT <= areaHa * MOST_T_PER_HA)) {
    return refused({ code: 'mass-impossible', massT })
  }
  return await tell(book, 'cut', told, part, {
    content: `${outfit.id}/${told.areaHa?.toFixed(4) ?? 'done'}`,
    filledIn: told.areaHa === undefined ? ['areaHa'] : [],
    bodyOf: (base) => ({
      ...base,
      areaHa,
      outfitId: outfit.id,
      ...(done ? { done } : {}),
      ...(massT === undefined ? {} : { massT }),
      ...(moistureWb === undefined ? {} : { moistureWb }),
    }),
    check: () =>
      areaHa > Math.max(0, uncut) + AREA_SLACK_SHARE * part.areaHa + AREA_SLACK_HA
        ? { code: 'area-too-large', areaHa, standingHa: Math.max(0, uncut) }
        : undefined,
  })
}

export async function noteEvent(book: Book, told: ToldEvent): Promise<Answer<'event'>> {
  const part = findPart(book.farm, told)
  if ('code' in part) return refused(part)
  const { kind, laterDays = Number.NaN } = told
  if (kind === 'regreened' && !(laterDays > 0 && laterDays <= MOST_LATER_DAYS)) {
    return refused({ code: 'days-impossible', said: laterDays, largest: MOST_LATER_DAYS })
  }
  return await tell(book, 'event', told, part, {
    content: kind,
    bodyOf: (base) => (kind === 'regreened' ? { ...base, kind, laterDays } : { ...base, kind }),
  })
}

/** Takes back what was told under a key; it stays in the book as taken back. */
export async function takeBack<K extends 'reading' | 'cut' | 'event' | 'decision'>(
  book: Book,
  kind: K,
  replaces: string,
  by: string,
): Promise<Answer<K>> {
  const was = await book.store.find(book.farm.id, kind, replaces)
  if (!was) return refused({ code: 'unknown-record', said: replaces })
  const who = findPerson(book.farm, by)
  if (who === '') return refused({ code: 'who-missing' })
  const record: FarmRecord<K> = {
    farmId: book.farm.id,
    kind,
    key: `${replaces}/taken-back`,
    fieldId: was.fieldId,
    atEpochH: was.atEpochH,
    by: who,
    toldAtEpochH: book.nowEpochH,
    replaces,
  }
  const kept = await book.store.keep(record)
  if (kept.kind === 'overtaken') return refused({ code: 'already-replaced', key: replaces, by: kept.record.key })
  return kept.kind === 'kept' ? { kind: 'kept', record } : { kind: 'known', record: kept.record }
}

interface Base {
  readonly id: string
  readonly partKey: string
  readonly atEpochH: number
  readonly who: string
}

interface Telling<K extends RecordKind> {
  /** Stands in the key made for it when none was given. */
  readonly content: string
  readonly bodyOf: (base: Base) => RecordBodies[K]
  /** Parts of the body that were not told but filled in here: a resend may differ in them. */
  readonly filledIn?: readonly string[]
  /** What must hold for something new, beyond what is common to all. */
  readonly check?: () => RecordFault | undefined
}

/** What all tellings share: who, when and under which key, checked, and then one durable write. */
async function tell<K extends 'reading' | 'cut' | 'event'>(
  book: Book,
  kind: K,
  told: Told,
  part: FieldPart,
  { content, bodyOf, filledIn = [], check }: Telling<K>,
): Promise<Answer<K>> {
  const { farm, store, nowEpochH } = book
  const who = findPerson(farm, told.by)
  if (who === '') return refused({ code: 'who-missing' })
  const { at = nowEpochH, replaces } = told
  const atEpochH = typeof at === 'number' ? at : epochHoursFrom(at, farm.timeZone)
  if (!Number.isFinite(atEpochH)) return refused({ code: 'time-unreadable', said: String(at) })
  const timeFault = checkTime(part.field, atEpochH, nowEpochH)
  if (timeFault) return refused(timeFault)
  const key = told.key ?? `${part.key}@${instantOf(atEpochH).toString()}/${content}/${who}`
  if (!isKey(key, who)) {
    return refused({ code: 'key-impossible', said: key, longest: LONGEST_KEY })
  }
  const record: FarmRecord<K> = {
    farmId: farm.id,
    kind,
    key,
    fieldId: part.field.id,
    atEpochH,
    by: who,
    toldAtEpochH: nowEpochH,
    ...(replaces === undefined ? {} : { replaces }),
    body: bodyOf({ id: key, partKey: part.key, atEpochH, who }),
  }
  const mayDiffer = told.at === undefined ? [...filledIn, 'atEpochH'] : filledIn
  // A resend gets the first answer, whatever has happened to the field in between.
  const before = await store.find(farm.id, kind, key)
  if (before) return answerToResend(record, before, mayDiffer)
  if (replaces !== undefined && !(await store.find(farm.id, kind, replaces))) {
    return refused({ code: 'unknown-record', said: replaces })
  }
  const finishedEpochH = finishedBy(part, await cutsWithout(book, kind === 'cut' ? replaces : undefined), farm.timeZone)
  // The last load's ticket carries the moment of the last cut; what is told of now comes after it.
  if (atEpochH > finishedEpochH || (told.at === undefined && atEpochH === finishedEpochH)) {
    return refused({ code: 'part-finished', partName: partName(part), finishedEpochH })
  }
  const fault = check?.()
  if (fault) return refused(fault)
  const kept = await store.keep(record)
  if (kept.kind === 'kept') return { kind: 'kept', record }
  if (kept.kind === 'known') return answerToResend(record, kept.record, mayDiffer)
  return refused({ code: 'already-replaced', key: replaces!, by: kept.record.key })
}

/** Printable, no spaces at its ends, not endless; who tells it must be printable too. */
export const isKey = (key: string, who: string): boolean =>
  key.trim() === key && key !== '' && key.length <= LONGEST_KEY && !/\p{Cc}/u.test(key + who)

/** What stands under the key was sent before, or is something else. @param mayDiffer parts of the body filled in here. */
export function answerToResend<K extends RecordKind>(
  sent: FarmRecord<K>,
  stands: FarmRecord<K>,
  mayDiffer: readonly string[],
): Answer<K> {
  const told = ({ body, replaces }: FarmRecord<K>) =>
    JSON.stringify([replaces, body], (name, value) => (mayDiffer.includes(name) ? undefined : value))
  if (told(sent) === told(stands)) return { kind: 'known', record: stands }
  return refused({ code: 'key-taken', key: stands.key, atEpochH: stands.atEpochH, by: stands.by })
}

const moistureHolds = (wb: number): boolean => wb >= LOWEST_READING_WB && wb <= HIGHEST_READING_WB

const moistureFault = (said: number): RecordFault => ({
  code: 'moisture-impossible',
  said,
  lowest: LOWEST_READING_WB,
  highest: HIGHEST_READING_WB,
})

function checkTime(field: Field, atEpochH: number, nowEpochH: number): RecordFault | undefined {
  if (atEpochH > nowEpochH + CLOCK_SLACK_H) return { code: 'time-ahead', atEpochH, nowEpochH }
  return atEpochH < seasonStart(field) ? { code: 'before-planting', atEpochH, plantedOn: field.plantedOn } : undefined
}

async function cutsWithout({ farm, store }: Book, replaced: string | undefined): Promise<Cut[]> {
  const records = await store.current(farm.id, 'cut')
  const cuts = records.filter(({ key }) => key !== replaced).map(({ body }) => body)
  return ofThisSeason(farm, cuts)
}
