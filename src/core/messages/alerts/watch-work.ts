/** The work itself: dust that blinds the line, and a plan that is no longer the one told. */

import { partName } from '#core/messages/names.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import { dustThrough } from '#core/outlook/day-dust.ts'
import type { Visibility } from '#core/science/dust/sight.ts'
import type { AlertReading } from './alert.ts'
import type { ToldRun } from './told.ts'
import { type Look, outlookOf, underWay } from './watch-input.ts'

const SIGHT: Record<Visibility, number> = { clear: 0, thin: 1, poor: 2, blind: 3 }
const DUST_SPAN_H = 2

/** Evidence: sight along the rows, or along the passes as told, with the wind of the next two hours. */
export function dust(look: Look): AlertReading[] {
  const { farm, day, nowEpochH, told } = look
  const run = underWay(look, 0)[0]
  const outlook = run && outlookOf(look, run)
  if (!run || !outlook) return []
  const { field } = outlook.part
  const head = farm.outfits
    .flatMap(({ combines }) => combines.flatMap(({ heads }) => heads))
    .find(({ crops }) => crops.includes(field.crop))
  const found = head && dustThrough(day.ahead, field, head, nowEpochH, nowEpochH + DUST_SPAN_H)
  if (!found) return []
  const { wind, advice } = found
  // Where no rows bind it, a crew can always turn across the wind: what blinds is going on along it.
  const sight = advice.rows?.visibility ?? advice.along
  const worseThanTold = told.sight === undefined || SIGHT[sight] > SIGHT[told.sight]
  return [
    {
      kind: 'dust',
      subject: '',
      evidence: SIGHT[sight],
      mayStart: worseThanTold,
      said: {
        kind: 'dust',
        partName: run.partName,
        windFromDeg: wind.windFromDeg,
        windMs: wind.meanWindMs,
        sight,
        preferBearingDeg: advice.preferBearingDeg,
        rowsFixed: advice.rows !== undefined,
        untilEpochH: nowEpochH + DUST_SPAN_H,
      },
    },
  ]
}

/** A run that was told counts as dropped only when so much of it is left [h]. */
const LEAST_LEFT_H = 1

/** One for each outfit; evidence: 1 when its run of now or next is none of those it was told, or none is left while one was told. */
export function planChanged(look: Look): AlertReading[] {
  const { outfits } = look.farm
  const [first] = outfits
  return outfits.map((outfit) => {
    const told = look.told.runs.filter(({ outfitId = first?.id }) => outfitId === outfit.id)
    return changeOf(look, outfit, told, outfits.length > 1)
  })
}

/** What is no longer of interest once the day's work is over, by outfit as `planChanged` has it. */
export const planSubjects = ({ outfits }: Farm): readonly string[] =>
  outfits.length > 1 ? outfits.map(({ id }) => id) : ['']

function changeOf(
  { day, nowEpochH }: Look,
  outfit: Outfit,
  told: readonly ToldRun[],
  isOneOfMany: boolean,
): AlertReading {
  const run = day.plan.runs.find(({ outfitId, endEpochH }) => outfitId === outfit.id && endEpochH > nowEpochH)
  const was = told.find(({ endEpochH }) => endEpochH >= nowEpochH + LEAST_LEFT_H)
  const other = run !== undefined && was !== undefined && told.every(({ partKey }) => partKey !== run.part.key)
  const dropped = run === undefined && was !== undefined
  return {
    kind: 'plan-changed',
    subject: isOneOfMany ? outfit.id : '',
    evidence: other || dropped ? 1 : 0,
    mayStart: true,
    said: {
      kind: 'plan-changed',
      ...(isOneOfMany && { outfitName: outfit.name }),
      was: was?.partName ?? '',
      now: run && { partName: partName(run.part), startEpochH: run.startEpochH, endEpochH: run.endEpochH },
    },
  }
}
