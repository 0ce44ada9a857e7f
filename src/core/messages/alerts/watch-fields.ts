/** What happens to the grain and the ground of fields that are being cut, or wait too long. */
import { partName } from '#core/messages/names.ts'
import { HOLDBACK_BIT } from '#core/outlook/holdback.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { AlertReading } from './alert.ts'
import type { ToldRun } from './told.ts'
import { type Look, nextWindow, outlookOf, underWay, type WatchInput } from './watch-input.ts'

interface Worked {
  readonly run: ToldRun
  readonly outlook: Outlook
  readonly hour: number
}

const worked = (look: Look, leadH: number): Worked[] =>
  underWay(look, leadH).flatMap((run) => {
    const outlook = outlookOf(look, run)
    const hour = outlook ? Math.floor(look.nowEpochH - outlook.startEpochH) : -1
    return outlook && hour >= 0 && hour < outlook.hours ? [{ run, outlook, hour }] : []
  })

/** The worst of several fields, and the names of all that are beyond the limit. */
function worst<T extends { readonly evidence: number; readonly name: string }>(all: readonly T[], limit: number) {
  const sorted = all.toSorted((a, b) => b.evidence - a.evidence)
  return { first: sorted[0], names: sorted.filter(({ evidence }) => evidence >= limit).map(({ name }) => name) }
}

/** Evidence: points of moisture above the band, median, in the wettest field under way. */
export function tooWet(look: Look): AlertReading[] {
  const wet = worked(look, 0).map(({ run, outlook, hour }) => ({
    evidence: outlook.medianWb[hour]! - outlook.part.field.band.highWb,
    name: run.partName,
    outlook,
    hour,
  }))
  const { first, names } = worst(wet, 0)
  if (!first) return []
  const { field } = first.outlook.part
  return [
    {
      kind: 'too-wet',
      subject: '',
      evidence: first.evidence,
      mayStart: true,
      said: {
        kind: 'too-wet',
        partNames: names,
        crop: field.crop,
        moistureWb: first.outlook.medianWb[first.hour]!,
        limitWb: field.band.highWb,
        fitAgainEpochH: nextWindow(first.outlook, look.nowEpochH),
      },
    },
  ]
}

/** Dew is told when it is this near [h]. */
const DEW_LEAD_H = 2

/** Evidence: hours by which dew closes the window before the run was to end. */
export function dewEarly(look: Look): AlertReading[] {
  const early = worked(look, 0).flatMap(({ run, outlook, hour }) => {
    const closes = dewCloses(outlook, hour, look.nowEpochH)
    return closes === undefined || closes > look.nowEpochH + DEW_LEAD_H
      ? []
      : [{ evidence: run.endEpochH - closes, name: run.partName, closes, told: run.endEpochH }]
  })
  const { first, names } = worst(early, 0.25)
  if (!first) return []
  return [
    {
      kind: 'dew',
      subject: '',
      evidence: first.evidence,
      mayStart: true,
      said: { kind: 'dew', partNames: names, closesEpochH: first.closes, toldEpochH: first.told },
    },
  ]
}

/** When the window that is open now closes, if wet plants or tough stems close it; now, if they have. */
function dewCloses(outlook: Outlook, hour: number, nowEpochH: number): number | undefined {
  const open = outlook.windows.find((window) => window.startEpochH <= nowEpochH + 1 && window.endEpochH > nowEpochH)
  if (open) return open.closesWith === 'wet-plants' || open.closesWith === 'tough-stems' ? open.endEpochH : undefined
  const raining = shareWith(outlook, hour, HOLDBACK_BIT.rain)
  return shareWith(outlook, hour, HOLDBACK_BIT['wet-plants']) > 0.5 && raining < 0.25 ? nowEpochH : undefined
}

const SOFT_LEAD_H = 3

/** Evidence: share of the courses in which the ground of the softest field under way or next does not carry. */
export function softGround(look: Look): AlertReading[] {
  const soft = worked(look, SOFT_LEAD_H).map(({ run, outlook, hour }) => ({
    evidence: shareWith(outlook, hour, HOLDBACK_BIT['soft-ground']),
    name: run.partName,
    outlook,
    hour,
  }))
  const { first, names } = worst(soft, 0.5)
  if (!first) return []
  return [
    {
      kind: 'soft-ground',
      subject: '',
      evidence: first.evidence,
      mayStart: true,
      said: { kind: 'soft-ground', partNames: names, carriesAgainEpochH: carriesAgain(first.outlook, first.hour) },
    },
  ]
}

function carriesAgain(outlook: Outlook, hour: number): number {
  for (let h = hour; h < outlook.hours; h++) {
    if (shareWith(outlook, h, HOLDBACK_BIT['soft-ground']) < 0.5) return outlook.startEpochH + h
  }
  return Number.NaN
}

function shareWith(outlook: Outlook, hour: number, bit: number): number {
  let count = 0
  for (let c = 0; c < outlook.courses; c++) if (outlook.holdbackBits[c * outlook.hours + hour]! & bit) count++
  return count / outlook.courses
}

/** The band will be left within this time [h]. */
const DRY_LEAD_H = 36
const DRY_ON = 0.6
const MOST_NAMES = 4

/** Evidence: share of the courses in which a ripe field that is not run today falls below its band in time. */
export function overDry(look: Look): AlertReading[] {
  const run = new Set(look.told.runs.map(({ partKey }) => partKey))
  const dry = look.day.outlooks
    .filter(({ part }) => !run.has(part.key))
    .map((outlook) => ({ ...leavesBand(outlook, look.nowEpochH), name: partName(outlook.part), outlook }))
  const { first, names } = worst(dry, DRY_ON)
  if (!first) return []
  const { crop, band } = first.outlook.part.field
  return [
    {
      kind: 'over-dry',
      subject: '',
      evidence: first.evidence,
      mayStart: true,
      said: {
        kind: 'over-dry',
        partNames: names.slice(0, MOST_NAMES),
        crop,
        lowWb: band.lowWb,
        leavesEpochH: first.leavesEpochH,
      },
    },
  ]
}

/** Only what can shatter or lose by waiting dry: a part unripe in most courses is left out. */
function leavesBand(outlook: Outlook, nowEpochH: number): { evidence: number; leavesEpochH: number } {
  const { hours, courses, moistureWb, part, holdbackBits, startEpochH } = outlook
  const from = Math.max(0, Math.floor(nowEpochH - startEpochH))
  const to = Math.min(hours, from + DRY_LEAD_H)
  let below = 0
  let unripe = 0
  let first = Number.NaN
  for (let c = 0; c < courses; c++) {
    if (holdbackBits[c * hours + from]! & HOLDBACK_BIT.unripe) unripe++
    for (let h = from; h < to; h++) {
      if (!(moistureWb[c * hours + h]! < part.field.band.lowWb)) continue
      below++
      if (!(first < h)) first = h
      break
    }
  }
  const ripe = unripe < courses / 2
  return { evidence: ripe ? below / courses : 0, leavesEpochH: startEpochH + first }
}

/** Evidence: chance that a reading is wild. One machine for each reading, so that none is told twice. */
export const meters = ({ meters: all }: WatchInput): AlertReading[] =>
  all.map(({ id, partName: name, readWb, expectedWb, wildChance }) => ({
    kind: 'meter-disagrees',
    subject: id,
    evidence: wildChance,
    mayStart: true,
    said: { kind: 'meter-disagrees', partName: name, readWb, expectedWb },
  }))
