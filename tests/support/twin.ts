/**
 * Twin experiments: hidden fields on real autumns, forecast by what was read of them, held against what they were.
 * SIMULATED TRUTH: this shows that the filter finds what can be found and is honest about the rest; it can't show that the
 * equations are those of a real field.
 */
import { Cell } from '#core/field/cell.ts'
import { assimilate } from '#core/field/filter/assimilate.ts'
import type { Reading } from '#core/field/reading.ts'
import type { PartState } from '#core/field/state.ts'
import { middleQuantile, type Skill, skillOf } from '#core/outlook/skill.ts'
import type { CropName } from '#core/science/crop.ts'
import { runGrain } from '#core/science/grain/standing.ts'
import { growMembers, USUAL_RAIN_DAY_SHARE } from '#core/science/spread/grow-members.ts'
import { seedFromText } from '#core/units/random.ts'
import { memberOf } from '#core/units/weather-hours.ts'
import {
  type Hidden,
  type HiddenOptions,
  type HiddenSeason,
  hiddenSeason,
  maturityIn,
  slice,
  ZONE,
} from './twin-season.ts'

const MEMBERS = 50

export const TWIN_FORECASTS = ['own', 'known', 'strayed'] as const

export interface TwinOptions extends HiddenOptions {
  /**
   * `own`: the weather that came at the field itself, one member: what is judged is the state of the field alone. `known`:
   * the weather that came at the station. `strayed`: members grown about a forecast that strayed from the station's as far
   * as they do.
   */
  readonly forecast: (typeof TWIN_FORECASTS)[number]
  readonly leadDays: readonly number[]
  /** Particles in each state. */
  readonly keep: number
}

/** One forecast of one field held against the hidden truth. */
export interface TwinCheck {
  readonly crop: CropName
  readonly year: number
  readonly field: string
  readonly leadH: number
  readonly truthWb: number
  /** Courses with the readings and without them [% wet basis]. */
  readonly withWb: Float32Array
  readonly withoutWb: Float32Array
  /** Readings of the field so far. */
  readonly readings: number
  /** All that was read of it so far is one wild reading: nothing can tell. */
  readonly misled: boolean
}

/** Hours of the day at which forecasts are judged, local. */
const JUDGED_HOURS = [10, 13, 16, 19]
/** Forecasts are issued at this hour, local. */
const ISSUE_HOUR = 6
const ISSUE_EVERY_DAYS = 3

export function twinChecks(year: number, options: TwinOptions): TwinCheck[] {
  const season = hiddenSeason(year, options)
  const { station, hidden, readings } = season
  const first = Math.min(...readings.map(({ atEpochH }) => atEpochH))
  const last = Math.max(...readings.map(({ atEpochH }) => atEpochH))
  const firstDay = Math.floor((first - station.startEpochH) / 24) + 1
  const lastDay = Math.floor((last - station.startEpochH) / 24) + 1
  const checks: TwinCheck[] = []
  const horizonH = 24 * Math.max(...options.leadDays) + 24
  for (let day = firstDay; day <= lastDay; day += ISSUE_EVERY_DAYS) {
    const now = day * 24 + ISSUE_HOUR
    if (now + horizonH > station.hours) break
    const nowEpochH = station.startEpochH + now
    const known = readings.filter(({ atEpochH }) => atEpochH <= nowEpochH)
    const since = (key: string) => known.filter(({ partKey }) => partKey === key)
    // Judged from the first reading of a field until four days after its last.
    const judged = hidden.filter(({ part }) => {
      const own = since(part.key)
      return own.length > 0 && nowEpochH - own.at(-1)!.atEpochH < 96
    })
    if (judged.length === 0) continue
    checks.push(...checkAt(now, judged, known, season, options))
  }
  return checks
}

/** One forecast of each soybean field, on the morning after so many readings and from them alone. */
export function checksAfterReadings(year: number, count: number, options: TwinOptions): TwinCheck[] {
  const { station, hidden, readings, wild } = hiddenSeason(year, options)
  const horizonH = 24 * Math.max(...options.leadDays) + 24
  return hidden.flatMap((one) => {
    const own = readings.filter(({ partKey }) => partKey === one.part.key).slice(0, count)
    const now = 24 * (Math.floor(((own.at(-1)?.atEpochH ?? Number.NaN) - station.startEpochH) / 24) + 1) + ISSUE_HOUR
    if (one.part.field.crop !== 'soybean' || own.length < count || now + horizonH > station.hours) return []
    return checkAt(now, [one], own, { station, year, hidden: [one], wild }, options)
  })
}

