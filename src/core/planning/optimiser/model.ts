/**
 * The planning problem as a two-stage linear model in dollars lost.
 *
 * First stage: which crew visits which job on day 0 (whole numbers). Then, member by member, how much is cut when: on
 * day 0 only where a visit was planned, later freely by pools of crews, moves charged by the share of a job that is cut.
 * Loss is counted against what machines without end would bring, so that a gap of 1 % is 1 % of what can be helped.
 */
import { type LinearModel, ModelBuilder } from './linear/linear-model.ts'
import { extensiveForm, type TwoStage } from './linear/two-stage.ts'
import { canVisit, dayRoom, laterMovePerHa, usualMoveH, visitMoveH } from './moves.ts'
import { alone, type Pool, poolCostPerHa, poolHaPerH, poolMostHa, poolOpenH, poolsOf } from './pools.ts'
import { bestPerHa, cj, leftNetPerHa, NOTHING, netPerHa, type Pin, type PlanProblem } from './problem.ts'

export interface PlanModel {
  readonly stages: TwoStage
  /** Crew and job of each common column. */
  readonly visits: readonly Visit[]
  /** For each member, what its own columns mean, in order. */
  readonly cuts: readonly (readonly Cut[])[]
}

export interface Visit {
  readonly crew: number
  readonly job: number
}

export interface Cut {
  /** One crew on day 0, a pool later. */
  readonly pool: Pool
  readonly job: number
  readonly block: number
}

/** A pin that the weather would have let be kept costs this many times the best value of a hectare. */
const PIN_WEIGHT = 3
const NONE = Number.NEGATIVE_INFINITY
const ANY = Number.POSITIVE_INFINITY

export function planModel(p: PlanProblem): PlanModel {
  const usual = usualMoveH(p)
  const best = bestPerHa(p)
  const visits: Visit[] = []
  for (let crew = 0; crew < p.crews.length; crew++) {
    for (let job = 0; job < p.jobs.length; job++) if (canVisit(p, crew, job)) visits.push({ crew, job })
  }
  const first = firstStage(p, visits, usual)
  const groups = { crews: p.crews.map((_, crew) => alone(crew)), pools: poolsOf(p) }
  const parts = Array.from({ length: p.members }, (_, member) =>
    memberModel({ p, ...groups, usual, best, member, visits, today: true }),
  )
  const scenarios = parts.map(({ model }) => ({ chance: 1 / p.members, model }))
  const { aversion } = p.rules
  return {
    stages: { first, scenarios, ...(aversion ? { aversion } : {}) },
    visits,
    cuts: parts.map(({ cuts }) => cuts),
  }
}

function firstStage(p: PlanProblem, visits: readonly Visit[], usual: Float64Array): LinearModel {
  const { rules } = p
  const builder = new ModelBuilder()
  for (const { crew, job } of visits) {
    const pinned = rules.pins.some((pin) => pin.day === 0 && pin.job === job && pin.crew === crew)
    const promised = rules.promised[cj(p, crew, job)]!
    builder.offset += promised
    builder.addCol(rules.moveCostPerH * visitMoveH(p, usual, crew, job) - promised, pinned ? 1 : 0, 1, 'whole')
  }
  const where = (test: (visit: Visit) => boolean) => visits.flatMap((visit, v) => (test(visit) ? [v] : []))
  const ones = (cols: readonly number[]) => cols.map(() => 1)
  for (let c = 0; c < p.crews.length; c++) {
    const cols = where(({ crew }) => crew === c)
    const pinned = rules.pins.filter(({ day, crew }) => day === 0 && crew === c).length
    if (cols.length > 0) builder.addRow(NONE, Math.max(rules.fieldsPerDay, pinned), cols, ones(cols))
  }
  for (const [field, jobs] of Map.groupBy(p.jobs.keys(), (j) => p.jobs[j]!.field)) {
    for (const j of jobs) {
      const cols = where(({ job }) => job === j)
      const most = p.jobs[j]!.whole ? 1 : Math.max(rules.crewsPerField, pinnedCrews(p, field))
      if (cols.length > most) builder.addRow(NONE, most, cols, ones(cols))
    }
  }
  for (const { day, job, crew } of rules.pins) {
    const cols = where((visit) => visit.job === job)
    if (day === 0 && crew < 0 && cols.length > 0) builder.addRow(1, ANY, cols, ones(cols))
  }
  return builder.build()
}

