/**
 * Re-check of a day's runs against the farm and the outlooks themselves, apart from model, solver and timing: no plan is
 * published that breaks one of these.
 */

import type { FieldPart } from '#core/field/parts.ts'
import type { Buyer, Farm, Outfit } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { openHours } from '#core/planning/capacity/buyer.ts'
import type { OutfitRate } from '#core/planning/capacity/outfit.ts'
import { moveHours } from '#core/planning/moving.ts'
import type { DayPlan, Run } from '#core/planning/plan.ts'
import { massAtMoisture } from '#core/science/money/shrink.ts'
import { epochHoursAtMinute, HOURS_PER_DAY } from '#core/units/time.ts'
import { isFit } from './fit.ts'
import type { PlanRules } from './plan-rules.ts'

export const DAY_RULES = [
  'not-a-number',
  'unknown-part',
  'already-cut',
  'no-head',
  'day-off',
  'outside-crew-hours',
  'overlap',
  'no-time-to-move',
  'not-fit',
  'too-fast',
  'more-than-stands',
  'buyer-closed',
  'buyer-full',
  'wheels-full',
  'kept-off',
  'pin-unheard',
  'too-many-outfits',
] as const
export type DayRule = (typeof DAY_RULES)[number]

export interface BrokenDayRule {
  readonly rule: DayRule
  readonly partKey: string
  readonly outfitId: string
}

export interface DayCheck {
  readonly farm: Farm
  readonly outlooks: readonly Outlook[]
  readonly standingHa: ReadonlyMap<string, number>
  readonly rateOf: (outfit: Outfit, part: FieldPart, moistureWb: number) => OutfitRate | undefined
  readonly at: ReadonlyMap<string, FieldPart>
  readonly nowEpochH: number
  readonly rules: PlanRules
}

/** Rounding [h, ha, t]. */
const SLACK = 1e-6
/** Less than this is not run [ha]. */
const SLIVER_HA = 0.2
/** An hour is fit when at least half of the courses say so; its edges may lie inside it. */
const LIKELY = 0.5
/** Rates depend on moisture a little, and the plan takes one for the day. */
const RATE_SLACK = 0.02
const DRYER_SLACK = 1.1

export function brokenDayRules(plan: DayPlan, check: DayCheck): BrokenDayRule[] {
  const broken: BrokenDayRule[] = []
  for (const run of plan.runs) {
    for (const rule of runFaults(run, plan.date, check)) {
      broken.push({ rule, partKey: run.part.key, outfitId: run.outfitId })
    }
  }
  return [...broken, ...betweenRuns(plan, check), ...together(plan, check), ...pinsUnheard(plan, check)]
}

function runFaults(run: Run, date: Temporal.PlainDate, check: DayCheck): DayRule[] {
  const { farm } = check
  const faults: DayRule[] = []
  const { startEpochH, endEpochH, areaHa } = run
  if (![startEpochH, endEpochH, areaHa, run.massT, run.volumeL].every(Number.isFinite) || endEpochH < startEpochH) {
    return ['not-a-number']
  }
  const outfit = farm.outfits.find(({ id }) => id === run.outfitId)
  const outlook = check.outlooks.find(({ part }) => part.key === run.part.key)
  if (!outfit || !outlook) return ['unknown-part']
  const { field } = outlook.part
  if (field.cutOn && Temporal.PlainDate.compare(field.cutOn, date) <= 0) faults.push('already-cut')
  const rate = check.rateOf(outfit, outlook.part, run.startMoistureWb)
  if (!outfit.combines.some(({ heads }) => heads.some(({ crops }) => crops.includes(field.crop))) || !rate) {
    faults.push('no-head')
  } else if (areaHa > rate.haPerH * (endEpochH - startEpochH) * (1 + RATE_SLACK) + SLACK) faults.push('too-fast')
  if (outfit.daysOff.includes(date.dayOfWeek)) faults.push('day-off')
  const clock = (minute: number) => epochHoursAtMinute(date, minute, farm.timeZone)
  const from = Math.max(check.nowEpochH, clock(outfit.crewHours.startMinute))
  if (startEpochH < from - SLACK || endEpochH > clock(outfit.crewHours.endMinute) + SLACK) {
    faults.push('outside-crew-hours')
  }
  if (!fitThroughout(outlook, startEpochH, endEpochH)) faults.push('not-fit')
  const buyer = farm.buyers.find(({ id }) => id === field.buyerId)
  if (buyer?.closedOn.includes(date.dayOfWeek)) faults.push('buyer-closed')
  const keptOff = check.rules.keepOffs.some(
    ({ partKey, from: first, to }) =>
      partKey === run.part.key &&
      Temporal.PlainDate.compare(first, date) <= 0 &&
      Temporal.PlainDate.compare(date, to) <= 0,
  )
  if (keptOff) faults.push('kept-off')
  return faults
}

function fitThroughout(outlook: Outlook, start: number, end: number): boolean {
  const first = Math.floor(start - outlook.startEpochH + SLACK)
  const last = Math.ceil(end - outlook.startEpochH - SLACK)
  if (first < 0 || last > outlook.hours) return false
  for (let h = first; h < last; h++) {
    let fit = 0
    for (let c = 0; c < outlook.courses; c++) if (isFit(outlook, c, h)) fit++
    if (fit < LIKELY * outlook.courses) return false
  }
  return true
}

