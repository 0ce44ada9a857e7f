/** Rain, fire, official warnings and the state of the weather itself. */
import { banAt, fireThrough } from '#core/outlook/day-fire.ts'
import { quantileOfSorted } from '#core/outlook/quantile.ts'
import { crewsOut } from '#core/planning/crews-out.ts'
import { LEVEL_CARE, LEVEL_STOP, LEVEL_UNKNOWN } from '#core/science/fire/care.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type { AlertReading } from './alert.ts'
import { type Look, underWay, type WatchInput } from './watch-input.ts'

const RAIN_LEAD_H = 3
const RAIN_WORK_LEAD_H = 2
/** Enough to stop a combine [mm in an hour]. */
const RAIN_HOUR_MM = 0.25
/** A dry spell ends a rain [h]. */
const DRY_SPELL_H = 2

/** Evidence: share of the courses with rain within three hours. */
export function rain(look: Look): AlertReading {
  const { ahead } = look.day
  const spells = Array.from({ length: ahead.members }, (_, member) => nextSpell(ahead, member, look.hour))
  const known = spells.filter((spell) => spell !== 'unknown')
  const wet = known.filter((spell) => spell !== 'none')
  const median = (pick: (spell: Spell) => number) =>
    quantileOfSorted(
      wet.map(pick).sort((a, b) => a - b),
      0.5,
    )
  const chance = known.length < spells.length ? Number.NaN : wet.length / spells.length
  const working = underWay(look, RAIN_WORK_LEAD_H)
  return {
    kind: 'rain',
    subject: '',
    evidence: chance,
    mayStart: working.length > 0,
    said: {
      kind: 'rain',
      partNames: working.map(({ partName }) => partName),
      arrivesEpochH: ahead.startEpochH + median(({ from }) => from),
      endsEpochH: ahead.startEpochH + median(({ to }) => to),
      chance,
      amountMm: median(({ mm }) => mm),
    },
  }
}

interface Spell {
  readonly from: number
  readonly to: number
  readonly mm: number
}

function nextSpell({ rainMm, hours }: Weather, member: number, hour: number): Spell | 'none' | 'unknown' {
  const at = (h: number) => rainMm[member * hours + h]!
  const last = Math.min(hours, hour + RAIN_LEAD_H)
  for (let from = hour; from < last; from++) {
    if (Number.isNaN(at(from))) return 'unknown'
    if (at(from) < RAIN_HOUR_MM) continue
    let mm = 0
    let to = from
    for (let h = from; h < hours && h - to < DRY_SPELL_H; h++) {
      mm += at(h) || 0
      if (at(h) >= RAIN_HOUR_MM) to = h + 1
    }
    return { from, to, mm }
  }
  return 'none'
}

/** How far ahead fire is looked at: the hour under way and the next [h]. */
const FIRE_LEAD_H = 2
/** A ban is told so long before anyone starts work [h]. */
const BAN_LEAD_H = 2

/** Evidence: share of the courses that say stop in this hour or the next; 1 under a ban, from before work starts. */
export function fireStop(input: WatchInput): AlertReading {
  const { farm, date, day, nowEpochH } = input
  const ban = banAt(farm.fireRules, date)
  const crew = crewsOut(farm, date)
  const banned = ban && crew && nowEpochH >= crew.startEpochH - BAN_LEAD_H && nowEpochH < crew.endEpochH
  let evidence = day ? stopShare(day, hourOf(day.ahead, nowEpochH)) : Number.NaN
  if (banned) evidence = 1
  return fireReading('fire-stop', input, evidence, LEVEL_STOP, banned ? ban : undefined, true)
}

function stopShare({ ahead, fire }: NonNullable<WatchInput['day']>, hour: number): number {
  let most = Number.NaN
  for (let h = Math.max(0, hour); h < Math.min(ahead.hours, hour + FIRE_LEAD_H); h++) {
    if (fire.level[h] === LEVEL_UNKNOWN) continue
    let stops = 0
    for (let m = 0; m < ahead.members; m++) stops += fire.stop[m * ahead.hours + h]!
    most = Math.max(Number.isNaN(most) ? 0 : most, stops / ahead.members)
  }
  return most
}

