/**
 * Hours in which crews can cut in the weeks beyond the outlook.
 *
 * Of that weather nothing is known, and the outlook's own days say little of it: so a crop gets the hours it usually has
 * once it is ripe, which go with the sun, drawn a little towards what the outlook shows. Autumns differ, and a plan that
 * counts on the usual one waits too long: each member gets an autumn of its own, from a bad one to a good one.
 */
import type { Outlook } from '#core/outlook/outlook.ts'
import { extraterrestrialMJPerDay } from '#core/science/air/radiation.ts'
import type { CropName } from '#core/science/crop.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import { isFitByWeather } from './fit.ts'
import type { Block } from './problem.ts'
import { DAYS_IN_WEEK, daysToRipe } from './tail.ts'

interface UsualHours {
  /** Fit hours of a day and its night by weather and crop, for the sunlight above the atmosphere [h per MJ/m2]. */
  readonly perMJ: number
  /** How a month differs from autumn to autumn: standard deviation as share of the mean. */
  readonly spread: number
}

/**
 * Ripe crops of the demo farm under the even autumns from 1996 to 2022 at Champaign, Illinois (the odd autumns: 0.70 and 0.37).
 * By week from the middle of September to that of November corn has 0.65 to 0.81, beans 0.29 to 0.44, and 0.2 at its end.
 * Not known: elsewhere.
 */
const CORN: UsualHours = { perMJ: 0.7, spread: 0.21 }
const SOYBEAN: UsualHours = { perMJ: 0.34, spread: 0.55 }
/** Small grains, canola and the others are taken to be like beans, which must be dry to be cut (no source). */
export const usualOf = (crop: CropName): UsualHours => (crop === 'corn' ? CORN : SOYBEAN)

/**
 * How far the outlook's own hours are believed. On those autumns a week's went with the second to fourth week's after it by
 * -0.01 (corn) and 0.45 (beans); other places have another usual, which only the outlook shows.
 */
const OWN_SHARE = 0.3
/** Share of the fit hours that a crew works when nothing of its parts is fit in the outlook: the demo's (no source). */
const USUAL_CREW_SHARE = 0.55

export interface Tail {
  readonly blocks: readonly Block[]
  /** Blocks that the outlook sees; those after are weeks. */
  readonly seen: number
  readonly crews: number
  readonly courses: readonly number[]
  /** First day beyond the outlook. */
  readonly from: Temporal.PlainDate
  /** Whether a crew can cut a job. */
  readonly isAble: (crew: number, job: number) => boolean
}

/**
 * Fills the weeks of both.
 *
 * @param fitH by crew, job, block and member [h]. @param openH by crew, block and member [h].
 */
export function fillTail(outlooks: readonly Outlook[], fitH: Float32Array, openH: Float32Array, tail: Tail): void {
  const { blocks, seen, crews, courses, from } = tail
  const [J, B, M] = [outlooks.length, blocks.length, courses.length]
  if (seen === B) return
  const autumns = autumnsOf(M)
  const own = outlooks.map((outlook) => ownHours(outlook, courses, from))
  const midWeeks = Array.from({ length: B - seen }, (_, week) =>
    from.add({ days: week * DAYS_IN_WEEK + Math.floor(DAYS_IN_WEEK / 2) }),
  )
  for (let c = 0; c < crews; c++) {
    const able = [...outlooks.keys()].filter((j) => tail.isAble(c, j))
    const worked = outlooks.map((_, j) => {
      const base = (c * J + j) * B * M
      return fitH.subarray(base, base + seen * M).reduce((sum, hours) => sum + hours, 0) / M
    })
    const sum = (of: (job: number) => number) => able.reduce((total, j) => total + of(j), 0)
    const fitAtAll = sum((j) => own[j]!.hours)
    const usualShare = fitAtAll > 0 ? sum((j) => worked[j]!) / fitAtAll : USUAL_CREW_SHARE
    for (const j of able) {
      const outlook = outlooks[j]!
      const { hours, perMJ } = own[j]!
      const share = hours > 0 ? worked[j]! / hours : usualShare
      const usual = usualOf(outlook.part.field.crop)
      const rate = share * (hours > 0 ? OWN_SHARE * perMJ + (1 - OWN_SHARE) * usual.perMJ : usual.perMJ)
      const ripeIn = hours > 0 ? 0 : daysToRipe(outlook)
      for (const [week, midWeek] of midWeeks.entries()) {
        const fitDays = Math.min(DAYS_IN_WEEK, Math.max(0, (week + 1) * DAYS_IN_WEEK - ripeIn))
        const mean = rate * sunMJ(outlook, midWeek) * fitDays
        for (let m = 0; m < M; m++) {
          const inAutumn = mean * (1 + usual.spread * autumns[m]!)
          fitH[((c * J + j) * B + seen + week) * M + m] = inAutumn
          const open = (c * B + seen + week) * M + m
          openH[open] = Math.max(openH[open]!, inAutumn)
        }
      }
    }
  }
}

const sunMJ = ({ part }: Outlook, date: Temporal.PlainDate): number =>
  extraterrestrialMJPerDay(part.field.centre.latDeg, date.dayOfYear)

/** Fit hours of an outlook by weather and crop, mean of the courses, and those for the sunlight since the first of them. */
function ownHours(
  outlook: Outlook,
  courses: readonly number[],
  endDate: Temporal.PlainDate,
): { readonly hours: number; readonly perMJ: number } {
  let hours = 0
  let first = outlook.hours
  for (const course of courses) {
    for (let h = 0; h < outlook.hours; h++) {
      if (!isFitByWeather(outlook, course, h)) continue
      hours += 1 / courses.length
      first = Math.min(first, h)
    }
  }
  const days = Math.max(1, (outlook.hours - first) / HOURS_PER_DAY)
  const light = days * sunMJ(outlook, endDate.subtract({ days: Math.round(days / 2) }))
  return { hours, perMJ: hours / light }
}

/** Golden ratio less one: its multiples spread evenly, so members next to each other get autumns far apart. */
const GOLDEN = (Math.sqrt(5) - 1) / 2

/** For each member how good its autumn is [standard deviations]: evenly spread, mean 0, in no order with the members. */
function autumnsOf(members: number): Float64Array {
  const order = Array.from({ length: members }, (_, m) => m).sort((a, b) => ((a * GOLDEN) % 1) - ((b * GOLDEN) % 1))
  const autumns = new Float64Array(members)
  for (const [k, m] of order.entries()) autumns[m] = Math.sqrt(3) * ((2 * (k + 0.5)) / members - 1)
  return autumns
}
