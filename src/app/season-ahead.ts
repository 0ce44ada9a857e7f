/**
 * The weeks beyond the forecast: each part's likely dates, from the weather of past years carried on from every member of
 * the forecast. No skill is claimed there; the dates spread as the years do.
 */
import { Cell } from '#core/field/cell.ts'
import { afterLastGap } from '#core/field/gaps.ts'
import type { PartNow } from '#core/field/state.ts'
import { fireOutlook } from '#core/outlook/day-fire.ts'
import { farmOutlooks } from '#core/outlook/farm-outlooks.ts'
import {
  areFew,
  type LikelyDates,
  likelyDates,
  likelyRipe,
  type SeasonWeather,
  seasonAhead,
} from '#core/outlook/season.ts'
import { seedFromText } from '#core/units/random.ts'
import { HOURS_PER_DAY, hoursOfLocalDay, localDateOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type { Day } from './make-day.ts'
import type { EarlierYears } from './ports.ts'

export interface PartSeason {
  readonly partKey: string
  /** When it ripens, or ripened. */
  readonly ripe: LikelyDates
  /** First day behind the forecast with hours fit to cut: by crop and weather alone, machines may come later. */
  readonly fit: LikelyDates
}

export interface SeasonAhead {
  readonly parts: readonly PartSeason[]
  /** Past years behind it. */
  readonly years: number
  /** Too few to show all that can come. */
  readonly few: boolean
  /** First and last day behind the forecast that were looked at. */
  readonly from: Temporal.PlainDate
  readonly to: Temporal.PlainDate
}

/** Parts of which some may be left when the plan's days are over: those the season is of interest for. */
export function leftOver({ outlooks, planned }: Pick<Day, 'outlooks' | 'planned'>): ReadonlySet<string> {
  const left = new Map(planned?.week.left.map(({ partKey, chance }) => [partKey, chance]))
  return new Set(outlooks.map(({ part }) => part.key).filter((key) => (left.get(key) ?? 1) > 0))
}

/** How far beyond the forecast is looked, as far as the years cover it [d]. */
const REACHES_DAYS = [75, 60, 45, 30]
const YEARS = 20

/** What the reckoning starts from. */
export interface SeasonDay extends Pick<Day, 'farm' | 'past' | 'ahead'> {
  readonly states: readonly PartNow[]
}

/** @returns undefined where no year reaches far enough. */
export type SeasonReckoner = (
  day: SeasonDay,
  years: readonly Weather[],
) => SeasonAhead | undefined | Promise<SeasonAhead | undefined>

/**
 * @param partKeys the parts of interest; all that stand unless told. @param reckon here, unless another thread does it.
 * @returns undefined where no past year of the place is at hand: nothing is guessed.
 */
export async function seasonOf(
  day: SeasonDay & Pick<Day, 'nowEpochH'>,
  earlierYears: EarlierYears | undefined,
  partKeys?: ReadonlySet<string>,
  reckon: SeasonReckoner = seasonUnder,
): Promise<SeasonAhead | undefined> {
  const { ahead, nowEpochH } = day
  const wanted = day.states.filter(({ part }) => partKeys?.has(part.key) ?? true)
  if (!earlierYears || wanted.length === 0) return undefined
  const fromEpochH = ahead.startEpochH + ahead.hours
  const toEpochH = fromEpochH + REACHES_DAYS[0]! * HOURS_PER_DAY
  const years = await earlierYears({ place: day.farm.home, nowEpochH, fromEpochH, toEpochH, years: YEARS })
  return await reckon({ ...day, states: wanted }, years)
}

export const seasonUnder: SeasonReckoner = (day, years) => {
  const season = furthest(day.ahead, years)
  return season && datesUnder(day, season)
}

/** As far as any year covers. */
function furthest(ahead: Weather, years: readonly Weather[]): SeasonWeather | undefined {
  const joinEpochH = ahead.startEpochH + ahead.hours
  const seed = seedFromText(`season/${ahead.place.latDeg},${ahead.place.lonDeg},${ahead.startEpochH}`)
  for (const days of REACHES_DAYS) {
    const season = seasonAhead(ahead, years, joinEpochH + days * HOURS_PER_DAY, seed)
    if (season) return season
  }
  return undefined
}

/** @param season the forecast and what comes after it, any number of members. */
export function datesUnder({ farm, past, ahead, states }: SeasonDay, { weather, years }: SeasonWeather): SeasonAhead {
  const { timeZone } = farm
  const cell = new Cell(weather, new Cell(afterLastGap(past)))
  const strawDry = states.some(({ part }) => part.field.followsWheat)
  const { stop } = fireOutlook(weather, farm.fireRules, timeZone, strawDry)
  // The day in which the forecast ends is still its own.
  const lastSeen = localDateOf(ahead.startEpochH + ahead.hours - 1, timeZone)
  const from = lastSeen.add({ days: 1 })
  const fromEpochH = hoursOfLocalDay(from, timeZone).startEpochH
  const parts = farmOutlooks(farm, states, cell, stop).map(
    (outlook, n): PartSeason => ({
      partKey: outlook.part.key,
      ripe: likelyRipe(states[n]!.particles, timeZone),
      fit: likelyDates(outlook, timeZone, fromEpochH),
    }),
  )
  const to = localDateOf(weather.startEpochH + weather.hours - 1, timeZone)
  return { parts, years, few: areFew(years), from, to }
}

/** The dates of each part, as the week shows them. */
export function tailsOf(season: SeasonAhead | undefined): (partKey: string) => Omit<PartSeason, 'partKey'> | undefined {
  const tails = new Map(season?.parts.map(({ partKey, fit, ripe }) => [partKey, { fit, ripe }]))
  return (partKey) => tails.get(partKey)
}
