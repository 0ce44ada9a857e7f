/**
 * The planning problem as plain numbers: which crew cuts how much of which job in which block, in each course of the weather.
 *
 * Indices: crew-job `c * jobs + j`, job-block-member `(j * blocks + b) * members + m`, and so on, in the order of the name.
 * Day 0 is decided now and for all members alike; what follows is decided with the weather known.
 */
import type { Aversion } from './linear/two-stage.ts'

export interface PlanProblem {
  readonly jobs: readonly Job[]
  readonly crews: readonly Crew[]
  /** In order of time. */
  readonly blocks: readonly Block[]
  readonly days: number
  /** How many days each day stands for: 1, or the days of a week beyond the outlook. */
  readonly dayLength: readonly number[]
  /** Courses of the weather, equally likely. */
  readonly members: number
  readonly buyers: readonly PlanBuyer[]
  /** What a hectare brings if cut then, by job, block and member [money/ha]; NaN where it is never fit. */
  readonly valuePerHa: Float64Array
  /** What a hectare brings that is left standing at the end, by job and member [money/ha]. */
  readonly leftPerHa: Float64Array
  /** Hours in which a crew can cut a job, by crew, job, block and member [h]. */
  readonly fitH: Float32Array
  /** Hours in which a crew can cut any job at all, by crew, block and member [h]. */
  readonly openH: Float32Array
  /** Hours a crew is out, by crew and block [h]. */
  readonly crewH: Float32Array
  /** By crew and job [ha/h]; 0 = cannot. */
  readonly haPerH: Float64Array
  /** What cutting costs more with this crew than with the cheapest, by crew and job [money/ha]. */
  readonly costPerHa: Float64Array
  /** From where a crew is now to a job, by crew and job [h]. */
  readonly firstMoveH: Float64Array
  /** From job to job [h]. */
  readonly moveH: Float64Array
  readonly rules: ProblemRules
}

export interface Job {
  readonly key: string
  readonly areaHa: number
  /** Room that a hectare takes of what the buyer takes in a day [t/ha, above 0]: its grain, and more where it must be dried. */
  readonly tPerHa: number
  /** Index into `buyers`; -1 = nobody's limit. */
  readonly buyer: number
  /** Jobs of one field share a number. */
  readonly field: number
  /** All or nothing, by one crew, on the day on which it is begun. */
  readonly whole: boolean
}

export interface Crew {
  readonly id: string
}

export interface Block {
  readonly day: number
  readonly startEpochH: number
  readonly endEpochH: number
}

export interface PlanBuyer {
  readonly id: string
  /** Room of a day, for grain that is dry one for one [t]. */
  readonly dailyT: number
}

export interface ProblemRules {
  readonly pins: readonly Pin[]
  /** 1 where a job must not be touched, by job and day. */
  readonly keptOff: Uint8Array
  /** Last day on which a job may be cut without being late, by job; `days` or more = none. */
  readonly lastDay: Float64Array
  /** What a hectare costs that is late [money/ha]. */
  readonly latePerHa: number
  /** Crews that fit in a field at once. */
  readonly crewsPerField: number
  /** Fields a crew may visit in a day. */
  readonly fieldsPerDay: number
  /** What an hour on the road costs [money/h]. */
  readonly moveCostPerH: number
  /** Crew and job said yesterday for today: leaving it costs this [money], by crew and job. */
  readonly promised: Float64Array
  readonly aversion: Aversion | undefined
}

export interface Pin {
  readonly job: number
  readonly day: number
  /** -1 = whichever. */
  readonly crew: number
  /** What is to be done that day as far as the weather lets it [ha]. */
  readonly areaHa: number
}

/** Amounts smaller than this are nothing [ha or h]. */
export const NOTHING = 1e-6

export const jbm = (p: PlanProblem, job: number, block: number, member: number): number =>
  (job * p.blocks.length + block) * p.members + member

export const cjbm = (p: PlanProblem, crew: number, job: number, block: number, member: number): number =>
  ((crew * p.jobs.length + job) * p.blocks.length + block) * p.members + member

export const cbm = (p: PlanProblem, crew: number, block: number, member: number): number =>
  (crew * p.blocks.length + block) * p.members + member

export const cj = (p: PlanProblem, crew: number, job: number): number => crew * p.jobs.length + job

/** Most that a crew can cut of a job in a block [ha]; 0 where it is kept off. */
export function mostHa(p: PlanProblem, crew: number, job: number, block: number, member: number): number {
  if (p.rules.keptOff[job * p.days + p.blocks[block]!.day] === 1) return 0
  const ha = p.haPerH[cj(p, crew, job)]! * p.fitH[cjbm(p, crew, job, block, member)]!
  return ha > NOTHING ? Math.min(p.jobs[job]!.areaHa, ha) : 0
}

/** What a hectare brings, lateness off, before the crew's own cost [money/ha]. */
export function netPerHa(p: PlanProblem, job: number, block: number, member: number): number {
  const late = p.blocks[block]!.day > p.rules.lastDay[job]! ? p.rules.latePerHa : 0
  return p.valuePerHa[jbm(p, job, block, member)]! - late
}

/** What a hectare left at the end brings, lateness off [money/ha]. */
export function leftNetPerHa(p: PlanProblem, job: number, member: number): number {
  const late = p.rules.lastDay[job]! < p.days ? p.rules.latePerHa : 0
  return p.leftPerHa[job * p.members + member]! - late
}

/** The most a hectare of each job could bring in each member, whatever the capacity [money/ha], by job and member. */
export function bestPerHa(p: PlanProblem): Float64Array {
  const best = new Float64Array(p.jobs.length * p.members)
  for (let j = 0; j < p.jobs.length; j++) {
    for (let m = 0; m < p.members; m++) {
      let most = p.leftPerHa[j * p.members + m]!
      for (let b = 0; b < p.blocks.length; b++) {
        for (let c = 0; c < p.crews.length; c++) {
          if (mostHa(p, c, j, b, m) > 0) {
            most = Math.max(most, p.valuePerHa[jbm(p, j, b, m)]! - p.costPerHa[cj(p, c, j)]!)
          }
        }
      }
      best[j * p.members + m] = most
    }
  }
  return best
}

/** What all jobs would bring with machines without end, mean of the members [money]. */
export function bestValue(p: PlanProblem): number {
  const best = bestPerHa(p)
  let sum = 0
  for (let j = 0; j < p.jobs.length; j++) {
    for (let m = 0; m < p.members; m++) sum += (p.jobs[j]!.areaHa * best[j * p.members + m]!) / p.members
  }
  return sum
}
