/**
 * Crews that can stand for each other on later days, taken as one.
 *
 * Where crews work the same hours and their rates in all jobs stand in the same proportion, the pool can do exactly what
 * they can do together, as far as a linear model sees it; where the proportions differ it can do a little less.
 */
import { cbm, cj, mostHa, type PlanProblem } from './problem.ts'

export interface Pool {
  readonly crews: readonly number[]
}

export const alone = (crew: number): Pool => ({ crews: [crew] })

export function poolsOf(p: PlanProblem): Pool[] {
  const pools: number[][] = []
  for (let crew = 0; crew < p.crews.length; crew++) {
    const mates = pools.find(([mate]) => alike(p, mate!, crew))
    if (mates) mates.push(crew)
    else pools.push([crew])
  }
  return pools.map((crews) => ({ crews }))
}

/** Same jobs, and the same open hours after day 0. Pinned crews stay apart. */
function alike(p: PlanProblem, a: number, b: number): boolean {
  if (p.rules.pins.some(({ crew, day }) => day > 0 && (crew === a || crew === b))) return false
  for (let j = 0; j < p.jobs.length; j++) {
    if (p.haPerH[cj(p, a, j)]! > 0 !== p.haPerH[cj(p, b, j)]! > 0) return false
  }
  for (let block = 0; block < p.blocks.length; block++) {
    if (p.blocks[block]!.day === 0) continue
    for (let m = 0; m < p.members; m++) if (p.openH[cbm(p, a, block, m)] !== p.openH[cbm(p, b, block, m)]) return false
  }
  return true
}

/** Rate of all crews of a pool together [ha/h]. */
export function poolHaPerH(p: PlanProblem, { crews }: Pool, job: number): number {
  return crews.reduce((sum, crew) => sum + p.haPerH[cj(p, crew, job)]!, 0)
}

/** Most that a pool can cut of a job in a block, with no more crews in the field than fit [ha]. */
export function poolMostHa(p: PlanProblem, { crews }: Pool, job: number, block: number, member: number): number {
  if (crews.length === 1) return mostHa(p, crews[0]!, job, block, member)
  const each = crews.map((crew) => mostHa(p, crew, job, block, member)).sort((a, b) => b - a)
  const most = each.slice(0, p.rules.crewsPerField).reduce((sum, ha) => sum + ha, 0)
  return Math.min(p.jobs[job]!.areaHa, most)
}

/** Own cost of the pool's crews, weighed by what they cut [money/ha]. */
export function poolCostPerHa(p: PlanProblem, pool: Pool, job: number): number {
  const rate = poolHaPerH(p, pool, job)
  if (!(rate > 0)) return 0
  return pool.crews.reduce((sum, c) => sum + p.costPerHa[cj(p, c, job)]! * p.haPerH[cj(p, c, job)]!, 0) / rate
}

/** Hours of the pool in a block: those of each of its crews [h]. */
export const poolOpenH = (p: PlanProblem, { crews }: Pool, block: number, member: number): number =>
  Math.max(...crews.map((crew) => p.openH[cbm(p, crew, block, member)]!))