/** Evidence: 1 when care is called for in this hour or the next. Starts only where the morning did not tell it. */
export function fireCare(look: Look): AlertReading {
  const { fire, ahead } = look.day
  let evidence = Number.NaN
  for (let h = Math.max(0, look.hour); h < Math.min(ahead.hours, look.hour + FIRE_LEAD_H); h++) {
    const level = fire.level[h]!
    if (level !== LEVEL_UNKNOWN) evidence = Math.max(Number.isNaN(evidence) ? 0 : evidence, level >= LEVEL_CARE ? 1 : 0)
  }
  const told = look.told.fireLevel === 'care' || look.told.fireLevel === 'stop'
  const mayStart = !told && look.runsLeft.length > 0
  return fireReading('fire-care', look, evidence, LEVEL_CARE, undefined, mayStart)
}

function fireReading(
  kind: 'fire-stop' | 'fire-care',
  { day, nowEpochH, farm, date }: WatchInput,
  evidence: number,
  level: number,
  ban: { readonly text: string; readonly to: Temporal.PlainDate } | undefined,
  mayStart: boolean,
): AlertReading {
  const untilEpochH = ban
    ? hoursOfLocalDay(Temporal.PlainDate.compare(ban.to, date) > 0 ? ban.to : date, farm.timeZone).endEpochH
    : day
      ? levelUntil(day, nowEpochH, level)
      : Number.NaN
  const through = day ? fireThrough(day.ahead, day.fire, nowEpochH, Math.min(untilEpochH, nowEpochH + 24)) : undefined
  return {
    kind,
    subject: '',
    evidence,
    mayStart,
    said: {
      kind,
      fromEpochH: nowEpochH,
      untilEpochH,
      relHumidity: finite(through?.relHumidity),
      gustMs: finite(through?.gustMs),
      banText: ban?.text,
    },
  }
}

const finite = (value: number | undefined): number => (Number.isFinite(value) ? value! : Number.NaN)

/** End of the run of hours at or above a level that starts now or next. */
function levelUntil({ ahead, fire }: NonNullable<WatchInput['day']>, nowEpochH: number, level: number): number {
  const hour = hourOf(ahead, nowEpochH)
  let until = hour + 1
  for (let h = hour; h < ahead.hours && h <= until; h++) {
    if (fire.level[h]! >= level && fire.level[h] !== LEVEL_UNKNOWN) until = h + 1
  }
  return ahead.startEpochH + until
}

export const hourOf = (weather: Weather, nowEpochH: number): number =>
  Math.max(0, Math.min(weather.hours - 1, Math.floor(nowEpochH - weather.startEpochH)))

/** A warning is told so long before its event [h]: it may come at night for the next noon. */
const WARNING_LEAD_H = 3

/**
 * Evidence: 1 from shortly before the event to its end. One machine for each event, so that a renewal is not told anew;
 * what the morning message quoted is not told again.
 */
export const officialWarnings = ({ warnings, nowEpochH, told }: WatchInput): AlertReading[] =>
  (warnings ?? []).map(({ event, headline, issuer, fromEpochH, untilEpochH }) => ({
    kind: 'official-warning',
    subject: event,
    evidence: nowEpochH >= fromEpochH - WARNING_LEAD_H && nowEpochH < untilEpochH ? 1 : 0,
    mayStart: !told?.warned.includes(event),
    said: { kind: 'official-warning', headline, issuer, untilEpochH },
  }))

/** Evidence: age of the weather as a share of the farm's limit. */
export function sources({ weatherAgeH, farm }: WatchInput): AlertReading {
  const limitH = farm.morning.weatherAgeLimitH
  return {
    kind: 'sources-down',
    subject: '',
    evidence: weatherAgeH / limitH,
    mayStart: true,
    said: { kind: 'sources-down', ageH: weatherAgeH, limitH },
  }
}
