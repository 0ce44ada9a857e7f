/**
 * A plan followed through every member by plain rules, quickly: what fallback and search are judged by.
 *
 * Day 0 goes by the visits in their order; later days give each block to the jobs that lose most money per crew hour by
 * waiting. Whatever comes out is a solution of the planning model, so its loss is a true upper bound on the least loss.
 */
import { hoursPerHa } from './model.ts'
import { dayRoom, laterMovePerHa, usualMoveH, visitMoveH } from './moves.ts'
import { alone, type Pool, poolCostPerHa, poolMostHa, poolOpenH, poolsOf } from './pools.ts'
import { bestPerHa, cj, leftNetPerHa, NOTHING, netPerHa, type PlanProblem } from './problem.ts'

/** For each crew the jobs it visits on day 0, in order. */
export type Visits = readonly (readonly number[])[]

export interface Amount {
  readonly pool: Pool
  readonly job: number
  readonly block: number
  readonly ha: number
}

export interface Followed {
  /** Mean of the members [money]. */
  readonly loss: number
  readonly lossByMember: Float64Array
}

/** Days over which waiting is looked at: about one round of the fields (common practice, no source). */
const ROUND_DAYS = 5

interface Shift {
  readonly pool: Pool
  readonly block: number
  readonly openH: number
  readonly jobs: Int32Array
  readonly mostHa: Float64Array
  readonly lossPerHa: Float64Array
  readonly hoursPerHa: Float64Array
  /** Loss avoided by an hour spent here rather than later [money/h], on later days only. */
  readonly urgency: Float64Array
  /** Order of the jobs by urgency. */
  readonly order: Int32Array
}

/** The problem prepared for following many plans. */
export class Recourse {
  readonly problem: PlanProblem
  readonly usualMoveH: Float64Array
  readonly #best: Float64Array
  readonly #today: readonly (readonly Shift[][])[]
  readonly #later: readonly (readonly Shift[])[]
  readonly #room: Float64Array

  constructor(problem: PlanProblem) {
    this.problem = problem
    this.usualMoveH = usualMoveH(problem)
    this.#best = bestPerHa(problem)
    const { crews, members } = problem
    const pools = poolsOf(problem)
    this.#room = Float64Array.from({ length: crews.length * members }, (_, i) =>
      dayRoom(problem, this.usualMoveH, Math.floor(i / members), i % members),
    )
    const waiting = waitingLoss(problem, this.#best, this.usualMoveH)
    const each = <T>(make: (member: number) => T) => Array.from({ length: members }, (_, m) => make(m))
    this.#today = each((m) => crews.map((_, c) => this.#shifts(alone(c), true, m, waiting)))
    this.#later = each((m) =>
      pools.flatMap((pool) => this.#shifts(pool, false, m, waiting)).sort((a, b) => a.block - b.block),
    )
  }

