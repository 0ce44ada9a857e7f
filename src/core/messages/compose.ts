/** From the day's plan, outlooks and weather to what the morning message says. No words here. */
import type { Farm } from '#core/farm/farm.ts'
import type { FieldPart } from '#core/field/parts.ts'
import { banAt, type FireOutlook, fireThrough } from '#core/outlook/day-fire.ts'
import { type DewTimes, type RainAhead, windThrough } from '#core/outlook/day-weather.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { DayPlan, Run, Waiting } from '#core/planning/plan.ts'
import { joinRuns } from '#core/planning/run.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { passAdvice } from '#core/science/dust/sight.ts'
import { epochHoursAtMinute, hoursOfLocalDay } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type {
  Caution,
  Headline,
  MorningMessage,
  SaidAgreement,
  SaidChange,
  SaidDust,
  SaidFire,
  SaidHauling,
  SaidLeave,
  SaidOfficials,
  SaidPoorRecord,
  SaidRun,
} from './morning.ts'
import { partName } from './names.ts'

export interface ComposeInput {
  readonly farm: Farm
  readonly date: Temporal.PlainDate
  readonly nowEpochH: number
  readonly plan: DayPlan
  readonly outlooks: readonly Outlook[]
  readonly weather: Weather
  readonly dew: DewTimes
  readonly rain: RainAhead
  readonly fire: FireOutlook
  readonly changes: readonly SaidChange[]
  /** Whether any reading has been taken in the part run first. */
  readonly measured: boolean
  /** Absent unless the forecasts of late were poor. */
  readonly poorRecord?: SaidPoorRecord | undefined
  /** Official warnings of the day; none unless told. */
  readonly official?: SaidOfficials
  /** What was seen up to now, to credit its supplier. */
  readonly past?: Weather
  readonly agreement?: SaidAgreement | undefined
}

/** Where nobody was asked for warnings. */
export const NOTHING_OFFICIAL: SaidOfficials = { quoted: [], unread: false }

/** Weather older than this is told on the first line [h]. */
export const OLD_WEATHER_H = 3
/** More lines than this and nobody reads them on a phone. */
const MOST_THEN = 2
const MOST_LEFT = 2
const MOST_TURNS = 3
/** The working part of the day, for which fire is told. */
const MIDDAY = { fromMinute: 10 * 60, toMinute: 19 * 60 }

export function composeMorning(given: ComposeInput): MorningMessage {
  const input = { ...given, plan: { ...given.plan, runs: joinRuns(given.plan.runs, given.farm.outfits) } }
  const { farm, plan, weather, nowEpochH, date } = input
  const first = plan.runs[0]
  const others = plan.runs.slice(1)
  const span = workSpan(plan, date, farm.timeZone, nowEpochH)
  const fire = sayFire(input, span)
  const dust = first && sayDust(first, farm, weather)
  const said = sayWeather(input)
  const headline: Headline = first ? { kind: 'run', run: sayRun(first) } : standBy(input)
  return {
    ...openingOf(farm, date, nowEpochH),
    headline,
    after: others.slice(0, MOST_THEN).map(sayRun),
    leave: plan.waiting
      .filter(({ reason }) => tellsOfField(reason, headline))
      .slice(0, MOST_LEFT)
      .map(sayLeave),
    turns: turnsOf(plan),
    dew: input.dew,
    rain: input.rain,
    fire,
    official: input.official ?? NOTHING_OFFICIAL,
    dust,
    hauling: first && sayHauling(plan.runs, farm, date),
    changes: input.changes,
    confidence: first && {
      chance: first.chance,
      lowWb: first.lowWb,
      highWb: first.highWb,
      measured: input.measured,
      ...(input.poorRecord ? { poorRecord: input.poorRecord } : {}),
    },
    weather: said,
    ...(said.ageH > OLD_WEATHER_H ? { oldWeatherH: said.ageH } : {}),
    cautions: cautionsFor(fire, first !== undefined),
  }
}

/** Whose message, of when, and in whose manner. */
const openingOf = (farm: Farm, date: Temporal.PlainDate, nowEpochH: number) => ({
  farmName: farm.name,
  date,
  nowEpochH,
  timeZone: farm.timeZone,
  units: farm.units,
  language: farm.language,
})

