/**
 * The main job: from a farm, the weather seen and the weather ahead to the day's outlooks, plan and morning message.
 * Pure: the same inputs give the same day, live, in the demo and in a replay.
 */

import { Cell } from '#core/field/cell.ts'
import type { FieldEvent } from '#core/field/event.ts'
import { assimilate, type FieldBelief } from '#core/field/filter/assimilate.ts'
import { afterLastGap, fillAhead, fillGaps } from '#core/field/gaps.ts'
import { maturityOf } from '#core/field/maturity.ts'
import { type FieldPart, partsOf } from '#core/field/parts.ts'
import type { Reading } from '#core/field/reading.ts'
import { composeMorning } from '#core/messages/compose.ts'
import { NOTHING_OFFICIAL } from '#core/messages/compose-input.ts'
import type { MorningMessage, SaidAgreement, SaidOfficials, SaidPoorRecord } from '#core/messages/morning.ts'
import { partName } from '#core/messages/names.ts'
import { changesSince, type PublishedDay, publish } from '#core/messages/published.ts'
import type { Farm, Field } from '#core/operation/farm.ts'
import { type FireOutlook, fireOutlook } from '#core/outlook/day-fire.ts'
import { type DewTimes, dewTimes, rainAhead, rainChanceBetween } from '#core/outlook/day-weather.ts'
import { farmOutlooks } from '#core/outlook/farm-outlooks.ts'
import { inLoads } from '#core/outlook/loads.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { meanWind, paceOf } from '#core/outlook/pace.ts'
import { firstPlan } from '#core/planning/first-plan.ts'
import type { FarmPlanInput } from '#core/planning/optimiser/build-problem.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import type { CropName } from '#core/science/crop.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { growMembers, USUAL_RAIN_DAY_SHARE } from '#core/science/spread/grow-members.ts'
import { seedFromText } from '#core/units/random.ts'
import { localDateOf } from '#core/units/time.ts'
import type { Weather, WeatherToNow } from '#core/units/weather.ts'
import { untilHour } from './find-weather.ts'
import { type KeptState, keptState } from './moisture-past.ts'

export interface DayInput {
  readonly farm: Farm
  readonly nowEpochH: number
  /** Observed up to now, forecast from now on; the forecast with one member or the supplier's own. */
  readonly weather: WeatherToNow
  /** Area still standing by part key [ha]; a part not named has all of it. */
  readonly standingHa: ReadonlyMap<string, number>
  /** What was measured and seen up to now; nothing unless told. */
  readonly readings?: readonly Reading[]
  readonly events?: readonly FieldEvent[]
  /** Where the forecasts of late did not hold up against readings. */
  readonly poorRecord?: SaidPoorRecord | undefined
  readonly yesterday?: PublishedDay | undefined
  /** Codes of official fire notices by hour of the forecast; none unless told. */
  readonly official?: Uint8Array
  /** Their issuers' words for today. */
  readonly quoted?: SaidOfficials
  /** Whether the sources behind the forecast say the same of today. */
  readonly agreement?: SaidAgreement | undefined
}

/** The week's plan behind a day, and what it was made from: what the planner's questions start from. */
export interface Planned {
  readonly week: WeekPlan
  readonly input: FarmPlanInput
}

export interface ToTell {
  readonly day: DayPlan
  /** Absent where the first plan has to do. */
  readonly planned?: Planned
}

/** A day foreseen and planned, with all that is said of it. */
export interface Day extends Omit<Foreseen, 'input' | 'waterMmOf'> {
  /** Area still standing by key of what is cut as one [ha]; one not named has all of it. */
  readonly standingHa: ReadonlyMap<string, number>
  readonly dew: DewTimes
  readonly plan: DayPlan
  readonly message: MorningMessage
  readonly published: PublishedDay
  /** Absent where the day goes by the first plan. */
  readonly planned?: Planned
}

/** Courses of an outlook: enough that a chance of one in ten is told from two in ten. */
export const COURSES = 50
const MEMBERS_GROWN = 50
export const HORIZON_H = 240
/** Changes are told for the runs that the message names. */
const RUNS_COMPARED = 3

const cutBy = (field: Field, date: Temporal.PlainDate): boolean =>
  field.cutOn !== undefined && Temporal.PlainDate.compare(field.cutOn, date) <= 0

/** The day as far as it goes before anybody plans it: the weather made whole, the fields' state, and what each hour is fit for. */
export interface Foreseen {
  readonly input: DayInput
  readonly farm: Farm
  readonly nowEpochH: number
  readonly date: Temporal.PlainDate
  readonly past: Weather
  readonly ahead: Weather
  readonly maturity: ReadonlyMap<string, MaturityEstimate>
  readonly states: readonly KeptState[]
  /** What the readings say of meters, and which of them to ask about. */
  readonly belief: Omit<FieldBelief, 'states'>
  /** Of each part that stands, by itself. */
  readonly partOutlooks: readonly Outlook[]
  /** Of what is cut as one: a main stand with the patches the crew cuts through. */
  readonly outlooks: readonly Outlook[]
  readonly fire: FireOutlook
  readonly waterMmOf: (crop: CropName) => Float32Array
}

