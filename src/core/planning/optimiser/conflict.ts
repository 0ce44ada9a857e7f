/** Pins that cannot all be kept on the likely weather, and the smallest set of them that clash. */
import { visitMoveH } from './moves.ts'
import { cbm, cj, cjbm, NOTHING, type Pin, type PlanProblem } from './problem.ts'
import type { PinConflict } from './week-plan.ts'

export type Clash = { readonly pin: Pin; readonly because: PinConflict['because'] }

/** Beyond so many pins on a day only sets up to this size are looked for. */
const LARGEST_SET = 5

/**
 * The smallest set of pins that cannot be kept together.
 *
 * Likely weather: mean of the members' fit hours. A pin that no outfit can keep alone is a set of one; otherwise sets of
 * two, three and so on of the pins of a day are tried until one asks for more hours than the outfits have.
 */
export function smallestClash(p: PlanProblem, usualMove: Float64Array): Clash[] {
  for (const pin of p.rules.pins) {
    const because = impossible(p, pin)
    if (because) return [{ pin, because }]
  }
  const byDay = Map.groupBy(p.rules.pins, ({ day }) => day)
  for (let size = 2; size <= LARGEST_SET; size++) {
    for (const pins of byDay.values()) {
      for (const set of subsets(pins, size)) {
        if (!fitsTogether(p, usualMove, set)) return set.map((pin) => ({ pin, because: 'not-enough-hours' as const }))
      }
    }
  }
  return []
}

function impossible(p: PlanProblem, { job, day, crew }: Pin): PinConflict['because'] | undefined {
  if (p.rules.keptOff[job * p.days + day] === 1) return 'kept-off'
  const crews = crew >= 0 ? [crew] : [...p.crews.keys()]
  const headed = crews.filter((c) => p.haPerH[cj(p, c, job)]! > 0)
  if (headed.length === 0) return 'no-outfit'
  const out = headed.filter((c) => dayHours(p, day, (b) => p.crewH[c * p.blocks.length + b]!) > 0)
  if (out.length === 0) return 'day-off'
  return out.every((c) => likelyFitH(p, c, job, day) <= NOTHING) ? 'never-fit' : undefined
}

/**
 * Whether the pins of a day can all be kept: each needs its hours of one outfit (its own, or any), and each outfit has so
 * many. Tried by handing the pins without an outfit to every outfit in turn.
 */
function fitsTogether(p: PlanProblem, usualMove: Float64Array, pins: readonly Pin[]): boolean {
  const day = pins[0]!.day
  const freeH = p.crews.map((_, c) => dayHours(p, day, (b) => meanOver(p, (m) => p.openH[cbm(p, c, b, m)]!)))
  const given = p.crews.map(() => 0)
  const place = (k: number): boolean => {
    const pin = pins[k]
    if (!pin) return true
    for (const c of pin.crew >= 0 ? [pin.crew] : p.crews.keys()) {
      const rate = p.haPerH[cj(p, c, pin.job)]!
      const fit = likelyFitH(p, c, pin.job, day)
      if (!(rate > 0) || fit <= NOTHING) continue
      const workH = Math.min(pin.areaHa / rate, fit)
      // The first move of a day is made before anything is fit.
      const needH = workH + (given[c] === 0 ? 0 : visitMoveH(p, usualMove, c, pin.job))
      if (needH > freeH[c]! + NOTHING) continue
      freeH[c]! -= needH
      given[c]!++
      if (place(k + 1)) return true
      freeH[c]! += needH
      given[c]!--
    }
    return false
  }
  return place(0)
}

function dayHours(p: PlanProblem, day: number, hoursOf: (block: number) => number): number {
  let sum = 0
  for (const [b, block] of p.blocks.entries()) if (block.day === day) sum += hoursOf(b)
  return sum
}

const likelyFitH = (p: PlanProblem, crew: number, job: number, day: number): number =>
  dayHours(p, day, (b) => meanOver(p, (m) => p.fitH[cjbm(p, crew, job, b, m)]!))

function meanOver(p: PlanProblem, of: (member: number) => number): number {
  let sum = 0
  for (let m = 0; m < p.members; m++) sum += of(m)
  return sum / p.members
}

function* subsets<T>(things: readonly T[], size: number, from = 0): Generator<T[]> {
  if (size === 0) {
    yield []
    return
  }
  for (let k = from; k <= things.length - size; k++) {
    for (const rest of subsets(things, size - 1, k + 1)) yield [things[k]!, ...rest]
  }
}
