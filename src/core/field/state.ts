/** The state of a part now: every particle driven through the weather that was observed. */
import { type CourseSeries, emptySeries, runCourses } from '#core/science/engine/courses.ts'
import type { GrainParticle } from '#core/science/grain/standing.ts'

import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Cell } from './cell.ts'
import { groundOf } from './ground.ts'
import type { FieldPart } from './parts.ts'
import { restartMoistureWb } from './restart.ts'
import { followStanding, type Standing, UNRIPE } from './standing.ts'

/** Where a part stands: all that is needed to go on from there. */
export interface PartNow {
  readonly part: FieldPart
  readonly particles: readonly GrainParticle[]
  /** Moisture and topsoil now, by particle. */
  readonly moistureWb: Float32Array
  readonly depletionMm: Float32Array
  readonly standing: readonly Standing[]
}

export interface PartState extends PartNow {
  /** The way there, particle by particle, for showing the past. */
  readonly past: CourseSeries
}

/** Topsoil at the start of the observed weather: at field capacity, the middle of what spring and early summer leave. */
const START_DEPLETION_MM = 0

/**
 * @param past observed weather; it may be empty or have gaps. @param ahead what follows: where the past does not lead to
 * now, the grain restarts from the usual dry-down towards rest with the air of the coming day.
 */
export function runToNow(part: FieldPart, particles: readonly GrainParticle[], past: Cell, ahead: Cell): PartState {
  const { crop, band } = part.field
  const { grain } = past.crop(crop)
  const { hours, startEpochH } = past.weather
  const restart = restartIn(part, past, ahead)
  const courses = particles.map((particle) => ({
    particle,
    member: 0,
    startMoistureWb: restart(particle, startEpochH),
    startDepletionMm: START_DEPLETION_MM,
  }))
  const series = emptySeries(particles.length, hours)
  runCourses(grain, past.soil(part.field), groundOf(part), courses, series)
  const nowEpochH = ahead.weather.startEpochH
  const last = (values: Float32Array, p: number, otherwise: () => number) => {
    const value = hours > 0 ? values[p * hours + hours - 1]! : Number.NaN
    return Number.isNaN(value) ? otherwise() : value
  }
  return {
    part,
    particles,
    moistureWb: Float32Array.from(particles, (particle, p) =>
      last(series.moistureWb, p, () => restart(particle, nowEpochH)),
    ),
    depletionMm: Float32Array.from(particles, (_, p) => last(series.depletionMm, p, () => START_DEPLETION_MM)),
    standing: particles.map((_, p) =>
      followStanding(crop, band, series.moistureWb.subarray(p * hours, (p + 1) * hours), startEpochH, UNRIPE),
    ),
    past: series,
  }
}

/** Moisture of a particle at a time to which no weather leads [% wet basis]: usual dry-down towards rest with the air. */
export type Restart = (particle: GrainParticle, atEpochH: number) => number

/** At the start of the past, or before it, rest is with the air of its first day; later with that of the first day ahead. */
export function restartIn(part: FieldPart, past: Cell, ahead: Cell): Restart {
  const { crop } = part.field
  const { hours, startEpochH } = past.weather
  const pastRestWb = firstDayMean(past.crop(crop).grain.dryTargetWb)
  const aheadRestWb = firstDayMean(ahead.crop(crop).grain.dryTargetWb.subarray(0, ahead.weather.hours))
  return (particle, atEpochH) => {
    const restWb = hours > 0 && atEpochH <= startEpochH ? pastRestWb : aheadRestWb
    const days = (atEpochH - particle.matureEpochH) / HOURS_PER_DAY
    return restartMoistureWb(crop, days, particle.moistureAtMaturityWb, restWb)
  }
}

/** Mean of the known hours of the first day; NaN when none is known. */
function firstDayMean(values: Float32Array): number {
  let sum = 0
  let known = 0
  for (const value of values.subarray(0, HOURS_PER_DAY)) {
    if (Number.isNaN(value)) continue
    sum += value
    known++
  }
  return sum / known
}
