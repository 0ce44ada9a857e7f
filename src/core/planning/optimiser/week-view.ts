/** The week by part: when it is likely to be cut, how sure that is, and what lies beyond what can be seen. */
import type { Outlook } from '#core/outlook/outlook.ts'
import type { LikelyDates } from '#core/outlook/season.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import { isFit } from './fit.ts'
import type { WeekPlan } from './week-plan.ts'

export interface WeekView {
  readonly from: Temporal.PlainDate
  readonly to: Temporal.PlainDate
  readonly parts: readonly PartWeek[]
}

export interface PartWeek {
  readonly partKey: string
  readonly areaHa: number
  readonly days: readonly PartDay[]
  /** Day by which it is cut in half of the members, and in nine of ten; absent where that lies beyond the outlook. */
  readonly likelyBy: Temporal.PlainDate | undefined
  readonly almostSurelyBy: Temporal.PlainDate | undefined
  /** Chance that some of it is still standing at the end, and how much on average [ha]. */
  readonly leftChance: number
  readonly leftHa: number
  /** When what is left at the end is likely fit, from the season's outlook where there is one. */
  readonly tail: SeasonTail | undefined
}

export interface PartDay {
  readonly date: Temporal.PlainDate
  /** Share of the courses with at least two fit hours. */
  readonly fitChance: number
  /** Share of the members in which it is cut that day. */
  readonly cutChance: number
  readonly meanHa: number
}

/** From the outlook of the season, which rests on past years: by crop and weather alone, machines may come later. */
export interface SeasonTail {
  /** First day fit to cut behind the last day. */
  readonly fit: LikelyDates
  /** When it ripens, or ripened. */
  readonly ripe: LikelyDates
}

const FIT_HOURS = 2
const LIKELY = 0.5
const ALMOST_SURE = 0.9

export function weekView(
  plan: WeekPlan,
  outlooks: readonly Outlook[],
  standingHa: ReadonlyMap<string, number>,
  timeZone: string,
  tailOf: (partKey: string) => SeasonTail | undefined = () => undefined,
): WeekView {
  const from = plan.day.date
  const last = outlooks[0] ? outlooks[0].startEpochH + outlooks[0].hours : hoursOfLocalDay(from, timeZone).endEpochH
  const dates: Temporal.PlainDate[] = []
  for (let date = from; hoursOfLocalDay(date, timeZone).startEpochH < last; date = date.add({ days: 1 })) {
    dates.push(date)
  }
  const parts = outlooks.map((outlook): PartWeek => {
    const { key } = outlook.part
    const areaHa = standingHa.get(key) ?? outlook.part.areaHa
    const left = plan.left.find(({ partKey }) => partKey === key)
    const days = dates.map((date): PartDay => {
      const cut = plan.later.find((later) => later.partKey === key && later.date.equals(date))
      const fitChance = fitChanceOn(outlook, date, timeZone)
      return { date, fitChance, cutChance: cut?.chance ?? 0, meanHa: cut?.meanHa ?? 0 }
    })
    const doneBy = (share: number) => {
      let sum = 0
      return days.find(({ meanHa }) => {
        sum += meanHa
        return sum >= share * areaHa
      })?.date
    }
    const leftChance = left?.chance ?? 1
    return {
      partKey: key,
      areaHa,
      days,
      likelyBy: doneBy(LIKELY),
      almostSurelyBy: doneBy(ALMOST_SURE),
      leftChance,
      leftHa: left?.meanHa ?? areaHa,
      tail: leftChance > 0 ? tailOf(key) : undefined,
    }
  })
  return { from, to: dates.at(-1) ?? from, parts: parts.sort(bySoonest) }
}

function fitChanceOn(outlook: Outlook, date: Temporal.PlainDate, timeZone: string): number {
  const { startEpochH, endEpochH } = hoursOfLocalDay(date, timeZone)
  const from = Math.max(0, startEpochH - outlook.startEpochH)
  const to = Math.min(outlook.hours, endEpochH - outlook.startEpochH)
  let days = 0
  for (let c = 0; c < outlook.courses; c++) {
    let hours = 0
    for (let h = from; h < to; h++) if (isFit(outlook, c, h)) hours++
    if (hours >= FIT_HOURS) days++
  }
  return days / outlook.courses
}

function bySoonest(a: PartWeek, b: PartWeek): number {
  if (a.likelyBy && b.likelyBy) {
    return Temporal.PlainDate.compare(a.likelyBy, b.likelyBy) || a.partKey.localeCompare(b.partKey, 'en')
  }
  if (a.likelyBy || b.likelyBy) return a.likelyBy ? -1 : 1
  return a.leftChance - b.leftChance || a.partKey.localeCompare(b.partKey, 'en')
}