/** The message of a day on which the weather is too old, missing or impossible: it names no field and says why. */
export function composeNoForecast(
  farm: Farm,
  date: Temporal.PlainDate,
  nowEpochH: number,
  reason: string,
  ageH: number,
  official: SaidOfficials = NOTHING_OFFICIAL,
): MorningMessage {
  const fire = unknownFire(farm, date, official)
  return {
    ...openingOf(farm, date, nowEpochH),
    headline: { kind: 'no-forecast', reason, ageH, limitH: farm.morning.weatherAgeLimitH },
    after: [],
    leave: [],
    turns: [],
    dew: { kind: 'unknown', offEpochH: Number.NaN, onEpochH: Number.NaN, rainBefore: false, rainAfter: false },
    rain: { kind: 'unknown' },
    fire,
    official,
    dust: undefined,
    hauling: undefined,
    changes: [],
    confidence: undefined,
    weather: {
      ageH,
      source: 'none usable',
      attribution: '',
      credits: [],
      spread: 'single',
      members: 0,
      remarks: [reason],
    },
    cautions: cautionsFor(fire, false),
  }
}

/** Names of what comes after the runs told in full: later runs of today, then fit parts that no machine is free for. */
function turnsOf({ runs, waiting }: DayPlan): string[] {
  const told = new Set(runs.slice(0, 1 + MOST_THEN).map(({ part }) => partName(part)))
  const parts = [...runs, ...waiting.filter(({ reason }) => reason === 'later-turn')]
  const names = new Set(parts.map(({ part }) => partName(part)))
  return [...names.difference(told)].slice(0, MOST_TURNS)
}

const sayRun = (run: Run): SaidRun => ({
  partName: partName(run.part),
  crop: run.part.field.crop,
  startEpochH: run.startEpochH,
  endEpochH: run.endEpochH,
  startMoistureWb: run.startMoistureWb,
  endMoistureWb: run.endMoistureWb,
  brittle: Math.min(run.startMoistureWb, run.endMoistureWb) < run.part.field.band.lowWb,
  areaHa: run.areaHa,
  ofAreaHa: run.ofAreaHa,
  massT: run.massT,
  lbPerBu: CROP_TRADE[run.part.field.crop].lbPerBu,
  truckLoads: run.truckLoads,
  combines: run.combines,
  chance: run.chance,
})

const sayLeave = (waiting: Waiting): SaidLeave => ({
  partName: partName(waiting.part),
  crop: waiting.part.field.crop,
  reason: waiting.reason,
  moistureWb: waiting.moistureWb,
  nextEpochH: waiting.next?.startEpochH,
  chance: waiting.next?.chance ?? Number.NaN,
})

/** Is a reason to leave a part worth a line: not what holds all fields alike, nor what the first line says already. */
function tellsOfField(reason: Waiting['reason'], headline: Headline): boolean {
  if (reason === 'later-turn' || reason === 'crew-off' || reason === 'dark') return false
  const tellsMoisture = reason === 'wet-grain' || reason === 'unripe'
  return tellsMoisture || headline.kind !== 'wait' || headline.reason !== reason
}

function standBy({ plan, outlooks, farm, date }: ComposeInput): Headline {
  if (plan.waiting.length === 0 && plan.ranking.length === 0) return { kind: 'done' }
  const next = plan.waiting.find((waiting) => waiting.next)
  const common = commonReason(plan.waiting)
  // A crew that goes home in the evening is not off today.
  const dayOff = farm.outfits.every(({ daysOff }) => daysOff.includes(date.dayOfWeek))
  const reason = (common === 'crew-off' && !dayOff) || common === 'dark' ? undefined : common
  if (!next?.next || outlooks.length === 0) {
    return { kind: 'wait', nextFieldName: undefined, nextEpochH: Number.NaN, chance: Number.NaN, reason }
  }
  return {
    kind: 'wait',
    nextFieldName: partName(next.part),
    nextEpochH: next.next.startEpochH,
    chance: next.next.chance,
    reason,
  }
}

/** The reason that holds back most parts today, if it is one of the weather's or the field's. */
function commonReason(waiting: readonly Waiting[]) {
  const counts = new Map<string, number>()
  for (const { reason } of waiting) counts.set(reason, (counts.get(reason) ?? 0) + 1)
  const [top] = [...counts].sort((a, b) => b[1] - a[1])
  const found = waiting.find(({ reason }) => reason === top?.[0])?.reason
  return found === 'later-turn' || found === 'patch-green' || found === 'short-window' || found === 'no-outfit'
    ? undefined
    : found
}

/** The working day, and the runs where they reach beyond it: a fire stop keeps runs away and must be told all the more. */
function workSpan(plan: DayPlan, date: Temporal.PlainDate, timeZone: string, nowEpochH: number) {
  const { endEpochH } = hoursOfLocalDay(date, timeZone)
  const starts = plan.runs.map((run) => run.startEpochH)
  const ends = plan.runs.map((run) => run.endEpochH)
  const from = Math.min(Math.max(nowEpochH, epochHoursAtMinute(date, MIDDAY.fromMinute, timeZone)), ...starts)
  const to = Math.max(from + 1, epochHoursAtMinute(date, MIDDAY.toMinute, timeZone), ...ends)
  return { from, to: Math.min(to, endEpochH) }
}

