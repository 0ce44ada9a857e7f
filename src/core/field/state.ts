/** The state of a part now: every particle driven through the weather that was observed. */
import { type CourseSeries, emptySeries, runCourses } from '#core/science/engine/courses.ts'
import type { GrainParticle } from '#core/science/grain/standing.ts'
import { topsoilOf } from '#core/science/soil/topsoil.ts'
import type { Cell } from './cell.ts'
import type { FieldPart } from './parts.ts'
import { followStanding, type Standing, UNRIPE } from './standing.ts'

export interface PartState {
  readonly part: FieldPart
  readonly particles: readonly GrainParticle[]
  /** Moisture and topsoil now, by particle. */
  readonly moistureWb: Float32Array
  readonly depletionMm: Float32Array
  readonly standing: readonly Standing[]
  /** The way there, particle by particle, for showing the past. */
  readonly past: CourseSeries
}

/** Topsoil at the start of the observed weather: at field capacity, the middle of what spring and early summer leave. */
const START_DEPLETION_MM = 0

export function runToNow(part: FieldPart, particles: readonly GrainParticle[], past: Cell): PartState {
  const { crop, band, soil } = part.field
  const { grain } = past.crop(crop)
  const { hours, startEpochH } = past.weather
  const courses = particles.map((particle) => ({
    particle,
    member: 0,
    // Ripe before the weather begins: by then it had settled with the air.
    startMoistureWb:
      particle.matureEpochH < startEpochH ? firstKnown(grain.dryTargetWb) : particle.moistureAtMaturityWb,
    startDepletionMm: START_DEPLETION_MM,
  }))
  const series = emptySeries(particles.length, hours)
  runCourses(grain, past.soil(part.field), topsoilOf(soil.texture, soil.drainage), courses, series)
  const at = (values: Float32Array) => Float32Array.from(particles, (_, p) => values[p * hours + hours - 1]!)
  return {
    part,
    particles,
    moistureWb: at(series.moistureWb),
    depletionMm: at(series.depletionMm),
    standing: particles.map((_, p) =>
      followStanding(crop, band, series.moistureWb.subarray(p * hours, (p + 1) * hours), startEpochH, UNRIPE),
    ),
    past: series,
  }
}

const firstKnown = (values: Float32Array): number => values.find((value) => !Number.isNaN(value)) ?? Number.NaN
