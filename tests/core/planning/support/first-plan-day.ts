/** A day for the first plan: outlooks made by hand, and how its plan is told. */
import type { FieldPart } from '#core/field/parts.ts'
import type { Farm, Field, Outfit } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { bulkDensityKgM3 } from '#core/planning/capacity/cutting.ts'
import { outfitRate } from '#core/planning/capacity/outfit.ts'
import { firstPlan } from '#core/planning/first-plan.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { massAtMoisture } from '#core/science/money/shrink.ts'
import { epochHoursAtMinute } from '#core/units/time.ts'
import { testField } from '#tests/support/fields.ts'
import { type HandMade, handOutlook } from '#tests/support/outlooks.ts'

export const DATE = Temporal.PlainDate.from('2010-09-30')
export const HOURS = 24 * 8
export const EPSILON = 1e-6

export const rateIn = (outfit: Outfit, part: FieldPart, moistureWb: number) => {
  const rate = outfitRate({
    outfit,
    crop: part.field.crop,
    yieldTHa: massAtMoisture(part.field.usualYieldTHa, 13, moistureWb),
    grainKgM3: bulkDensityKgM3(part.field.crop),
    haulKm: part.field.haulKm,
    turnaroundMin: 20,
  })
  return rate.cutHaPerH > 0 ? rate : undefined
}

export function plan(
  farm: Farm,
  outlooks: readonly Outlook[],
  nowEpochH: number,
  standingHa = new Map<string, number>(),
  date = DATE,
): DayPlan {
  return firstPlan({ farm, outlooks, date, nowEpochH, standingHa, rateOf: rateIn })
}

export const midnight = (timeZone = 'America/Chicago', date = DATE) => epochHoursAtMinute(date, 0, timeZone)

export interface Given extends Partial<Omit<HandMade, 'part'>> {
  readonly field?: Partial<Field>
}

/** Outlooks from midnight on: fit from 10 to 20 each day unless told otherwise. */
export const outlookOf = (id: string, { field, ...more }: Given = {}): Outlook => {
  const made = testField({ id, name: id, ...field })
  return handOutlook({
    part: { key: id, field: made, areaHa: made.areaHa },
    startEpochH: midnight(),
    hours: HOURS,
    fitShare: (h) => (h % 24 >= 10 && h % 24 < 20 ? 1 : 0),
    ...more,
  })
}

export const clock = (epochH: number) => (epochH - midnight()).toFixed(2)
export const told = ({ runs }: DayPlan) =>
  runs.map((run) => `${run.part.key} ${clock(run.startEpochH)}-${clock(run.endEpochH)} ${run.areaHa.toFixed(1)} ha`)
