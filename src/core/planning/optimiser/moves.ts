/** What moving costs a crew in time, before the order of its visits is known. */
import { cj, cjbm, type PlanProblem } from './problem.ts'

/** Jobs among which the one before is taken to be. */
const NEAREST = 3

/** Usual move to a job: mean over the nearest few other jobs with something to cut [h], by job. */
export function usualMoveH(p: PlanProblem): Float64Array {
  const n = p.jobs.length
  return Float64Array.from({ length: n }, (_, j) => {
    const others: number[] = []
    for (let i = 0; i < n; i++) {
      if (p.jobs[i]!.field !== p.jobs[j]!.field && p.jobs[i]!.areaHa > 0) others.push(p.moveH[i * n + j]!)
    }
    const nearest = others.sort((a, b) => a - b).slice(0, NEAREST)
    return nearest.length === 0 ? 0 : nearest.reduce((sum, hours) => sum + hours, 0) / nearest.length
  })
}

/** What getting to a job costs for each hectare of it on a later day, or after the end [money/ha]. */
export const laterMovePerHa = (p: PlanProblem, usual: Float64Array, job: number): number =>
  (p.rules.moveCostPerH * usual[job]!) / p.jobs[job]!.areaHa

/** Hours a visit of day 0 costs a crew: nothing where it stands, else the shorter of coming from there and the usual. */
export function visitMoveH(p: PlanProblem, usual: Float64Array, crew: number, job: number): number {
  return Math.min(p.firstMoveH[cj(p, crew, job)]!, usual[job]!)
}

/**
 * Hours of a crew on day 0 in one member. One move fits before anything is fit, where the crew is out by then. In a member
 * too wet to use the moves made for the others, the moves still have room: they are only in vain.
 */
export function dayRoom(p: PlanProblem, usual: Float64Array, crew: number, member: number): number {
  let open = 0
  let out = 0
  for (let b = 0; b < p.blocks.length && p.blocks[b]!.day === 0; b++) {
    open += p.openH[(crew * p.blocks.length + b) * p.members + member]!
    out += p.crewH[crew * p.blocks.length + b]!
  }
  const moves = p.jobs.map((_, j) => visitMoveH(p, usual, crew, j)).sort((a, b) => b - a)
  const allMoves = moves.slice(0, p.rules.fieldsPerDay).reduce((sum, hours) => sum + hours, 0)
  const before = Math.min(Math.max(0, out - open), moves.at(Math.floor(moves.length / 2)) ?? 0)
  return Math.max(open + before, allMoves)
}

/** Whether a crew could do anything in a job on day 0 in any member. */
export function canVisit(p: PlanProblem, crew: number, job: number): boolean {
  if (!(p.haPerH[cj(p, crew, job)]! > 0) || p.rules.keptOff[job * p.days] === 1) return false
  for (let b = 0; b < p.blocks.length && p.blocks[b]!.day === 0; b++) {
    for (let m = 0; m < p.members; m++) if (p.fitH[cjbm(p, crew, job, b, m)]! > 0) return true
  }
  return false
}