function sayFire(
  { farm, fire, weather, date, plan, official = NOTHING_OFFICIAL }: ComposeInput,
  span: { from: number; to: number },
): SaidFire {
  const day = fireThrough(weather, fire, span.from, span.to)
  return {
    ...day,
    strawUnder: plan.runs.some((run) => run.part.field.followsWheat),
    banText: banTextOf(farm, date, official),
  }
}

/** Of the farm's own rules, else of the day's official bans. */
const banTextOf = (farm: Farm, date: Temporal.PlainDate, official: SaidOfficials): string | undefined =>
  banAt(farm.fireRules, date)?.text ?? official.quoted.find(({ notice }) => notice === 'ban')?.headline

const unknownFire = (farm: Farm, date: Temporal.PlainDate, official: SaidOfficials): SaidFire => {
  const banText = banTextOf(farm, date, official)
  return {
    level: banText ? 'stop' : 'unknown',
    fromEpochH: Number.NaN,
    untilEpochH: Number.NaN,
    relHumidity: Number.NaN,
    gustMs: Number.NaN,
    grassIndex: Number.NaN,
    strawUnder: false,
    banText,
  }
}

function sayDust(run: Run, farm: Farm, weather: Weather): SaidDust | undefined {
  const wind = windThrough(weather, run.startEpochH, run.endEpochH)
  const head = headFor(run.part, farm, run.outfitId)
  if (!head) return undefined
  const advice = passAdvice(
    { windMs: wind.meanWindMs, windFromDeg: wind.windFromDeg, solarWm2: wind.meanSolarWm2 },
    {
      travelMs: head.speedMs,
      swathM: head.widthM,
      dustClass: 'usual',
      straw: run.part.field.followsWheat,
      ...(run.part.field.rowBearingDeg === undefined ? {} : { rowBearingDeg: run.part.field.rowBearingDeg }),
    },
  )
  if (!advice) return undefined
  return {
    calm: advice.calm,
    windFromDeg: wind.windFromDeg,
    windLowMs: wind.windLowMs,
    windHighMs: wind.windHighMs,
    preferBearingDeg: advice.preferBearingDeg,
    alongSight: advice.along,
    rowsSight: advice.rows?.visibility,
    rowsOffBestDeg: advice.rows?.offBestDeg,
    rowBearingDeg: advice.rows?.bearingDeg,
    staggerM: advice.staggerM,
    staggerFails: advice.staggerFails,
    doubled: run.part.field.followsWheat,
  }
}

function headFor(part: FieldPart, farm: Farm, outfitId: string) {
  const outfit = farm.outfits.find(({ id }) => id === outfitId)
  return outfit?.combines.flatMap(({ heads }) => heads).find(({ crops }) => crops.includes(part.field.crop))
}

function sayHauling(runs: readonly Run[], farm: Farm, date: Temporal.PlainDate): SaidHauling | undefined {
  const run = runs[0]!
  const outfit = farm.outfits.find(({ id }) => id === run.outfitId)
  const buyer = farm.buyers.find(({ id }) => id === run.part.field.buyerId)
  if (!outfit) return undefined
  return {
    // Combines of an outfit without carts drive to the trucks: none is needed.
    cartsNeeded: outfit.carts.length > 0 ? run.cartsNeeded : 0,
    cartsThere: outfit.carts.length,
    trucksNeeded: run.trucksNeeded,
    trucksThere: outfit.trucks.length,
    limitedBy: run.limitedBy,
    buyerName: buyer?.name ?? '',
    buyerClosesEpochH: buyer ? epochHoursAtMinute(date, buyer.hours.closeMinute, farm.timeZone) : Number.NaN,
  }
}

function sayWeather({ weather, past, agreement, nowEpochH }: ComposeInput): MorningMessage['weather'] {
  const { source, attribution, spread, issuedAtEpochH, remarks } = weather.provenance
  return {
    ageH: Math.max(0, nowEpochH - issuedAtEpochH),
    source,
    attribution,
    credits: [...new Set([weather, past].map(creditOf))].filter((credit) => credit !== ''),
    spread,
    members: weather.members,
    ...(agreement && { agreement }),
    remarks,
  }
}

/** A supplier of nothing, such as the one of an empty past, asks for no credit. */
function creditOf(weather: Weather | undefined): string {
  if (weather === undefined) return ''
  const { attribution, licence } = weather.provenance
  return attribution === '' || licence === '' ? attribution : `${attribution} (${licence})`
}

function cautionsFor(fire: SaidFire, cutting: boolean): Caution[] {
  const cautions: Caution[] = ['eyes-first', 'screen-lags']
  if (fire.level !== 'ordinary') cautions.push('fire-local-rules', 'fire-clean', 'fire-away')
  if (cutting) cautions.push('dust-stop', 'power-lines')
  return cautions
}
