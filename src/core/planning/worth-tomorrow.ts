/** What each part gains by being cut on a day rather than after it, course by course: what a reading of it may turn. */

import { sampleSdWb, USUAL_SD_WB } from '#core/field/filter/reading-error.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { Measurable } from '#core/outlook/worth-measuring.ts'
import { epochHoursAtMinute, HOURS_PER_DAY } from '#core/units/time.ts'
import { crewsOut } from './crews-out.ts'
import { termsFor } from './first-plan.ts'
import { worthAt } from './optimiser/coefficients.ts'
import { isFit } from './optimiser/fit.ts'
import { rateIn } from './optimiser/rate-in.ts'

/** What is not cut on the day is cut in the days after it: about one round of the fields (common practice, no source). */
const LATER_DAYS = 4
/** When somebody goes to measure, before the day's work (common practice, no source) [min after midnight]. */
const MEASURED_MINUTE = 9 * 60
const HAND_METER = { kind: 'hand', sdWb: USUAL_SD_WB.hand } as const

/** @param leftHa what will stand by then, by part key [ha]. @returns the parts that a machine of the farm cuts and a buyer takes. */
export function measurables(
  farm: Farm,
  outlooks: readonly Outlook[],
  date: Temporal.PlainDate,
  leftHa: ReadonlyMap<string, number>,
): Measurable[] {
  const measuredEpochH = epochHoursAtMinute(date, MEASURED_MINUTE, farm.timeZone)
  const rateOf = rateIn(farm)
  const works = farm.outfits.filter(({ daysOff }) => !daysOff.includes(date.dayOfWeek))
  const span = crewsOut(farm, date)
  if (!span) return []
  return outlooks.flatMap((outlook): Measurable[] => {
    const { part, hours, courses, startEpochH } = outlook
    const terms = termsFor(part, farm)
    const measured = Math.floor(measuredEpochH - startEpochH)
    const first = Math.ceil(span.startEpochH - startEpochH)
    const last = Math.floor(span.endEpochH - startEpochH)
    if (!terms || measured < 0 || first < 0 || last >= hours) return []
    const rates = works.map((outfit) => rateOf(outfit, part, outlook.medianWb[measured]!)?.haPerH ?? 0)
    const haPerH = Math.max(...rates)
    if (!(haPerH > 0)) return []
    const areaHa = leftHa.get(part.key) ?? part.areaHa
    const gain = Float64Array.from({ length: courses }, (_, c) => {
      const day = meanWorth(outlook, c, first, last)
      if (day.fitHours === 0) return 0
      const later = meanWorth(outlook, c, last, Math.min(hours, last + LATER_DAYS * HOURS_PER_DAY))
      return Math.min(areaHa, haPerH * day.fitHours) * (day.worth - later.worth)
    })
    const moistureWb = Float64Array.from({ length: courses }, (_, c) => outlook.moistureWb[c * hours + measured]!)
    const readingSdWb = sampleSdWb(HAND_METER, outlook.medianWb[measured]!)
    return [{ partKey: part.key, gain, moistureWb, readingSdWb }]

    /** Over the fit hours of a span, or all of them where none is fit: it is then cut as it is. */
    function meanWorth(of: Outlook, course: number, begin: number, end: number) {
      let [sum, fitHours, any] = [0, 0, 0]
      for (let h = begin; h < end; h++) {
        const worth = worthAt(of, terms!, course, h)
        any += worth
        if (!isFit(of, course, h)) continue
        sum += worth
        fitHours++
      }
      return { fitHours, worth: fitHours > 0 ? sum / fitHours : any / (end - begin) }
    }
  })
}
