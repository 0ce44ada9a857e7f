/**
 * The engine: grain moisture and topsoil water of one part of a field, for every course of its outlook.
 *
 * What depends on the weather alone is computed once per place and crop (`GrainDrivers`, `SoilDrivers`) and shared; what
 * is left for each field, course and hour is a handful of flops, without allocation.
 */
import type { GrainDrivers } from '#core/science/grain/exchange.ts'
import { type GrainParticle, stepGrain } from '#core/science/grain/standing.ts'
import { stepTopsoil, type Topsoil } from '#core/science/soil/topsoil.ts'

/** Weather-only drivers of the topsoil, laid out as the weather (member * hours + hour). */
export interface SoilDrivers {
  /** Rain that enters or stands on the soil, after runoff [mm/h]. */
  readonly infiltrationMm: Float32Array
  /** Reference evapotranspiration [mm/h]. */
  readonly etMm: Float32Array
}

/** One course: one possible field under one member of the weather. */
export interface Course {
  readonly particle: GrainParticle
  /** Member of the weather, 0-based. */
  readonly member: number
  /** Grain moisture at the start of the first hour [% wet basis]. */
  readonly startMoistureWb: number
  /** Topsoil depletion at the start of the first hour [mm]. */
  readonly startDepletionMm: number
}

/** Filled course by course: index = course * hours + hour; 8 bytes for each. */
export interface CourseSeries {
  /** Grain moisture at the END of each hour [% wet basis]. */
  readonly moistureWb: Float32Array
  /** Topsoil depletion at the END of each hour [mm]. */
  readonly depletionMm: Float32Array
}

export const emptySeries = (courses: number, hours: number): CourseSeries => ({
  moistureWb: new Float32Array(courses * hours),
  depletionMm: new Float32Array(courses * hours),
})

/**
 * Runs every course of one part of a field.
 *
 * @param grain drivers of its crop. @param soilDrivers drivers of its cover. @param soil its topsoil.
 * @param courses what to run. @param out receives the series, from course 0 on.
 *
 * `stepGrain` and `stepTopsoil` hour by hour; see those for equations and sources. NaN where the weather is not known.
 */
export function runCourses(
  grain: GrainDrivers,
  soilDrivers: SoilDrivers,
  soil: Topsoil,
  courses: readonly Course[],
  out: CourseSeries,
): void {
  const { hours, startEpochH } = grain
  const { infiltrationMm, etMm } = soilDrivers
  const { moistureWb, depletionMm } = out
  for (let c = 0; c < courses.length; c++) {
    const { particle, member, startMoistureWb, startDepletionMm } = courses[c]!
    const first = member * hours
    const into = c * hours
    let moisture = startMoistureWb
    let depletion = startDepletionMm
    let hoursSinceMaturity = startEpochH - particle.matureEpochH
    for (let h = 0; h < hours; h++) {
      const i = first + h
      hoursSinceMaturity += 1
      moisture = stepGrain(moisture, hoursSinceMaturity, grain, i, particle)
      depletion = stepTopsoil(depletion, infiltrationMm[i]!, etMm[i]!, soil)
      moistureWb[into + h] = moisture
      depletionMm[into + h] = depletion
    }
  }
}
