/**
 * Random planning problems: fields on a square of land, dry and wet days that follow each other by chance, fit hours of 5
 * to 11 on a dry day and 0 to 3 on a wet one, values that fall by day and more by wet day. Capacity is kept tight.
 */
import type { Block, PlanProblem } from '#core/planning/optimiser/problem.ts'
import { seededRandom } from '#core/units/random.ts'

export interface RandomPlan {
  readonly seed: number
  readonly jobs: number
  readonly days: number
  readonly crews: number
  readonly members: number
}

/** Shifts of a day, hours after midnight. */
const SHIFTS: readonly (readonly [number, number])[] = [
  [8, 12],
  [12, 16],
  [16, 21],
]
const DAYS_IN_SHIFTS = 3

export function randomPlan({ seed, jobs, days, crews, members }: RandomPlan): PlanProblem {
  const random = seededRandom(seed)
  const between = (low: number, high: number) => low + (high - low) * random.uniform()
  const places = Array.from({ length: jobs }, () => ({ x: between(0, 20), y: between(0, 20) }))
  const areas = places.map(() => between(10, 60))
  const blocks: Block[] = []
  for (let day = 0; day < days; day++) {
    const shifts = day < DAYS_IN_SHIFTS ? SHIFTS : [[8, 21] as const]
    for (const [from, to] of shifts) blocks.push({ day, startEpochH: day * 24 + from, endEpochH: day * 24 + to })
  }
  const n = blocks.length
  const valuePerHa = new Float64Array(jobs * n * members)
  const leftPerHa = new Float64Array(jobs * members)
  const fitH = new Float32Array(crews * jobs * n * members)
  const openH = new Float32Array(crews * n * members)
  const crewH = Float32Array.from({ length: crews * n }, (_, i) => {
    const block = blocks[i % n]!
    return block.endEpochH - block.startEpochH
  })
  const worth = places.map(() => between(1500, 2800))
  const decay = places.map(() => between(2, 25))
  const ripeDay = places.map(() => Math.max(0, between(-6, days * 0.6)))
  for (let m = 0; m < members; m++) {
    let dry = random.uniform() < 0.7
    const lost = places.map(() => 0)
    for (let day = 0; day < days; day++) {
      dry = random.uniform() < (dry ? 0.8 : 0.45)
      const opens = dry ? between(9, 13) : between(15, 19)
      const closes = dry ? between(18, 21) : opens + between(0, 3)
      for (let j = 0; j < jobs; j++) {
        if (day >= ripeDay[j]!) lost[j]! += decay[j]! * (dry ? 0.8 : 1.6)
        const own = opens + 0.05 * (j % 7)
        for (let b = 0; b < n; b++) {
          const block = blocks[b]!
          if (block.day !== day) continue
          const from = Math.max(block.startEpochH - day * 24, own)
          const to = Math.min(block.endEpochH - day * 24, closes)
          const hours = day >= ripeDay[j]! ? Math.max(0, to - from) : 0
          const wetness = 20 * Math.max(0, 14 - (block.startEpochH - day * 24)) * 0.2
          valuePerHa[(j * n + b) * members + m] = hours > 0 ? worth[j]! - lost[j]! - wetness : Number.NaN
          for (let c = 0; c < crews; c++) {
            fitH[((c * jobs + j) * n + b) * members + m] = hours
            const open = (c * n + b) * members + m
            openH[open] = Math.max(openH[open]!, hours)
          }
        }
      }
    }
    for (let j = 0; j < jobs; j++) leftPerHa[j * members + m] = worth[j]! - lost[j]! - 10 * decay[j]!
  }
  const km = (a: number, b: number) => Math.hypot(places[a]!.x - places[b]!.x, places[a]!.y - places[b]!.y)
  const rates = Array.from({ length: crews }, () => between(3, 6))
  const starts = Array.from({ length: crews }, () => Math.floor(random.uniform() * jobs))
  const move = (a: number, b: number) => (a === b ? 0 : 0.4 + km(a, b) / 24)
  return {
    jobs: places.map((_, j) => ({
      key: `f${j}`,
      areaHa: areas[j]!,
      tPerHa: 4,
      buyer: 0,
      field: j,
      whole: false,
    })),
    crews: rates.map((_, c) => ({ id: `crew${c}` })),
    blocks,
    days,
    dayLength: new Array<number>(days).fill(1),
    members,
    buyers: [{ id: 'elevator', dailyT: crews * 260 }],
    valuePerHa,
    leftPerHa,
    fitH,
    openH,
    crewH,
    haPerH: Float64Array.from({ length: crews * jobs }, (_, i) => rates[Math.floor(i / jobs)]!),
    costPerHa: new Float64Array(crews * jobs),
    firstMoveH: Float64Array.from({ length: crews * jobs }, (_, i) => move(starts[Math.floor(i / jobs)]!, i % jobs)),
    moveH: Float64Array.from({ length: jobs * jobs }, (_, i) => move(Math.floor(i / jobs), i % jobs)),
    rules: {
      pins: [],
      keptOff: new Uint8Array(jobs * days),
      lastDay: new Float64Array(jobs).fill(Number.POSITIVE_INFINITY),
      latePerHa: 500,
      crewsPerField: 2,
      fieldsPerDay: 4,
      moveCostPerH: 100,
      promised: new Float64Array(crews * jobs),
      aversion: undefined,
    },
  }
}
