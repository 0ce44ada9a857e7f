/**
 * Re-check of a solution against the problem itself, written apart from the model: areas, hours, buyers, visits, pins.
 * Nothing here uses the model's rows or the solver's word.
 */
import { cbm, cj, cjbm, type PlanProblem } from './problem.ts'
import type { Solution } from './solution.ts'

export type BrokenRule =
  | { readonly rule: 'area'; readonly job: number; readonly member: number; readonly overHa: number }
  | { readonly rule: 'not-fit'; readonly job: number; readonly member: number; readonly block: number }
  | { readonly rule: 'no-head'; readonly job: number; readonly crew: number }
  | {
      readonly rule: 'crew-hours'
      readonly crew: number
      readonly member: number
      readonly block: number
      readonly overH: number
    }
  | { readonly rule: 'day-hours'; readonly crew: number; readonly member: number; readonly overH: number }
  | {
      readonly rule: 'buyer-full'
      readonly buyer: number
      readonly member: number
      readonly day: number
      readonly overT: number
    }
  | { readonly rule: 'no-visit'; readonly crew: number; readonly job: number; readonly member: number }
  | { readonly rule: 'kept-off'; readonly job: number; readonly day: number }
  | { readonly rule: 'too-many-crews'; readonly job: number }
  | { readonly rule: 'too-many-fields'; readonly crew: number }
  | { readonly rule: 'pin-unheard'; readonly job: number }
  | { readonly rule: 'not-whole'; readonly job: number; readonly member: number }
  | { readonly rule: 'not-a-number'; readonly member: number }

/** Rounding of the solver [ha, h or t]. */
const SLACK = 1e-3

export function brokenRules(p: PlanProblem, { visits, cuts }: Solution): BrokenRule[] {
  const broken = checkVisits(p, visits)
  for (let m = 0; m < p.members; m++) broken.push(...checkMember(p, visits, cuts[m]!, m))
  return broken
}

function checkVisits(p: PlanProblem, visits: Solution['visits']): BrokenRule[] {
  const broken: BrokenRule[] = []
  const pins = p.rules.pins.filter(({ day }) => day === 0)
  for (const [crew, list] of visits.entries()) {
    const pinned = pins.filter((pin) => pin.crew === crew).length
    if (list.length > Math.max(p.rules.fieldsPerDay, pinned)) broken.push({ rule: 'too-many-fields', crew })
    for (const job of list) {
      if (p.rules.keptOff[job * p.days] === 1) broken.push({ rule: 'kept-off', job, day: 0 })
      if (!(p.haPerH[cj(p, crew, job)]! > 0)) broken.push({ rule: 'no-head', job, crew })
    }
  }
  for (const job of p.jobs.keys()) {
    const crews = visits.filter((list) => list.includes(job)).length
    const pinned = new Set(pins.filter((pin) => pin.job === job && pin.crew >= 0).map(({ crew }) => crew)).size
    if (crews > Math.max(p.rules.crewsPerField, pinned)) broken.push({ rule: 'too-many-crews', job })
  }
  for (const { job, crew } of pins) {
    const heard = crew >= 0 ? visits[crew]!.includes(job) : visits.some((list) => list.includes(job))
    if (!heard) broken.push({ rule: 'pin-unheard', job })
  }
  return broken
}

function checkMember(
  p: PlanProblem,
  visits: Solution['visits'],
  cuts: Solution['cuts'][number],
  member: number,
): BrokenRule[] {
  const broken: BrokenRule[] = []
  const cutHa = new Float64Array(p.jobs.length)
  const todayHa = new Float64Array(p.jobs.length)
  const blockH = new Map<string, { crews: readonly number[]; block: number; hours: number }>()
  const dayH = new Float64Array(p.crews.length)
  const buyerT = new Map<string, { buyer: number; day: number; t: number }>()
  for (const { pool, job, block, ha } of cuts) {
    if (!(ha >= 0)) {
      broken.push({ rule: 'not-a-number', member })
      continue
    }
    const { day } = p.blocks[block]!
    cutHa[job]! += ha
    if (p.rules.keptOff[job * p.days + day] === 1) broken.push({ rule: 'kept-off', job, day })
    const rate = pool.crews.reduce((sum, crew) => sum + p.haPerH[cj(p, crew, job)]!, 0)
    const able = pool.crews
      .map((crew) => p.haPerH[cj(p, crew, job)]! * p.fitH[cjbm(p, crew, job, block, member)]!)
      .sort((a, b) => b - a)
      .slice(0, pool.crews.length === 1 ? 1 : p.rules.crewsPerField)
    if (ha > able.reduce((sum, most) => sum + most, 0) + SLACK) broken.push({ rule: 'not-fit', job, member, block })
    const hours = ha / rate
    const key = `${pool.crews.join('+')}@${block}`
    const shift = blockH.get(key) ?? { crews: pool.crews, block, hours: 0 }
    shift.hours += hours
    blockH.set(key, shift)
    if (day === 0) {
      const crew = pool.crews[0]!
      todayHa[job]! += ha
      dayH[crew]! += hours
      if (!visits[crew]!.includes(job)) broken.push({ rule: 'no-visit', crew, job, member })
    }
    const { buyer, tPerHa } = p.jobs[job]!
    if (buyer < 0) continue
    const sold = buyerT.get(`${buyer}/${day}`) ?? { buyer, day, t: 0 }
    sold.t += ha * tPerHa
    buyerT.set(`${buyer}/${day}`, sold)
  }
  for (const [job, { areaHa, whole }] of p.jobs.entries()) {
    const overHa = cutHa[job]! - areaHa
    if (overHa > SLACK) broken.push({ rule: 'area', job, member, overHa })
    const begun = todayHa[job]! > SLACK && todayHa[job]! < areaHa - SLACK
    if (whole && begun) broken.push({ rule: 'not-whole', job, member })
  }
  for (const { crews, block, hours } of blockH.values()) {
    const open = Math.max(...crews.map((crew) => p.openH[cbm(p, crew, block, member)]!))
    if (hours > open + SLACK) broken.push({ rule: 'crew-hours', crew: crews[0]!, member, block, overH: hours - open })
  }
  for (const [crew, hours] of dayH.entries()) {
    let out = 0
    for (const [block, { day }] of p.blocks.entries()) if (day === 0) out += p.crewH[crew * p.blocks.length + block]!
    if (hours > out + SLACK) broken.push({ rule: 'day-hours', crew, member, overH: hours - out })
  }
  for (const { buyer, day, t } of buyerT.values()) {
    const overT = t - p.buyers[buyer]!.dailyT * p.dayLength[day]!
    if (overT > SLACK) broken.push({ rule: 'buyer-full', buyer, member, day, overT })
  }
  return broken
}