function betweenRuns(plan: DayPlan, { farm, at }: DayCheck): BrokenDayRule[] {
  const broken: BrokenDayRule[] = []
  for (const outfit of farm.outfits) {
    const own = plan.runs.filter(({ outfitId }) => outfitId === outfit.id).sort((a, b) => a.startEpochH - b.startEpochH)
    const start = epochHoursAtMinute(plan.date, outfit.crewHours.startMinute, farm.timeZone)
    let before = { endEpochH: start, part: at.get(outfit.id) }
    for (const run of own) {
      const gapH = run.startEpochH - before.endEpochH
      const place = { partKey: run.part.key, outfitId: outfit.id }
      if (gapH < -SLACK) broken.push({ rule: 'overlap', ...place })
      else if (gapH < moveHours(before.part, run.part) - SLACK) broken.push({ rule: 'no-time-to-move', ...place })
      before = run
    }
  }
  return broken
}

/** What runs share: the standing area, the buyer's day, the wheels after hours, the room in a field. */
function together({ runs, date }: DayPlan, check: DayCheck): BrokenDayRule[] {
  const { farm } = check
  const broken: BrokenDayRule[] = []
  for (const [partKey, own] of Map.groupBy(runs, ({ part }) => part.key)) {
    const cutHa = own.reduce((sum, { areaHa }) => sum + areaHa, 0)
    const standsHa = check.standingHa.get(partKey) ?? own[0]!.part.areaHa
    const outfitId = own[0]!.outfitId
    if (cutHa > standsHa + SLACK) broken.push({ rule: 'more-than-stands', partKey, outfitId })
    const outfits = new Set(own.map((run) => run.outfitId)).size
    const pinned = new Set(check.rules.pins.filter((pin) => pin.partKey === partKey).map((pin) => pin.outfitId)).size
    if (outfits > Math.max(check.rules.outfitsPerField, pinned)) {
      broken.push({ rule: 'too-many-outfits', partKey, outfitId })
    }
  }
  for (const buyer of farm.buyers) {
    const sold = runs.filter(({ part }) => part.field.buyerId === buyer.id)
    const t = sold.reduce((sum, { massT }) => sum + massT, 0)
    const pitT = (buyer.pitTPerH ?? Number.POSITIVE_INFINITY) * openHours(buyer)
    if (t > Math.min(buyer.dailyT ?? Number.POSITIVE_INFINITY, pitT) + SLACK || overDryer(buyer, sold)) {
      broken.push({ rule: 'buyer-full', partKey: sold[0]!.part.key, outfitId: sold[0]!.outfitId })
    }
  }
  for (const outfit of farm.outfits) {
    const wheelsL =
      [...outfit.trucks, ...outfit.carts].reduce((sum, { capacityL }) => sum + capacityL, 0) +
      outfit.combines.reduce((sum, { tankL }) => sum + tankL, 0)
    let loadedL = 0
    for (const run of runs.filter(({ outfitId }) => outfitId === outfit.id)) {
      const buyer = farm.buyers.find(({ id }) => id === run.part.field.buyerId)
      if (!buyer || outfit.trucks.length === 0) continue
      const shuts = epochHoursAtMinute(date, buyer.hours.closeMinute, farm.timeZone)
      const lateH = Math.max(0, run.endEpochH - Math.max(run.startEpochH, shuts))
      const lasts = run.endEpochH - run.startEpochH
      if (lasts > 0) loadedL += (run.volumeL * lateH) / lasts
      // Volume of a run goes with its moisture, the limit with that of the hour the rate was taken at.
      if (loadedL > wheelsL * 1.1) broken.push({ rule: 'wheels-full', partKey: run.part.key, outfitId: outfit.id })
    }
  }
  return broken
}

/** More water than a dryer takes out in a day. Runs get drier as they go, and the plan takes one moisture for each. */
function overDryer(buyer: Buyer, sold: readonly Run[]): boolean {
  const { dryer, terms } = buyer
  if (!dryer) return false
  const wet = sold.map(({ part, massT, startMoistureWb, endMoistureWb }) => {
    const standard = terms.find(({ crop }) => crop === part.field.crop)?.standardMoistureWb ?? Number.NaN
    const middleWb = (startMoistureWb + endMoistureWb) / 2
    return Math.max(0, middleWb - standard) * massAtMoisture(massT, standard, middleWb)
  })
  return wet.reduce((sum, tPoints) => sum + tPoints, 0) > dryer.tPointsPerH * HOURS_PER_DAY * DRYER_SLACK
}

/** A pin for today must be run where something stands and an outfit with a head has an hour in which it is fit. */
function pinsUnheard({ runs, date }: DayPlan, check: DayCheck): BrokenDayRule[] {
  const { rules, outlooks, farm, nowEpochH, standingHa, rateOf } = check
  return rules.pins.flatMap(({ partKey, date: pinned, outfitId }): BrokenDayRule[] => {
    if (!pinned.equals(date)) return []
    const heard = runs.some((run) => run.part.key === partKey && (outfitId === undefined || run.outfitId === outfitId))
    const outlook = outlooks.find(({ part }) => part.key === partKey)
    if (heard || !outlook || (standingHa.get(partKey) ?? outlook.part.areaHa) <= SLIVER_HA) return []
    const outfits = farm.outfits.filter(
      (outfit) =>
        (outfitId === undefined || outfit.id === outfitId) &&
        !outfit.daysOff.includes(date.dayOfWeek) &&
        rateOf(outfit, outlook.part, outlook.part.field.band.highWb) !== undefined,
    )
    const possible = outfits.some((outfit) => {
      const clock = (minute: number) => epochHoursAtMinute(date, minute, farm.timeZone)
      const from = Math.max(nowEpochH, clock(outfit.crewHours.startMinute))
      const to = clock(outfit.crewHours.endMinute)
      for (let start = Math.ceil(from); start + 1 <= to; start++)
        if (fitThroughout(outlook, start, start + 1)) return true
      return false
    })
    return possible ? [{ rule: 'pin-unheard', partKey, outfitId: outfitId ?? '' }] : []
  })
}
