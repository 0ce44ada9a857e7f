/** From outlooks and terms to money: what a hectare of a part brings if it is cut in a block, course by course. */
import type { Outlook } from '#core/outlook/outlook.ts'
import { paceAt } from '#core/outlook/pace.ts'
import { headerLossFraction } from '#core/science/loss/header.ts'
import type { PaymentTerms } from '#core/science/money/terms.ts'
import { valuePerHa } from '#core/science/money/value.ts'
import { overlapH, type Span } from './blocks.ts'
import { isFit } from './fit.ts'
import type { Block } from './problem.ts'

/** Money for a hectare cut in an hour of a course [money/ha]. */
export function worthAt(outlook: Outlook, terms: PaymentTerms, course: number, hour: number): number {
  const i = course * outlook.hours + hour
  const moistureWb = outlook.moistureWb[i]!
  return valuePerHa({
    usualYieldTHa: outlook.part.field.usualYieldTHa,
    terms,
    moistureWb,
    standingLoss: outlook.standingLoss[i]!,
    headerLoss: headerLossFraction(outlook.part.field.crop, moistureWb),
  })
}

/**
 * Mean over the fit hours of a block in which any crew is out.
 *
 * @param out when crews are out, in any order. @returns [money/ha]; NaN when no hour is fit.
 */
export function blockWorth(
  outlook: Outlook,
  terms: PaymentTerms,
  course: number,
  block: Block,
  out: readonly Span[],
): number {
  let sum = 0
  let weights = 0
  for (const hour of hoursOf(outlook, block)) {
    if (!isFit(outlook, course, hour)) continue
    const at = outlook.startEpochH + hour
    const weight = Math.max(
      0,
      ...out.map((span) => overlapH(span, Math.max(at, block.startEpochH), Math.min(at + 1, block.endEpochH))),
    )
    if (weight === 0) continue
    sum += weight * worthAt(outlook, terms, course, hour)
    weights += weight
  }
  return weights > 0 ? sum / weights : Number.NaN
}

/** Fit hours of a course within a block and a span, at the usual pace: slower ones count for less [h]. */
export function fitHours(outlook: Outlook, course: number, block: Block, span: Span): number {
  let sum = 0
  for (const hour of hoursOf(outlook, block)) {
    if (!isFit(outlook, course, hour)) continue
    const at = outlook.startEpochH + hour
    const lastsH = overlapH(span, Math.max(at, block.startEpochH), Math.min(at + 1, block.endEpochH))
    sum += lastsH * paceAt(outlook, hour)
  }
  return sum
}

/**
 * Moisture at which a part is likely to be cut when it is not cut in the outlook [% wet basis]: the mean of its fit hours,
 * for what is as dry as it gets will not be bought wetter by waiting; the top of its band where it was never fit.
 */
export function usualFitMoistureWb(outlook: Outlook, courses: readonly number[]): number {
  let sum = 0
  let count = 0
  for (const course of courses) {
    for (let h = 0; h < outlook.hours; h++) {
      if (!isFit(outlook, course, h)) continue
      sum += outlook.moistureWb[course * outlook.hours + h]!
      count++
    }
  }
  return count > 0 ? sum / count : outlook.part.field.band.highWb
}

function* hoursOf(outlook: Outlook, block: Block): Generator<number> {
  const from = Math.max(0, Math.floor(block.startEpochH - outlook.startEpochH))
  const to = Math.min(outlook.hours, Math.ceil(block.endEpochH - outlook.startEpochH))
  for (let hour = from; hour < to; hour++) yield hour
}
