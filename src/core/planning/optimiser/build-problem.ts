/** From a farm, its outlooks and the planner's rules to the planning problem in numbers. */

import type { FieldPart } from '#core/field/parts.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { dayRoomT, roomPerHa } from '#core/planning/capacity/buyer.ts'
import type { OutfitRate } from '#core/planning/capacity/outfit.ts'
import { termsFor } from '#core/planning/first-plan.ts'
import { buyerShutsAt, haulEnd } from '#core/planning/haul-end.ts'
import { moveHours } from '#core/planning/moving.ts'
import { SLIVER_HA } from '#core/planning/plan.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import { toBlockAndMember } from './block-and-member.ts'
import { blocksFrom, crewSpan, overlapH, type Span } from './blocks.ts'
import { blockWorth, fitHours, usualFitMoistureWb } from './coefficients.ts'
import { isFit, typicalCourses } from './fit.ts'
import { LATE_PER_HA, MOVE_COST_PER_H, type PlanRules, PROMISE_WORTH } from './plan-rules.ts'
import type { Block, Pin, PlanProblem, ProblemRules } from './problem.ts'
import { DAYS_IN_WEEK, TAIL_WEEKS, worthAfter } from './tail.ts'
import { fillTail } from './tail-hours.ts'

export interface FarmPlanInput {
  readonly farm: Farm
  readonly outlooks: readonly Outlook[]
  readonly date: Temporal.PlainDate
  readonly nowEpochH: number
  /** Area still standing by part key [ha]; a part not named has all of it. */
  readonly standingHa: ReadonlyMap<string, number>
  /** What an outfit does in a part; undefined = it has no head for the crop. */
  readonly rateOf: (outfit: Outfit, part: FieldPart, moistureWb: number) => OutfitRate | undefined
  /** Part in which an outfit stands, by its id, where that is known. */
  readonly at: ReadonlyMap<string, FieldPart>
  readonly rules: PlanRules
  readonly days: number
  readonly members: number
  /** Weeks after the outlook that are reckoned with; TAIL_WEEKS unless told. */
  readonly tailWeeks?: number
}

export interface FarmProblem {
  readonly problem: PlanProblem
  /** What the problem's jobs and crews are, in its order. */
  readonly outlooks: readonly Outlook[]
  readonly outfits: readonly Outfit[]
  /** Rate by crew and job. */
  readonly rates: readonly (OutfitRate | undefined)[]
  /** Courses of the outlooks taken as members. */
  readonly courses: readonly number[]
}

const HOURS_OF_CHOICE = 96

