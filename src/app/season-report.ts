/** The season so far: what is cut, what each load weighed, what is left and likely done by when, how good the forecasts were. */

import type { Cut } from '#core/field/cut.ts'
import { type Harvested, harvestedOf } from '#core/field/harvested.ts'
import { partsOf } from '#core/field/parts.ts'
import { ofThisSeason } from '#core/field/season.ts'
import { standingHa } from '#core/field/standing-area.ts'
import type { Farm, Field } from '#core/operation/farm.ts'
import type { Skill } from '#core/outlook/skill.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import { CROPS, type CropName } from '#core/science/crop.ts'
import { localDateOf } from '#core/units/time.ts'
import type { ForecastStore } from './forecasts-port.ts'
import type { PlanStore } from './plan-store.ts'
import { bodiesOf, type RecordStore } from './records-port.ts'
import { type Saved, savedFromPlans } from './saved.ts'
import { nearSkill } from './skill.ts'

export interface SeasonReport {
  readonly today: Temporal.PlainDate
  /** Every crop the farm grows this season, in the order of `CROPS`. */
  readonly crops: readonly CropSeason[]
  /** All crops together [ha]. */
  readonly areaHa: number
  readonly cutHa: number
  /** The last day of which the plan speaks; absent without a plan. */
  readonly seenTo: Temporal.PlainDate | undefined
  /** Newest first. */
  readonly loads: readonly Load[]
  /** What the plans were expected to bring more than simple rules; absent where none was priced. */
  readonly saved: Saved | undefined
  /** Forecasts up to two days ahead held against every reading of the season; absent where none are kept. */
  readonly skill: Skill | undefined
}

export interface CropSeason {
  readonly crop: CropName
  readonly areaHa: number
  readonly cutHa: number
  /** Of what was weighed and measured: not known where nothing was. */
  readonly harvested: Harvested
  /** Days on which something was cut, oldest first. */
  readonly days: readonly CutDay[]
  /** What the plan expects of what still stands; absent without a plan, or where nothing stands. */
  readonly ahead: CropAhead | undefined
}

export interface CutDay {
  readonly date: Temporal.PlainDate
  readonly areaHa: number
  /** Mean moisture of that day's loads, by area [% wet basis]; NaN = not measured. */
  readonly moistureWb: number
}

export interface CropAhead {
  /** From today on: area likely cut that day, mean over the courses of the weather [ha]. */
  readonly days: readonly { readonly date: Temporal.PlainDate; readonly meanHa: number }[]
  /** Area likely still standing after the last day of which the plan speaks [ha]. */
  readonly leftHa: number
  /** The day by which all but a twentieth of what stands now is likely cut; absent where it is not within the days seen. */
  readonly likelyDoneOn: Temporal.PlainDate | undefined
}

export interface Load {
  readonly partKey: string
  readonly crop: CropName
  readonly outfitId: string
  readonly atEpochH: number
  readonly areaHa: number
  /** As weighed [t]; NaN = not weighed. */
  readonly massT: number
  /** [% wet basis]; NaN = not measured. */
  readonly moistureWb: number
}

/** What of the plan is looked at. */
export type PlanAhead = Pick<WeekPlan, 'later' | 'left'>

export interface SeasonInput {
  /** With its fields as they are known by now. */
  readonly farm: Farm
  readonly nowEpochH: number
  /** Those that hold; others than this season's are left aside. */
  readonly cuts: readonly Cut[]
  readonly plan: PlanAhead | undefined
  readonly saved?: Saved | undefined
  readonly skill: Skill | undefined
}

/** A crop counts as done when so little of what stands is left: corners and wet holes are cut when they are. Choice. */
const ALL_BUT_SHARE = 0.05

/** Where the season is kept; what is absent is not known. */
export interface SeasonStores {
  readonly records?: Pick<RecordStore, 'current'> | undefined
  readonly forecasts?: Pick<ForecastStore, 'forecasts'> | undefined
  readonly plans?: Pick<PlanStore, 'history'> | undefined
}

/** The report from what the stores hold. @param farm with its fields as they are known by now. @param plan that of today. */
export async function seasonFromBook(
  farm: Farm,
  { records, forecasts, plans }: SeasonStores,
  plan: PlanAhead | undefined,
  nowEpochH: number,
): Promise<SeasonReport> {
  const [cuts, readings] = records
    ? await Promise.all([bodiesOf(records, farm.id, 'cut'), bodiesOf(records, farm.id, 'reading')])
    : [[], []]
  const [skill, saved] = await Promise.all([
    forecasts && nearSkill(farm.id, ofThisSeason(farm, readings), forecasts),
    plans && savedFromPlans(farm, plans, localDateOf(nowEpochH, farm.timeZone)),
  ])
  return seasonReport({ farm, nowEpochH, cuts, plan, saved, skill })
}

export function seasonReport({ farm, nowEpochH, cuts: told, plan, saved, skill }: SeasonInput): SeasonReport {
  const today = localDateOf(nowEpochH, farm.timeZone)
  const cuts = ofThisSeason(farm, told).filter(({ atEpochH }) => atEpochH <= nowEpochH)
  const crops = CROPS.flatMap((crop) => {
    const fields = farm.fields.filter((field) => field.crop === crop)
    return fields.length === 0 ? [] : [cropSeason(crop, fields, cuts, plan, today, farm)]
  })
  return {
    today,
    crops,
    areaHa: sum(crops, ({ areaHa }) => areaHa),
    cutHa: sum(crops, ({ cutHa }) => cutHa),
    seenTo: plan?.later
      .map(({ date }) => date)
      .sort(Temporal.PlainDate.compare)
      .at(-1),
    loads: loadsOf(farm, cuts),
    saved,
    skill,
  }
}

