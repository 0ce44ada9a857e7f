/** Which hours of an outlook are fit, whoever works them: crews and daylight are the plan's own business. */
import { HOLDBACK_BIT } from '#core/outlook/holdback.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import { findWindows } from '#core/outlook/windows.ts'

const NOT_OURS = HOLDBACK_BIT['crew-off'] | HOLDBACK_BIT.dark

export const isFit = (outlook: Outlook, course: number, hour: number): boolean =>
  (outlook.holdbackBits[course * outlook.hours + hour]! & ~NOT_OURS) === 0

const NOT_THE_FIELDS = NOT_OURS | HOLDBACK_BIT['buyer-shut']

/** Fit as far as weather and crop go, whoever could take the grain. */
export const isFitByWeather = (outlook: Outlook, course: number, hour: number): boolean =>
  (outlook.holdbackBits[course * outlook.hours + hour]! & ~NOT_THE_FIELDS) === 0

/** Windows as the outlook has them, but not cut by crew hours. */
export function likelyWindows(outlook: Outlook): FitWindow[] {
  const { hours, courses } = outlook
  const holdbackBits = outlook.holdbackBits.map((bits) => bits & ~NOT_OURS)
  const fitChance = new Float32Array(hours)
  for (let h = 0; h < hours; h++) {
    let fit = 0
    for (let c = 0; c < courses; c++) if (holdbackBits[c * hours + h] === 0) fit++
    fitChance[h] = fit / courses
  }
  return findWindows({ ...outlook, holdbackBits, fitChance })
}

/**
 * Courses that stand for all: ordered by how much they let be cut in the coming days, one from the middle of each of as
 * many equal lots.
 */
export function typicalCourses(outlooks: readonly Outlook[], count: number, hours: number): number[] {
  const courses = Math.min(...outlooks.map((outlook) => outlook.courses))
  const fitHours = new Float64Array(courses)
  for (const outlook of outlooks) {
    const last = Math.min(hours, outlook.hours)
    for (let c = 0; c < courses; c++) {
      for (let h = 0; h < last; h++) if (isFit(outlook, c, h)) fitHours[c]! += outlook.part.areaHa
    }
  }
  const order = [...fitHours.keys()].sort((a, b) => fitHours[a]! - fitHours[b]! || a - b)
  const wanted = Math.min(count, courses)
  return Array.from({ length: wanted }, (_, k) => order[Math.floor(((k + 0.5) * courses) / wanted)]!)
}