export function buildProblem(input: FarmPlanInput): FarmProblem {
  const { farm, date, nowEpochH, rules } = input
  const areaOf = ({ part }: Outlook) => input.standingHa.get(part.key) ?? part.areaHa
  const outlooks = input.outlooks.filter((outlook) => areaOf(outlook) > SLIVER_HA && termsFor(outlook.part, farm))
  const outfits = farm.outfits
  const lastKnown = outlooks.length > 0 ? Math.min(...outlooks.map((o) => o.startEpochH + o.hours)) : nowEpochH
  const seen = blocksFrom(date, input.days, farm.timeZone, nowEpochH, lastKnown)
  const seenDays = (seen.at(-1)?.day ?? -1) + 1
  const weeks = input.tailWeeks ?? TAIL_WEEKS
  const blocks = [...seen, ...tailBlocks(seen.at(-1)?.endEpochH ?? nowEpochH, seenDays, weeks)]
  const days = seenDays + weeks
  const courses = outlooks.length > 0 ? typicalCourses(outlooks, input.members, HOURS_OF_CHOICE) : []
  const [C, J, B, M] = [outfits.length, outlooks.length, blocks.length, courses.length]

  const dates = Array.from({ length: seenDays }, (_, d) => date.add({ days: d }))
  const spans = outfits.map((outfit) => dates.map((day) => spanFromNow(outfit, day, farm.timeZone, nowEpochH)))
  const rates = outfits.flatMap((outfit) =>
    outlooks.map((outlook) => input.rateOf(outfit, outlook.part, likelyMoistureWb(outlook))),
  )
  const valuePerHa = new Float64Array(J * B * M)
  const leftPerHa = new Float64Array(J * M)
  const fitH = new Float32Array(C * J * B * M)
  for (const [j, outlook] of outlooks.entries()) {
    const terms = termsFor(outlook.part, farm)!
    const laterWb = usualFitMoistureWb(outlook, courses)
    const after = (days: number) => worthAfter(outlook, terms, courses, laterWb, days)
    leftPerHa.fill(after((weeks + 1) * DAYS_IN_WEEK), j * M, (j + 1) * M)
    for (let week = 0; week < weeks; week++) {
      const at = (j * B + seen.length + week) * M
      valuePerHa.fill(after((week + 0.5) * DAYS_IN_WEEK), at, at + M)
    }
    for (const [b, block] of seen.entries()) {
      const out = spans.flatMap((byDay) => byDay[block.day] ?? [])
      for (const [m, course] of courses.entries()) {
        valuePerHa[(j * B + b) * M + m] = blockWorth(outlook, terms, course, block, out)
      }
      for (const [c, outfit] of outfits.entries()) {
        const span = spans[c]![block.day]
        const rate = rates[c * J + j]
        if (!span || !rate) continue
        const shuts = buyerShutsAt(outlook.part, farm, dates[block.day]!)
        const until = Math.min(span.to, haulEnd(outfit, rate, shuts, span.from, 0))
        for (const [m, course] of courses.entries()) {
          fitH[((c * J + j) * B + b) * M + m] = fitHours(outlook, course, block, { from: span.from, to: until })
        }
      }
    }
  }
  toBlockAndMember(valuePerHa, leftPerHa, B, seen.length, M)
  const openH = openHours(outlooks, courses, blocks, seen.length, spans, rates)
  const isAble = (crew: number, job: number) => rates[crew * J + job] !== undefined
  const from = date.add({ days: seenDays })
  fillTail(outlooks, fitH, openH, { blocks, seen: seen.length, crews: C, courses, from, isAble })
  const problem: PlanProblem = {
    jobs: outlooks.map((outlook) => ({
      key: outlook.part.key,
      areaHa: areaOf(outlook),
      tPerHa: roomPerHa(outlook.part.field, farm, likelyMoistureWb(outlook)),
      buyer: farm.buyers.findIndex(({ id }) => id === outlook.part.field.buyerId),
      field: farm.fields.findIndex(({ id }) => id === outlook.part.field.id),
      whole: false,
    })),
    crews: outfits.map(({ id }) => ({ id })),
    blocks,
    days,
    dayLength: Array.from({ length: days }, (_, d) => (d < seenDays ? 1 : DAYS_IN_WEEK)),
    members: M,
    buyers: farm.buyers.map((buyer) => ({ id: buyer.id, dailyT: dayRoomT(buyer) })),
    valuePerHa,
    leftPerHa,
    fitH,
    openH,
    crewH: Float32Array.from({ length: C * B }, (_, i) => {
      const block = blocks[i % B]!
      const span = spans[Math.floor(i / B)]![block.day]
      if (block.day >= seenDays) return openH[i * M] ?? 0
      return span ? overlapH(span, block.startEpochH, block.endEpochH) : 0
    }),
    haPerH: Float64Array.from(rates, (rate) => (rate && rate.haPerH > 0 ? rate.haPerH : 0)),
    costPerHa: new Float64Array(C * J),
    firstMoveH: Float64Array.from({ length: C * J }, (_, i) =>
      moveHours(input.at.get(outfits[Math.floor(i / J)]!.id), outlooks[i % J]!.part),
    ),
    moveH: Float64Array.from({ length: J * J }, (_, i) =>
      moveHours(outlooks[Math.floor(i / J)]!.part, outlooks[i % J]!.part),
    ),
    rules: numbered(rules, outlooks, outfits, dates, days, areaOf),
  }
  return { problem, outlooks, outfits, rates, courses }
}

function spanFromNow(outfit: Outfit, date: Temporal.PlainDate, timeZone: string, nowEpochH: number): Span | undefined {
  const span = crewSpan(outfit, date, timeZone)
  return span && { from: Math.max(span.from, nowEpochH), to: span.to }
}

/** Moisture at which a part is likely to be cut: that of its first window, else the top of its band. */
const likelyMoistureWb = (outlook: Outlook): number =>
  outlook.windows[0]?.startMoistureWb ?? outlook.part.field.band.highWb

