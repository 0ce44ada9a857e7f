/**
 * One harvest season on real weather: what is true, and what could be known of it on each morning.
 *
 * True: the weather as it was, and for each part one of its possible states. Known on a morning: the weather up to then; a
 * forecast made from the weather to come by errors that grow with the lead; and for each part a reading of the afternoon
 * before, with an error, by which its possible states are sifted. Nothing of the days to come is seen in any other way.
 */

import { COURSES, HORIZON_H } from '#app/make-day.ts'
import { Cell } from '#core/field/cell.ts'
import { maturityOf } from '#core/field/maturity.ts'
import { drawParticles } from '#core/field/particles.ts'
import { type FieldPart, partsOf } from '#core/field/parts.ts'
import { followStanding, type Standing, UNRIPE } from '#core/field/standing.ts'
import { type PartState, runToNow } from '#core/field/state.ts'
import type { Farm } from '#core/operation/farm.ts'
import { farmOutlooks } from '#core/outlook/farm-outlooks.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { growMembers, USUAL_RAIN_DAY_SHARE } from '#core/science/spread/grow-members.ts'
import { seededRandom, seedFromText } from '#core/units/random.ts'
import { epochHoursAtMinute, localDateOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { hoursBetween, memberOf } from '#core/units/weather-hours.ts'

export interface SeasonInput {
  readonly farm: Farm
  /** One member, gaps filled, from well before the first morning to the end. */
  readonly weather: Weather
  /** From this day on the harvest is planned. */
  readonly firstDay: Temporal.PlainDate
  readonly seed: number
}

export interface Season {
  readonly farm: Farm
  readonly parts: readonly FieldPart[]
  /** What truly happens, one course, from midnight of the first day to the end of the weather. */
  readonly truth: readonly Outlook[]
  readonly firstDay: Temporal.PlainDate
  readonly lastDay: Temporal.PlainDate
  /** When each part is expected to be mature, by key, hours since the epoch. */
  readonly matureEpochH: ReadonlyMap<string, number>
  /** What is seen on a morning of the parts named. */
  outlooksOn(nowEpochH: number, partKeys: ReadonlySet<string>, sight?: Sight): Outlook[]
}

/** What of the truth is seen on a morning beyond what could be known: the weather of the coming days, the state of the parts. */
export interface Sight {
  readonly weather: boolean
  readonly state: boolean
}

const NO_SIGHT: Sight = { weather: false, state: false }

const POOL = 160
/** Error of a reading of a part's moisture: instrument and spread of the field (common practice, no source) [points]. */
const READING_SD_WB = 0.7
const READING_DAYS = 3
const READING_MINUTE = 15 * 60
/** Hours before a morning from which water on the plants is carried over. */
const CARRY_H = 72

export function makeSeason({ farm, weather, firstDay, seed }: SeasonInput): Season {
  const { timeZone } = farm
  const startEpochH = Math.ceil(epochHoursAtMinute(firstDay, 0, timeZone))
  const endEpochH = weather.startEpochH + weather.hours
  const truthCell = new Cell(weather)
  const known = hoursBetween(weather, weather.startEpochH, startEpochH)
  const parts = farm.fields.flatMap(partsOf)
  const maturity = maturityOf(farm, [known])
  const beliefs = parts.map((part) => poolOf(part, maturity.get(part.field.id)!, timeZone, truthCell, seed))

  const ahead = new Cell(hoursBetween(weather, startEpochH, endEpochH), new Cell(known))
  const trueStates = beliefs.map(({ truthIndex, stateAt }) => pick(stateAt(startEpochH), [truthIndex]))
  const truth = outlooksOf(farm, trueStates, ahead)
  return {
    farm,
    parts,
    truth,
    firstDay,
    lastDay: lastFullDay(endEpochH, timeZone),
    matureEpochH: new Map(beliefs.map(({ part, matureEpochH }) => [part.key, matureEpochH])),
    outlooksOn(nowEpochH, partKeys, sight = NO_SIGHT) {
      const cell = sight.weather ? trueCell(weather, nowEpochH) : forecastCell(weather, nowEpochH, seed)
      const states = beliefs
        .filter(({ part }) => partKeys.has(part.key))
        .map(({ truthIndex, stateAt, sifted }) => {
          const state = stateAt(nowEpochH)
          if (!sight.state) return sifted(state, nowEpochH, timeZone, seed)
          const courses = sight.weather ? 1 : COURSES
          return pick(state, new Array<number>(courses).fill(truthIndex))
        })
      return outlooksOf(farm, states, cell)
    },
  }
}

interface Belief {
  readonly part: FieldPart
  readonly truthIndex: number
  readonly matureEpochH: number
  /** Every possible state at an hour of the season. */
  readonly stateAt: (nowEpochH: number) => PartState
  /** The few that agree with the readings of the last afternoons. */
  readonly sifted: (state: PartState, nowEpochH: number, timeZone: string, seed: number) => PartState
}

function poolOf(part: FieldPart, maturity: MaturityEstimate, timeZone: string, truthCell: Cell, seed: number): Belief {
  const { field } = part
  const particles = drawParticles(part, maturity, timeZone, POOL)
  const states = runToNow(part, particles, truthCell, truthCell)
  const { hours, startEpochH } = truthCell.weather
  const random = seededRandom(seedFromText(`${part.key}/${seed}`))
  const truthIndex = Math.floor(random.uniform() * POOL)
  let standing: { readonly atEpochH: number; readonly each: readonly Standing[] } = {
    atEpochH: startEpochH,
    each: particles.map(() => UNRIPE),
  }
  const followTo = (nowEpochH: number): readonly Standing[] => {
    if (nowEpochH < standing.atEpochH) standing = { atEpochH: startEpochH, each: particles.map(() => UNRIPE) }
    const [from, to] = [standing.atEpochH - startEpochH, nowEpochH - startEpochH]
    const each = particles.map((_, p) =>
      followStanding(
        field.crop,
        field.band,
        states.past.moistureWb.subarray(p * hours + from, p * hours + to),
        standing.atEpochH,
        standing.each[p]!,
      ),
    )
    standing = { atEpochH: nowEpochH, each }
    return each
  }
  const at = (values: Float32Array, epochH: number) =>
    Float32Array.from(particles, (_, p) => values[p * hours + epochH - 1 - startEpochH]!)
  return {
    part,
    truthIndex,
    matureEpochH: particles.reduce((sum, { matureEpochH }) => sum + matureEpochH / POOL, 0),
    stateAt: (nowEpochH) => ({
      ...states,
      moistureWb: at(states.past.moistureWb, nowEpochH),
      depletionMm: at(states.past.depletionMm, nowEpochH),
      standing: followTo(nowEpochH),
    }),
    sifted(state, nowEpochH, timeZone, readingSeed) {
      const misfit = new Float64Array(POOL)
      const today = localDateOf(nowEpochH, timeZone)
      for (let back = 1; back <= READING_DAYS; back++) {
        const date = today.subtract({ days: back })
        const hour = Math.floor(epochHoursAtMinute(date, READING_MINUTE, timeZone)) - startEpochH
        if (hour < 0 || hour >= hours) continue
        const error = READING_SD_WB * seededRandom(seedFromText(`${part.key}/${date}/${readingSeed}`)).normal()
        const reading = states.past.moistureWb[truthIndex * hours + hour]! + error
        for (let p = 0; p < POOL; p++) {
          misfit[p]! += ((states.past.moistureWb[p * hours + hour]! - reading) / READING_SD_WB) ** 2
        }
      }
      misfit[truthIndex] = Number.POSITIVE_INFINITY
      const order = [...misfit.keys()].sort((a, b) => misfit[a]! - misfit[b]! || a - b).slice(0, COURSES)
      return pick(
        state,
        order.sort((a, b) => a - b),
      )
    },
  }
}

function pick(state: PartState, indices: readonly number[]): PartState {
  return {
    ...state,
    particles: indices.map((p) => state.particles[p]!),
    moistureWb: Float32Array.from(indices, (p) => state.moistureWb[p]!),
    depletionMm: Float32Array.from(indices, (p) => state.depletionMm[p]!),
    standing: indices.map((p) => state.standing[p]!),
  }
}

/** Fire is left out: gusts are not in the weather of the past. */
const outlooksOf = (farm: Farm, states: readonly PartState[], ahead: Cell): Outlook[] =>
  farmOutlooks(farm, states, ahead, new Uint8Array(ahead.weather.members * ahead.weather.hours))

/** The weather that comes, as far as a forecast reaches. */
function trueCell(weather: Weather, nowEpochH: number): Cell {
  return new Cell(hoursBetween(weather, nowEpochH, horizonOf(weather, nowEpochH)), justPast(weather, nowEpochH))
}

const horizonOf = (weather: Weather, nowEpochH: number): number =>
  Math.min(nowEpochH + HORIZON_H, weather.startEpochH + weather.hours)

const justPast = (weather: Weather, nowEpochH: number): Cell =>
  new Cell(hoursBetween(weather, Math.max(weather.startEpochH, nowEpochH - CARRY_H), nowEpochH))

/** A forecast that strays from what comes as forecasts do, and members that stray from it alike. */
function forecastCell(weather: Weather, nowEpochH: number, seed: number): Cell {
  const comes = hoursBetween(weather, nowEpochH, horizonOf(weather, nowEpochH))
  const options = { usualRainDayShare: USUAL_RAIN_DAY_SHARE, ageH: 0 }
  const strayed = memberOf(growMembers(comes, { ...options, members: 8, seed: seed * 1009 + nowEpochH }), 5)
  const members = growMembers(strayed, { ...options, members: COURSES, seed: seed * 2003 + nowEpochH })
  return new Cell(members, justPast(weather, nowEpochH))
}

function lastFullDay(endEpochH: number, timeZone: string): Temporal.PlainDate {
  return localDateOf(endEpochH, timeZone).subtract({ days: 1 })
}