  #shifts(pool: Pool, today: boolean, m: number, waiting: Float64Array): Shift[] {
    const p = this.problem
    const shifts: Shift[] = []
    for (let block = 0; block < p.blocks.length; block++) {
      if ((p.blocks[block]!.day === 0) !== today) continue
      const jobs: number[] = []
      for (let j = 0; j < p.jobs.length; j++) if (poolMostHa(p, pool, j, block, m) > NOTHING) jobs.push(j)
      if (jobs.length === 0) continue
      const lossPerHa = Float64Array.from(
        jobs,
        (j) =>
          this.#best[j * p.members + m]! -
          netPerHa(p, j, block, m) +
          poolCostPerHa(p, pool, j) +
          (today ? 0 : laterMovePerHa(p, this.usualMoveH, j)),
      )
      const hours = Float64Array.from(jobs, (j) => hoursPerHa(p, this.usualMoveH, pool, j, today))
      const urgency = Float64Array.from(
        jobs,
        (j, k) => (waiting[(j * p.blocks.length + block) * p.members + m]! - lossPerHa[k]!) / hours[k]!,
      )
      shifts.push({
        pool,
        block,
        openH: poolOpenH(p, pool, block, m),
        jobs: Int32Array.from(jobs),
        mostHa: Float64Array.from(jobs, (j) => poolMostHa(p, pool, j, block, m)),
        lossPerHa,
        hoursPerHa: hours,
        urgency,
        order: Int32Array.from(jobs.keys()).sort((a, b) => urgency[b]! - urgency[a]! || a - b),
      })
    }
    return shifts
  }

  /** Loss avoided by a crew's hour in a job today rather than later, mean of the members in which it is fit [money/h]. */
  urgencyToday(crew: number, job: number): number {
    let sum = 0
    for (const shifts of this.#today) {
      let most = 0
      for (const shift of shifts[crew]!) {
        const k = shift.jobs.indexOf(job)
        if (k >= 0) most = Math.max(most, shift.urgency[k]!)
      }
      sum += most
    }
    return sum / this.problem.members
  }

  /** @param note told of every amount cut, if given. */
  follow(visits: Visits, note?: Noter): Followed {
    const p = this.problem
    const lossByMember = new Float64Array(p.members)
    const moves = this.#movesAndPromises(visits)
    for (let m = 0; m < p.members; m++) lossByMember[m] = moves + this.#followMember(visits, m, note)
    return { loss: lossByMember.reduce((sum, loss) => sum + loss, 0) / p.members, lossByMember }
  }

  #movesAndPromises(visits: Visits): number {
    const p = this.problem
    let cost = p.rules.promised.reduce((sum, promise) => sum + promise, 0)
    for (const [c, jobs] of visits.entries()) {
      for (const j of jobs) {
        cost += p.rules.moveCostPerH * visitMoveH(p, this.usualMoveH, c, j) - p.rules.promised[cj(p, c, j)]!
      }
    }
    return cost
  }

  #followMember(visits: Visits, m: number, note: Noter | undefined): number {
    const p = this.problem
    const stock = freshStock(p)
    let loss = 0
    for (const [c, shifts] of this.#today[m]!.entries()) {
      const list = visits[c]!
      if (list.length === 0) continue
      let dayH = this.#room[c * p.members + m]!
      for (const j of list) dayH -= visitMoveH(p, this.usualMoveH, c, j)
      for (const shift of shifts) {
        let freeH = shift.openH
        for (const j of list) {
          const k = shift.jobs.indexOf(j)
          if (k < 0) continue
          const ha = this.#cut(shift, k, Math.min(freeH, dayH), stock, m, note)
          loss += ha * shift.lossPerHa[k]!
          freeH -= ha * shift.hoursPerHa[k]!
          dayH -= ha * shift.hoursPerHa[k]!
        }
      }
    }
    return loss + this.#after(stock, m, note)
  }

  /** Loss of the days after day 0, when so much is left of each job; `leftHa` is used up. */
  lossAfterToday(leftHa: Float64Array, member: number, note?: Noter): number {
    return this.#after({ leftHa, buyerT: new Map() }, member, note)
  }

  /** Loss of a hectare against the best it could have brought, cut for this much [money/ha]. */
  lossPerHa(job: number, member: number, broughtPerHa: number): number {
    return this.#best[job * this.problem.members + member]! - broughtPerHa
  }

  #after(stock: Stock, m: number, note: Noter | undefined): number {
    const p = this.problem
    let loss = 0
    for (const shift of this.#later[m]!) {
      let freeH = shift.openH
      for (let o = 0; o < shift.order.length && freeH > NOTHING; o++) {
        const k = shift.order[o]!
        if (shift.urgency[k]! <= 0) break
        const ha = this.#cut(shift, k, freeH, stock, m, note)
        loss += ha * shift.lossPerHa[k]!
        freeH -= ha * shift.hoursPerHa[k]!
      }
    }
    for (let j = 0; j < p.jobs.length; j++) {
      const left = stock.leftHa[j]!
      if (left <= 0) continue
      const perHa = this.#best[j * p.members + m]! - leftNetPerHa(p, j, m) + laterMovePerHa(p, this.usualMoveH, j)
      loss += left * perHa
    }
    return loss
  }

  /** @returns what was cut [ha]. */
  #cut(shift: Shift, k: number, freeH: number, stock: Stock, m: number, note: Noter | undefined): number {
    const p = this.problem
    const job = shift.jobs[k]!
    const { buyer, tPerHa, whole } = p.jobs[job]!
    const { day } = p.blocks[shift.block]!
    const key = buyer * p.days + day
    const takes =
      buyer < 0 ? Number.POSITIVE_INFINITY : (stock.buyerT.get(key) ?? p.buyers[buyer]!.dailyT * p.dayLength[day]!)
    const left = stock.leftHa[job]!
    const ha = Math.min(shift.mostHa[k]!, left, freeH / shift.hoursPerHa[k]!, takes / tPerHa)
    if (ha <= NOTHING || (whole && day === 0 && ha < left - NOTHING)) return 0
    if (buyer >= 0) stock.buyerT.set(key, takes - ha * tPerHa)
    stock.leftHa[job] = left - ha
    note?.(m, { pool: shift.pool, job, block: shift.block, ha })
    return ha
  }
}

type Noter = (member: number, amount: Amount) => void

interface Stock {
  /** By job. */
  readonly leftHa: Float64Array
  /** What a buyer still takes, by buyer and day. */
  readonly buyerT: Map<number, number>
}

const freshStock = (p: PlanProblem): Stock => ({
  leftHa: Float64Array.from(p.jobs, ({ areaHa }) => areaHa),
  buyerT: new Map(),
})

/** What a hectare loses if it is cut not in a block but at one of the better chances of the round after, by job, block and member. */
function waitingLoss(p: PlanProblem, best: Float64Array, usual: Float64Array): Float64Array {
  const n = p.blocks.length
  const out = new Float64Array(p.jobs.length * n * p.members)
  for (let j = 0; j < p.jobs.length; j++) {
    for (let m = 0; m < p.members; m++) {
      const top = best[j * p.members + m]!
      const leftLoss = top - leftNetPerHa(p, j, m)
      for (let b = 0; b < n; b++) {
        const lastDay = p.blocks[b]!.day + ROUND_DAYS
        const chances: number[] = []
        for (let later = b + 1; later < n && p.blocks[later]!.day <= lastDay; later++) {
          if (p.blocks[later]!.day === p.blocks[b]!.day) continue
          const net = netPerHa(p, j, later, m)
          if (!Number.isNaN(net)) chances.push(top - net)
        }
        const better = chances.sort((x, y) => x - y).slice(0, Math.ceil(chances.length / 2))
        const mean = better.reduce((sum, loss) => sum + loss, 0) / better.length
        const waits = better.length > 0 ? Math.min(mean, leftLoss) : leftLoss
        out[(j * n + b) * p.members + m] = waits + laterMovePerHa(p, usual, j)
      }
    }
  }
  return out
}
