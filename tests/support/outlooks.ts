/** Outlooks set by hand: how likely each hour is fit, how moist the grain, what is lost. */
import type { FieldPart } from '#core/field/parts.ts'
import { HOLDBACK_BIT, type Holdback } from '#core/outlook/holdback.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { quantilesAcrossCourses } from '#core/outlook/quantile.ts'
import { findWindows } from '#core/outlook/windows.ts'

export const COURSES = 10

export interface HandMade {
  readonly part: FieldPart
  readonly startEpochH: number
  readonly hours: number
  /** Share of the courses in which an hour is fit, 0-1. */
  readonly fitShare: (hour: number) => number
  readonly moistureWb?: (hour: number, course: number) => number
  readonly lossPerDay?: number
  readonly heldBackBy?: Holdback
}

export function handOutlook({
  part,
  startEpochH,
  hours,
  fitShare,
  moistureWb = () => 12,
  lossPerDay = 0.01,
  heldBackBy = 'wet-grain',
}: HandMade): Outlook {
  const moisture = new Float32Array(COURSES * hours)
  const standingLoss = new Float32Array(COURSES * hours)
  const holdbackBits = new Uint16Array(COURSES * hours)
  const fitChance = new Float32Array(hours)
  for (let h = 0; h < hours; h++) {
    const courses = Math.round(fitShare(h) * COURSES)
    fitChance[h] = courses / COURSES
    for (let c = 0; c < COURSES; c++) {
      const i = c * hours + h
      moisture[i] = moistureWb(h, c)
      standingLoss[i] = Math.min(1, (lossPerDay * (h + 1)) / 24)
      holdbackBits[i] = c < courses ? 0 : HOLDBACK_BIT[heldBackBy]
    }
  }
  const [lowWb, medianWb, highWb] = quantilesAcrossCourses(moisture, COURSES, hours, [0.1, 0.5, 0.9])
  const base = {
    part,
    startEpochH,
    hours,
    courses: COURSES,
    moistureWb: moisture,
    standingLoss,
    holdbackBits,
    fitChance,
    medianWb: medianWb!,
    lowWb: lowWb!,
    highWb: highWb!,
  }
  return { ...base, windows: findWindows(base) }
}
