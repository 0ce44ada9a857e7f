/**
 * A day as a crew lives it: it goes down its list, stays in a field while it is fit and not done, and moves on. Hour by
 * hour and with the real distances, where the planning model has blocks and usual moves.
 */

/** One course of the weather of a day, for crews and jobs by number. */
export interface CrewDay {
  readonly startEpochH: number
  readonly hours: number
  /** Pace at which a job is cut in that hour, as share of the usual; 0 where it is not fit, by job and hour. */
  readonly fit: Float32Array
  /** What a hectare brings in that hour, by job and hour [money/ha]. */
  readonly worthPerHa: Float64Array
  readonly crews: readonly CrewToday[]
  /** From job to job [h]. */
  readonly moveH: Float64Array
  /** By crew and job [ha/h]; 0 = cannot. */
  readonly haPerH: Float64Array
  /** Until when a crew gets rid of what it cuts in a job, by crew and job, hours since the epoch. */
  readonly haulEnd: Float64Array
  /** By job: index of the buyer, -1 = no limit. */
  readonly buyer: readonly number[]
  readonly tPerHa: readonly number[]
  readonly crewsPerField: number
}

export interface CrewToday {
  /** When it is out; nothing on a day off. */
  readonly fromEpochH: number
  readonly toEpochH: number
  /** By job: from where it stands [h]. */
  readonly firstMoveH: Float64Array
}

export interface Stock {
  /** Left by job [ha]; used up. */
  readonly leftHa: Float64Array
  /** What a buyer takes today, by buyer [t]; used up. */
  readonly buyerT: Float64Array
}

export interface CutToday {
  readonly crew: number
  readonly job: number
  /** Middle of the step, hours since the epoch. */
  readonly atEpochH: number
  readonly ha: number
  readonly worthPerHa: number
}

/** The grain of time [h]. */
const STEP_H = 0.25
/** A pace from which it is worked. */
const SLOWEST = 0.5
const SLIVER_HA = 0.05

export interface DayDone {
  /** Job in which each crew stands at the end; -1 = where it was. */
  readonly at: readonly number[]
  readonly roadH: number
}

/** @param lists by crew, jobs in their order. @param note told of every step cut. */
export function liveDay(
  day: CrewDay,
  lists: readonly (readonly number[])[],
  stock: Stock,
  note: (cut: CutToday) => void,
): DayDone {
  const jobs = day.buyer.length
  const at = day.crews.map(() => -1)
  const busyUntil = day.crews.map(({ fromEpochH }) => fromEpochH)
  let roadH = 0
  const open = (crew: number, job: number, epochH: number): boolean => {
    const hour = Math.floor(epochH - day.startEpochH)
    if (hour < 0 || hour >= day.hours || !(day.haPerH[crew * jobs + job]! > 0)) return false
    if (stock.leftHa[job]! <= SLIVER_HA || epochH >= day.haulEnd[crew * jobs + job]!) return false
    const buyer = day.buyer[job]!
    if (buyer >= 0 && stock.buyerT[buyer]! <= SLIVER_HA) return false
    return day.fit[job * day.hours + hour]! >= SLOWEST
  }
  const roomIn = (crew: number, job: number): boolean => {
    let others = 0
    for (let c = 0; c < at.length; c++) if (c !== crew && at[c] === job) others++
    return others < day.crewsPerField
  }
  const move = (crew: number, job: number): number => {
    const from = at[crew]!
    return from < 0 ? day.crews[crew]!.firstMoveH[job]! : day.moveH[from * jobs + job]!
  }
  const first = (crew: number, t: number): number => {
    for (const job of lists[crew]!) {
      if (job !== at[crew] && roomIn(crew, job) && open(crew, job, t + move(crew, job))) return job
    }
    return -1
  }
  const end = day.startEpochH + lastFitHour(day) + 1
  for (let t = day.startEpochH; t < end; t += STEP_H) {
    for (let c = 0; c < day.crews.length; c++) {
      const crew = day.crews[c]!
      if (t < busyUntil[c]! - 1e-9 || t + STEP_H > crew.toEpochH + 1e-9) continue
      let job = at[c]!
      if (job < 0 || !open(c, job, t)) {
        const next = first(c, t)
        if (next < 0) continue
        const road = move(c, next)
        roadH += road
        at[c] = next
        busyUntil[c] = t + road
        if (road >= STEP_H) continue
        job = next
      }
      const buyer = day.buyer[job]!
      const pace = day.fit[job * day.hours + Math.floor(t - day.startEpochH)]!
      const ha = Math.min(
        stock.leftHa[job]!,
        pace * day.haPerH[c * jobs + job]! * Math.min(STEP_H, t + STEP_H - busyUntil[c]!),
        buyer < 0 ? Number.POSITIVE_INFINITY : stock.buyerT[buyer]! / day.tPerHa[job]!,
      )
      if (!(ha > 0)) continue
      stock.leftHa[job]! -= ha
      if (buyer >= 0) stock.buyerT[buyer]! -= ha * day.tPerHa[job]!
      const hour = Math.floor(t - day.startEpochH)
      note({ crew: c, job, atEpochH: t + STEP_H / 2, ha, worthPerHa: day.worthPerHa[job * day.hours + hour]! })
    }
  }
  return { at, roadH }
}

/** Last hour in which anything is fit; -1 = none. */
function lastFitHour({ fit, hours }: CrewDay): number {
  let last = -1
  for (let i = 0; i < fit.length; i++) if (fit[i]! >= SLOWEST && i % hours > last) last = i % hours
  return last
}