function cropSeason(
  crop: CropName,
  fields: readonly Field[],
  cuts: readonly Cut[],
  plan: PlanAhead | undefined,
  today: Temporal.PlainDate,
  farm: Farm,
): CropSeason {
  const days = cutDays(fields, cuts, today, farm)
  const areaHa = sum(fields, (field) => field.areaHa)
  const cutHa = sum(days, (day) => day.areaHa)
  return {
    crop,
    areaHa,
    cutHa,
    harvested: together(fields.map((field) => harvestedOf(field, cuts))),
    days,
    ahead: plan && cropAhead(fields, plan, today),
  }
}

/** What is cut by day: the area that stood before the day's cuts less what stood after them. */
function cutDays(fields: readonly Field[], cuts: readonly Cut[], today: Temporal.PlainDate, farm: Farm): CutDay[] {
  const found = new Map<string, { areaHa: number; measuredHa: number; pointHa: number }>()
  const on = (date: Temporal.PlainDate) => {
    const key = date.toString()
    const day = found.get(key) ?? { areaHa: 0, measuredHa: 0, pointHa: 0 }
    found.set(key, day)
    return day
  }
  for (const field of fields) {
    const keys = new Set(partsOf(field).map(({ key }) => key))
    const own = cuts.filter(({ partKey }) => keys.has(partKey)).sort((a, b) => a.atEpochH - b.atEpochH)
    const dateOf = ({ atEpochH }: Cut) => localDateOf(atEpochH, farm.timeZone)
    const cutOn = field.cutOn && Temporal.PlainDate.compare(field.cutOn, today) <= 0 ? field.cutOn : undefined
    const before = own.filter((cut) => !cutOn || Temporal.PlainDate.compare(dateOf(cut), cutOn) < 0)
    let standing = field.areaHa
    for (const [n, cut] of before.entries()) {
      const date = dateOf(cut)
      const next = before[n + 1]
      if (next && dateOf(next).equals(date)) continue
      const left = sum([...standingHa({ ...farm, fields: [field] }, before.slice(0, n + 1)).values()], (ha) => ha)
      on(date).areaHa += standing - left
      standing = left
    }
    if (cutOn) on(cutOn).areaHa += standing
    for (const cut of own) {
      if (cut.moistureWb === undefined) continue
      const day = on(dateOf(cut))
      day.measuredHa += cut.areaHa
      day.pointHa += cut.areaHa * cut.moistureWb
    }
  }
  return [...found]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([date, { areaHa, measuredHa, pointHa }]) => ({
      date: Temporal.PlainDate.from(date),
      areaHa,
      moistureWb: measuredHa > 0 ? pointHa / measuredHa : Number.NaN,
    }))
}

function cropAhead(fields: readonly Field[], plan: PlanAhead, today: Temporal.PlainDate): CropAhead | undefined {
  const keys = new Set(fields.flatMap(partsOf).map(({ key }) => key))
  const own = <T extends { readonly partKey: string }>(all: readonly T[]) =>
    all.filter(({ partKey }) => keys.has(partKey))
  const byDate = new Map<string, number>()
  for (const { date, meanHa } of own(plan.later)) {
    if (Temporal.PlainDate.compare(date, today) < 0) continue
    byDate.set(date.toString(), (byDate.get(date.toString()) ?? 0) + meanHa)
  }
  const days = [...byDate]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([date, meanHa]) => ({ date: Temporal.PlainDate.from(date), meanHa }))
  const leftHa = sum(own(plan.left), ({ meanHa }) => meanHa)
  const stands = leftHa + sum(days, ({ meanHa }) => meanHa)
  if (!(stands > 0)) return undefined
  let left = stands
  const done = days.find(({ meanHa }) => {
    left -= meanHa
    return left <= ALL_BUT_SHARE * stands
  })
  return { days, leftHa, likelyDoneOn: done?.date }
}

function loadsOf(farm: Farm, cuts: readonly Cut[]): Load[] {
  const cropOf = new Map(farm.fields.flatMap((field) => partsOf(field).map(({ key }) => [key, field.crop] as const)))
  return cuts
    .filter(({ massT, moistureWb }) => massT !== undefined || moistureWb !== undefined)
    .toSorted((a, b) => b.atEpochH - a.atEpochH || (a.id < b.id ? -1 : 1))
    .map(({ partKey, outfitId, atEpochH, areaHa, massT, moistureWb }) => ({
      partKey,
      crop: cropOf.get(partKey)!,
      outfitId,
      atEpochH,
      areaHa,
      massT: massT ?? Number.NaN,
      moistureWb: moistureWb ?? Number.NaN,
    }))
}

/** Fields together; each counts in the mean moisture by what came off it. */
function together(fields: readonly Harvested[]): Harvested {
  const weighed = fields.filter(({ massT }) => !Number.isNaN(massT))
  const massT = weighed.length > 0 ? sum(weighed, (one) => one.massT) : Number.NaN
  const measured = fields.filter(({ moistureWb }) => !Number.isNaN(moistureWb))
  const weight = ({ massT: mass, areaHa }: Harvested) => (Number.isNaN(mass) ? areaHa : mass)
  return {
    areaHa: sum(fields, ({ areaHa }) => areaHa),
    massT,
    yieldTHa: massT / sum(weighed, (one) => one.massT / one.yieldTHa),
    moistureWb: sum(measured, (one) => one.moistureWb * weight(one)) / sum(measured, weight),
  }
}

const sum = <T>(all: readonly T[], value: (one: T) => number): number =>
  all.reduce((total, one) => total + value(one), 0)