/** The day by the first plan, which needs no solver. */
export function makeDay(input: DayInput): Day {
  const foreseen = foresee(input)
  return tellDay(foreseen, { day: firstPlanOf(foreseen) })
}

export function firstPlanOf({ input, farm, outlooks, date, nowEpochH }: Foreseen): DayPlan {
  return firstPlan({ farm, outlooks, date, nowEpochH, standingHa: input.standingHa, rateOf: rateIn(farm) })
}

export function foresee(input: DayInput): Foreseen {
  const { farm, nowEpochH, standingHa } = input
  const date = localDateOf(nowEpochH, farm.timeZone)
  const { past, ahead } = prepareWeather(input.weather, nowEpochH)
  const pastCell = new Cell(afterLastGap(past))
  const aheadCell = new Cell(ahead, pastCell)
  const maturity = maturityOf(farm, [past, ahead])

  const standing = (part: FieldPart) => !cutBy(part.field, date) && (standingHa.get(part.key) ?? part.areaHa) > 0
  const all = farm.fields.flatMap(partsOf)
  const parts = all.filter(standing)
  const { states: run, ...belief } = assimilate({
    parts,
    finished: all.filter((part) => !standing(part)),
    maturity,
    timeZone: farm.timeZone,
    past: pastCell,
    ahead: aheadCell,
    readings: input.readings ?? [],
    events: input.events ?? [],
    keep: COURSES,
  })
  const states = run.map((state) => keptState(state, ahead.startEpochH))

  const strawDry = parts.some(({ field }) => field.followsWheat)
  const fire = fireOutlook(ahead, farm.fireRules, farm.timeZone, strawDry, input.official)
  const partOutlooks = farmOutlooks(farm, states, aheadCell, fire.stop)
  const loads = inLoads(partOutlooks, standingHa)
  const wind = meanWind(ahead)
  const outlooks = loads.outlooks.map((outlook) => ({ ...outlook, pace: paceOf(outlook.part.field, fire.level, wind) }))
  const known = { input: { ...input, standingHa: loads.standingHa }, partOutlooks, outlooks }
  const waterMmOf = (crop: CropName) => aheadCell.crop(crop).waterMm
  return { ...known, farm, nowEpochH, date, past, ahead, maturity, states, belief, fire, waterMmOf }
}

/** The day with its plan made: what is said of it, and what is kept to compare tomorrow's with. */
export function tellDay(foreseen: Foreseen, { day: plan, planned }: ToTell, yesterday = foreseen.input.yesterday): Day {
  const { input, waterMmOf, ...seen } = foreseen
  const { farm, nowEpochH, date, past, ahead, outlooks, fire } = seen
  const dewCrop: CropName = plan.runs[0]?.part.field.crop ?? outlooks[0]?.part.field.crop ?? 'soybean'
  const dew = dewTimes(ahead, waterMmOf(dewCrop), date, farm.timeZone)
  const rainChanceIn = (from: number, to: number) => rainChanceBetween(ahead, from, to)
  const published = publish(date, nowEpochH, farm.timeZone, plan, outlooks, rainChanceIn)
  const named = plan.runs.slice(0, RUNS_COMPARED).map(({ part }) => ({ key: part.key, name: partName(part) }))
  const message = composeMorning({
    farm,
    date,
    nowEpochH,
    plan,
    outlooks,
    weather: ahead,
    dew,
    rain: rainAhead(ahead),
    fire,
    official: input.quoted ?? NOTHING_OFFICIAL,
    past,
    agreement: input.agreement,
    changes: changesSince(yesterday, published, named, rainChanceIn),
    poorRecord: input.poorRecord,
    ...(planned && { choices: planned.week.choices }),
    measured: (input.readings ?? []).some(({ partKey }) => partKey === plan.runs[0]?.part.key),
  })
  const { standingHa } = input
  return { ...seen, standingHa, dew, plan, message, published, ...(planned && { planned }) }
}

/** Gaps of the past filled, the forecast cut to the horizon and, where it has one member, grown into many. */
function prepareWeather({ past, ahead }: WeatherToNow, nowEpochH: number): WeatherToNow {
  const { weather: filledPast, filled, sunHours, windHours, unknownHours } = fillGaps(past)
  const remarks = [...ahead.provenance.remarks]
  if (filled > 0) remarks.push(`${filled} missing values of the past bridged`)
  if (sunHours > 0) remarks.push(`sunlight of ${sunHours} h of the past estimated`)
  if (windHours > 0) remarks.push(`usual wind taken for ${windHours} h of the past`)
  if (unknownHours > 0) remarks.push(`${unknownHours} h of the past not known`)
  const cut = ahead.hours > HORIZON_H ? untilHour(ahead, ahead.startEpochH + HORIZON_H) : ahead
  const noted: Weather = { ...fillAhead(cut), provenance: { ...cut.provenance, remarks } }
  if (noted.members > 1) return { past: filledPast, ahead: noted }
  const grown = growMembers(noted, {
    members: MEMBERS_GROWN,
    seed: seedFromText(`${noted.place.latDeg},${noted.place.lonDeg},${noted.startEpochH}`),
    usualRainDayShare: USUAL_RAIN_DAY_SHARE,
    ageH: Math.max(0, nowEpochH - noted.provenance.issuedAtEpochH),
  })
  return { past: filledPast, ahead: grown }
}