function checkAt(
  now: number,
  judged: readonly Hidden[],
  known: readonly Reading[],
  { station, year, hidden, wild }: Pick<HiddenSeason, 'station' | 'year' | 'hidden' | 'wild'>,
  options: TwinOptions,
): TwinCheck[] {
  const horizonH = 24 * Math.max(...options.leadDays) + 24
  const past = slice(station, 0, now)
  const came = slice(station, now, now + horizonH)
  const grown = { usualRainDayShare: USUAL_RAIN_DAY_SHARE, ageH: 0 }
  const seed = seedFromText(`forecast/${options.seed}/${year}/${now}`)
  const strayed = () => memberOf(growMembers(came, { ...grown, members: 2, seed: seed ^ 77 }), 1)
  const forecast = options.forecast === 'strayed' ? strayed() : came
  const ahead = growMembers(forecast, { ...grown, members: options.forecast === 'strayed' ? MEMBERS : 1, seed })
  const pastCell = new Cell(past)
  const aheadCell = new Cell(ahead, pastCell)
  const parts = judged.map(({ part }) => part)
  const others = hidden.map(({ part }) => part).filter((part) => !parts.includes(part))
  const maturity = new Map(hidden.map(({ part: { field } }) => [field.id, maturityIn(field, past)]))
  const input = { parts, maturity, timeZone: ZONE, past: pastCell, ahead: aheadCell, keep: options.keep }
  const withReadings = assimilate({ ...input, finished: others, readings: known }).states
  const without = assimilate({ ...input, readings: [] }).states
  return judged.flatMap(({ part, truthWb, air }, i) => {
    const cell = options.forecast === 'own' ? new Cell(slice(air, now, now + horizonH), pastCell) : aheadCell
    const courses = { withReadings: coursesOf(withReadings[i]!, cell), without: coursesOf(without[i]!, cell) }
    const own = known.filter(({ partKey }) => partKey === part.key)
    const misled = own.length === 1 && wild.has(own[0]!.id)
    return options.leadDays.flatMap((lead) =>
      JUDGED_HOURS.map((hour) => {
        const leadH = 24 * lead + hour - ISSUE_HOUR
        const at = (values: Float32Array) =>
          Float32Array.from({ length: options.keep }, (_, c) => values[c * horizonH + leadH - 1]!)
        return {
          crop: part.field.crop,
          year,
          field: part.key,
          leadH: 24 * lead,
          truthWb: truthWb[now + leadH - 1]!,
          withWb: at(courses.withReadings),
          withoutWb: at(courses.without),
          readings: own.length,
          misled,
        }
      }),
    )
  })
}

export function coursesOf(state: PartState, ahead: Cell): Float32Array {
  const { grain } = ahead.crop(state.part.field.crop)
  const out = new Float32Array(state.particles.length * grain.hours)
  for (const [c, particle] of state.particles.entries()) {
    runGrain(grain, c % grain.members, particle, state.moistureWb[c]!, out, c * grain.hours)
  }
  return out
}

/** Scores of some checks. */
export const skillWith = (checks: readonly TwinCheck[]): Skill =>
  skillOf(checks.map(({ withWb, truthWb }) => ({ values: withWb.toSorted(), truth: truthWb })))
export const skillWithout = (checks: readonly TwinCheck[]): Skill =>
  skillOf(checks.map(({ withoutWb, truthWb }) => ({ values: withoutWb.toSorted(), truth: truthWb })))

/** The upper middle of an even number. */
export const medianOf = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!

const TWO_DAYS_H = 48

/**
 * One field, one reading, nothing else: absolute error of the middle of the forecast two days later [points], for every
 * field first read below `belowWb`. The weather in between is that of the station.
 */
export function errorsAfterOneReading(year: number, crop: CropName, belowWb: number, options: HiddenOptions): number[] {
  const { station, hidden, readings } = hiddenSeason(year, options)
  return hidden.flatMap(({ part, truthWb }) => {
    const truthAt = ({ atEpochH }: Reading) => truthWb[Math.floor(atEpochH - station.startEpochH) - 1]!
    const reading = readings.find((one) => one.partKey === part.key && truthAt(one) < belowWb)
    if (part.field.crop !== crop || !reading) return []
    const now = Math.ceil(reading.atEpochH) - station.startEpochH
    const past = new Cell(slice(station, 0, now))
    const ahead = new Cell(slice(station, now, now + TWO_DAYS_H), past)
    const maturity = new Map([[part.field.id, maturityIn(part.field, past.weather)]])
    const input = { parts: [part], maturity, timeZone: ZONE, past, ahead, readings: [reading], keep: 200 }
    const [state] = assimilate(input).states
    const courses = coursesOf(state!, ahead)
    const after = Float32Array.from({ length: 200 }, (_, c) => courses[(c + 1) * TWO_DAYS_H - 1]!)
    return [Math.abs(middleQuantile(after.sort(), 0.5) - truthWb[now + TWO_DAYS_H - 1]!)]
  })
}
