/** A day foreseen and planned in another thread: what of it travels, and what is put to it again here. */

import type { DayPlanner, Prepared } from '#app/day-planner.ts'
import type { DayInput, Foreseen, Planned, ToTell } from '#app/make-day.ts'
import type { Cut } from '#core/field/cut.ts'
import type { PlanRules } from '#core/planning/optimiser/plan-rules.ts'
import type { CropName } from '#core/science/crop.ts'
import type { Thread } from './thread.ts'
import { type PlanData, planDataOf, wholeInput } from './week-thread.ts'

export const PREPARE = 'prepare'

export interface DayOrder {
  readonly input: DayInput
  readonly cuts: readonly Cut[]
  readonly rules: PlanRules
}

/** What a prepared day is without the functions in it, which don't travel. */
export interface PreparedData {
  readonly foreseen: Omit<Foreseen, 'input' | 'waterMmOf'>
  readonly waterMm: ReadonlyMap<CropName, Float32Array>
  readonly day: ToTell['day']
  readonly planned: (Omit<Planned, 'input'> & { readonly input: PlanData }) | undefined
}

export const preparedBy = (thread: Thread): DayPlanner['prepare'] => {
  return async (input, cuts, rules, signal) => {
    const order: DayOrder = { input, cuts, rules }
    return whole(await thread.ask<PreparedData>(PREPARE, order, signal), input)
  }
}

/** With its functions again. */
function whole({ foreseen, waterMm, day, planned }: PreparedData, input: DayInput): Prepared {
  const waterMmOf = (crop: CropName): Float32Array => {
    const found = waterMm.get(crop)
    if (!found) throw new RangeError(`No water was reckoned for ${crop}`)
    return found
  }
  const whole = { ...foreseen, input, waterMmOf }
  if (!planned) return { foreseen: whole, planned: { day } }
  return { foreseen: whole, planned: { day, planned: { ...planned, input: wholeInput(planned.input) } } }
}

/** @returns what can travel of a prepared day. */
export function dataOf({ foreseen, planned }: Prepared): PreparedData {
  const { input: _, waterMmOf, ...rest } = foreseen
  // The crops whose dew may be told of: those that stand, and the one taken where nothing does.
  const crops = new Set<CropName>(['soybean', ...foreseen.outlooks.map(({ part }) => part.field.crop)])
  const waterMm = new Map([...crops].map((crop) => [crop, waterMmOf(crop)]))
  const behind = planned.planned && { ...planned.planned, input: planDataOf(planned.planned.input) }
  return { foreseen: rest, waterMm, day: planned.day, planned: behind }
}