const pinnedCrews = (p: PlanProblem, field: number): number =>
  new Set(
    p.rules.pins
      .filter(({ day, job, crew }) => day === 0 && crew >= 0 && p.jobs[job]!.field === field)
      .map((x) => x.crew),
  ).size

interface MemberInput {
  readonly p: PlanProblem
  readonly crews: readonly Pool[]
  readonly pools: readonly Pool[]
  readonly usual: Float64Array
  readonly best: Float64Array
  readonly member: number
  readonly visits: readonly Visit[]
  /** Whether day 0 is still to come. */
  readonly today: boolean
}

export interface LaterModel {
  readonly model: LinearModel
  readonly cuts: readonly (readonly Cut[])[]
  /** First column, and first row, of each member; its first rows are those of the jobs, in their order. */
  readonly firstCol: readonly number[]
  readonly firstRow: readonly number[]
}

/** What is best done after day 0 when nothing was cut by then, each member by itself: sum of the members, not mean. */
export function laterModel(p: PlanProblem): LaterModel {
  const shared = { p, crews: [], pools: poolsOf(p), usual: usualMoveH(p), best: bestPerHa(p), visits: [], today: false }
  const parts = Array.from({ length: p.members }, (_, member) => memberModel({ ...shared, member }))
  const scenarios = parts.map(({ model }) => ({ chance: 1, model }))
  const { model, scenarioCol } = extensiveForm({ first: new ModelBuilder().build(), scenarios })
  let rows = 0
  const firstRow = parts.map((part) => {
    rows += part.model.rows
    return rows - part.model.rows
  })
  return { model, cuts: parts.map(({ cuts }) => cuts), firstCol: scenarioCol, firstRow }
}