/** Hours in which a crew can cut at least one of the parts. */
function openHours(
  outlooks: readonly Outlook[],
  courses: readonly number[],
  blocks: PlanProblem['blocks'],
  seen: number,
  spans: readonly (readonly (Span | undefined)[])[],
  rates: FarmProblem['rates'],
): Float32Array {
  const [J, B, M] = [outlooks.length, blocks.length, courses.length]
  const openH = new Float32Array(spans.length * B * M)
  for (const [c, byDay] of spans.entries()) {
    const able = outlooks.filter((_, j) => rates[c * J + j] !== undefined)
    if (able.length === 0) continue
    const { startEpochH, hours } = able[0]!
    for (const [m, course] of courses.entries()) {
      for (const [b, block] of blocks.slice(0, seen).entries()) {
        const span = byDay[block.day]
        if (!span) continue
        const from = Math.max(0, Math.floor(block.startEpochH - startEpochH))
        const to = Math.min(hours, Math.ceil(block.endEpochH - startEpochH))
        for (let h = from; h < to; h++) {
          if (!able.some((outlook) => isFit(outlook, course, h))) continue
          const at = startEpochH + h
          openH[(c * B + b) * M + m]! += overlapH(
            span,
            Math.max(at, block.startEpochH),
            Math.min(at + 1, block.endEpochH),
          )
        }
      }
    }
  }
  return openH
}

function tailBlocks(fromEpochH: number, firstDay: number, weeks: number): Block[] {
  const weekH = DAYS_IN_WEEK * HOURS_PER_DAY
  return Array.from({ length: weeks }, (_, week) => ({
    day: firstDay + week,
    startEpochH: fromEpochH + week * weekH,
    endEpochH: fromEpochH + (week + 1) * weekH,
  }))
}

function numbered(
  rules: PlanRules,
  outlooks: readonly Outlook[],
  outfits: readonly Outfit[],
  dates: readonly Temporal.PlainDate[],
  days: number,
  areaOf: (outlook: Outlook) => number,
): ProblemRules {
  const jobOf = (key: string) => outlooks.findIndex(({ part }) => part.key === key)
  const crewOf = (id: string) => outfits.findIndex((outfit) => outfit.id === id)
  const dayOf = (date: Temporal.PlainDate) => dates.findIndex((day) => day.equals(date))
  const keptOff = new Uint8Array(outlooks.length * days)
  for (const { partKey, from, to } of rules.keepOffs) {
    const job = jobOf(partKey)
    if (job < 0) continue
    for (const [day, date] of dates.entries()) {
      const inside = Temporal.PlainDate.compare(from, date) <= 0 && Temporal.PlainDate.compare(date, to) <= 0
      if (inside) keptOff[job * days + day] = 1
    }
  }
  const pins = rules.pins.flatMap((pin): Pin[] => {
    const [job, day] = [jobOf(pin.partKey), dayOf(pin.date)]
    if (job < 0 || day < 0) return []
    const crew = pin.outfitId === undefined ? -1 : crewOf(pin.outfitId)
    return [{ job, day, crew, areaHa: Math.min(pin.areaHa ?? Number.POSITIVE_INFINITY, areaOf(outlooks[job]!)) }]
  })
  const lastDay = new Float64Array(outlooks.length).fill(Number.POSITIVE_INFINITY)
  for (const { partKey, date } of rules.deadlines) {
    const job = jobOf(partKey)
    if (job >= 0 && dates.length > 0) lastDay[job] = dates[0]!.until(date).days
  }
  const promised = new Float64Array(outfits.length * outlooks.length)
  for (const { outfitId, partKey } of rules.promised) {
    const [crew, job] = [crewOf(outfitId), jobOf(partKey)]
    if (crew >= 0 && job >= 0) promised[crew * outlooks.length + job] = PROMISE_WORTH
  }
  return {
    pins,
    keptOff,
    lastDay,
    latePerHa: LATE_PER_HA,
    crewsPerField: rules.outfitsPerField,
    fieldsPerDay: rules.fieldsPerDay,
    moveCostPerH: MOVE_COST_PER_H,
    promised,
    aversion: rules.aversion,
  }
}