function memberModel(input: MemberInput): { model: LinearModel; cuts: Cut[] } {
  const { p, crews, pools, usual, best, member: m, visits } = input
  const builder = new ModelBuilder()
  const visitOf = new Map(visits.map(({ crew, job }, v) => [cj(p, crew, job), v]))
  for (const _ of visits) builder.addCol(0, 0, 1)
  const cuts: Cut[] = []
  const byJob: number[][] = p.jobs.map(() => [])
  const byBuyerDay = new Map<number, number[]>()
  const byVisit: number[][] = visits.map(() => [])
  const shifts: { readonly pool: Pool; readonly block: number; readonly cols: number[] }[] = []

  for (let block = 0; block < p.blocks.length; block++) {
    const { day } = p.blocks[block]!
    if (day === 0 && !input.today) continue
    for (const pool of day === 0 ? crews : pools) {
      const cols: number[] = []
      for (let job = 0; job < p.jobs.length; job++) {
        const most = poolMostHa(p, pool, job, block, m)
        if (most <= NOTHING) continue
        const own = poolCostPerHa(p, pool, job) + (day === 0 ? 0 : laterMovePerHa(p, usual, job))
        const lost = best[job * p.members + m]! - netPerHa(p, job, block, m) + own
        const col = builder.addCol(lost, 0, most)
        cuts.push({ pool, job, block })
        cols.push(col)
        byJob[job]!.push(col)
        if (day === 0) byVisit[visitOf.get(cj(p, pool.crews[0]!, job))!]!.push(col)
        const { buyer } = p.jobs[job]!
        if (buyer >= 0 && Number.isFinite(p.buyers[buyer]!.dailyT)) push(byBuyerDay, buyer * p.days + day, col)
      }
      if (cols.length > 0) shifts.push({ pool, block, cols })
    }
  }
  const cutOf = (col: number): Cut => cuts[col - visits.length]!

  // All of a job is cut some time or left.
  for (const [j, { areaHa }] of p.jobs.entries()) {
    const lost = best[j * p.members + m]! - leftNetPerHa(p, j, m) + laterMovePerHa(p, usual, j)
    const left = builder.addCol(lost, 0, areaHa)
    builder.addRow(areaHa, areaHa, [...byJob[j]!, left], [...byJob[j]!.map(() => 1), 1])
  }
  // Day 0: only where a visit was planned.
  for (const [v, cols] of byVisit.entries()) {
    if (cols.length === 0) continue
    const { crew, job } = visits[v]!
    const { areaHa, whole } = p.jobs[job]!
    let most = 0
    for (const col of cols) most += builder.upperOf(col)
    const workH = dayRoom(p, usual, crew, m) - visitMoveH(p, usual, crew, job)
    most = Math.min(areaHa, most, p.haPerH[cj(p, crew, job)]! * Math.max(0, workH))
    // What must be done whole is not begun in a member in which it cannot be finished.
    if (whole && most < areaHa - NOTHING) most = 0
    builder.addRow(whole ? 0 : NONE, 0, [...cols, v], [...cols.map(() => 1), -most])
  }
  // A crew has so many hours in a block, and on day 0 so many for work and moves together.
  for (const { pool, block, cols } of shifts) {
    const today = p.blocks[block]!.day === 0
    const hours = cols.map((col) => hoursPerHa(p, usual, pool, cutOf(col).job, today))
    builder.addRow(NONE, poolOpenH(p, pool, block, m), cols, hours)
  }
  for (const [c, crew] of crews.entries()) {
    const today = shifts.flatMap(({ pool, block, cols }) => (pool === crew && p.blocks[block]!.day === 0 ? cols : []))
    if (today.length === 0) continue
    const own = visits.flatMap((visit, v) => (visit.crew === c ? [v] : []))
    const hours = today.map((col) => hoursPerHa(p, usual, crew, cutOf(col).job, true))
    const moves = own.map((v) => visitMoveH(p, usual, c, visits[v]!.job))
    builder.addRow(NONE, dayRoom(p, usual, c, m), [...today, ...own], [...hours, ...moves])
  }
  for (const [key, cols] of byBuyerDay) {
    const buyer = p.buyers[Math.floor(key / p.days)]!
    builder.addRow(
      NONE,
      buyer.dailyT * p.dayLength[key % p.days]!,
      cols,
      cols.map((col) => p.jobs[cutOf(col).job]!.tPerHa),
    )
  }
  for (const pin of p.rules.pins) {
    const own = byJob[pin.job]!.filter((col) => pinHolds(p, pin, cutOf(col)))
    addPin(builder, pin, own, best[pin.job * p.members + m]!)
  }
  return { model: builder.build(), cuts }
}

/** Hours a pool spends on a hectare; on later days with its share of one crew's move. */
export function hoursPerHa(p: PlanProblem, usual: Float64Array, pool: Pool, job: number, today: boolean): number {
  const work = 1 / poolHaPerH(p, pool, job)
  return today ? work : work + usual[job]! / p.jobs[job]!.areaHa / pool.crews.length
}

export const pinHolds = (p: PlanProblem, pin: Pin, { pool, block }: Cut): boolean =>
  p.blocks[block]!.day === pin.day && (pin.crew < 0 || pool.crews.includes(pin.crew))

/** What a hectare of a pin unheard weighs [money/ha]. */
export const pinWeightPerHa = (bestHa: number): number => PIN_WEIGHT * Math.max(1, bestHa)

/** What the weather does not let be done is not asked for. */
function addPin(builder: ModelBuilder, pin: Pin, cols: readonly number[], bestHa: number): void {
  const asked = Math.min(
    pin.areaHa,
    cols.reduce((sum, col) => sum + builder.upperOf(col), 0),
  )
  if (asked <= NOTHING) return
  const short = builder.addCol(pinWeightPerHa(bestHa), 0, asked)
  builder.addRow(asked, ANY, [...cols, short], [...cols.map(() => 1), 1])
}

function push(map: Map<number, number[]>, key: number, col: number): void {
  const list = map.get(key)
  if (list) list.push(col)
  else map.set(key, [col])
}
