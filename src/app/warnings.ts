/**
 * Official warnings and what they mean for a farm's hours: which are in force, how far they lift our own fire level,
 * and which of the issuers' words to quote. Never the other way round: nothing here calls a warning off.
 */

import { NOTHING_OFFICIAL } from '#core/messages/compose-input.ts'
import type { SaidOfficial, SaidOfficials } from '#core/messages/morning.ts'
import type { Farm } from '#core/operation/farm.ts'
import { OFFICIAL_NOTICES, type OfficialNotice } from '#core/science/fire/care.ts'
import { hoursOfLocalDay, localDateOf } from '#core/units/time.ts'
import type { Place } from '#core/units/weather.ts'
import type { Warning, WeatherRequest } from './ports.ts'

/**
 * Wind and blowing dust, by the event names of the US National Weather Service: what carries a field fire, or hides it.
 * "Wind Advisory" and "High Wind Warning" as in its own test bundle; the others from memory.
 */
const WIND_EVENTS: ReadonlySet<string> = new Set([
  'Wind Advisory',
  'High Wind Watch',
  'High Wind Warning',
  'Extreme Wind Warning',
  'Dust Advisory',
  'Blowing Dust Advisory',
  'Blowing Dust Warning',
  'Dust Storm Warning',
])
/** "Red Flag Warning", "Fire Weather Watch", "Extreme Fire Danger"; other issuers use these words too. */
const FIRE = /\bred flag\b|\bfires?\b|\bbush ?fire\b|\bwild ?fire\b/i
/** "Total Fire Ban", "Burn Ban", "Harvest and Vehicle Movement Ban". */
const BAN = /\b(?:fire|burn(?:ing)?|harvest|vehicle movement)\b.*\bban\b/i

/** @returns what a warning means for fire: nothing, a step up, or a stop. */
export function noticeOf({ event, category }: Warning): OfficialNotice {
  if (BAN.test(event)) return 'ban'
  return FIRE.test(event) || WIND_EVENTS.has(event) || category === 'Fire' ? 'warning' : 'none'
}

/**
 * @returns the warnings that hold now or will: real ones, those left out that a later message updates or cancels, that
 * give the all-clear, and whose message and event both are over (Common Alerting Protocol 1.2, section 3.2).
 */
export function inForce(warnings: readonly Warning[], nowEpochH: number): readonly Warning[] {
  const real = warnings.filter(({ status }) => status === 'Actual')
  const replaced = new Set(real.flatMap(({ replaces }) => replaces))
  return real.filter(
    (warning) =>
      warning.messageType !== 'Cancel' &&
      warning.response !== 'AllClear' &&
      warning.urgency !== 'Past' &&
      !replaced.has(warning.id) &&
      Math.max(warning.expiresAtEpochH, warning.endsAtEpochH ?? 0) > nowEpochH,
  )
}

/** When the event itself is expected; without a word on it, for as long as the message holds. */
function spanOf(warning: Warning): { readonly fromEpochH: number; readonly untilEpochH: number } {
  const fromEpochH = warning.onsetAtEpochH ?? warning.effectiveAtEpochH
  const untilEpochH = warning.endsAtEpochH ?? warning.expiresAtEpochH
  // An end before the start is a slip of the issuer: the message's own life is taken.
  return untilEpochH > fromEpochH
    ? { fromEpochH, untilEpochH }
    : { fromEpochH: warning.sentAtEpochH, untilEpochH: warning.expiresAtEpochH }
}

/**
 * @param warnings what is in force
 * @param startEpochH first hour, whole hours since the epoch
 * @returns codes of OFFICIAL_NOTICES by hour: the strongest that touches the hour
 */
export function noticeCodes(warnings: readonly Warning[], startEpochH: number, hours: number): Uint8Array {
  const codes = new Uint8Array(hours)
  for (const warning of warnings) {
    const code = OFFICIAL_NOTICES.indexOf(noticeOf(warning))
    const { fromEpochH, untilEpochH } = spanOf(warning)
    const first = Math.max(0, Math.floor(fromEpochH) - startEpochH)
    const end = Math.min(hours, Math.ceil(untilEpochH) - startEpochH)
    for (let h = first; h < end; h++) codes[h] = Math.max(codes[h]!, code)
  }
  return codes
}

/** More than these nobody reads on a phone. */
const MOST_QUOTED = 3
const GRAVE: ReadonlySet<Warning['severity']> = new Set(['Extreme', 'Severe'])

/**
 * @returns the words to quote for a span of time, the gravest first: all that bears on fire, and what else is severe.
 * The headline is the issuer's, unaltered; where there is none, the name of the event stands for it.
 */
export function quotedFor(
  warnings: readonly Warning[],
  fromEpochH: number,
  untilEpochH: number,
): readonly SaidOfficial[] {
  return warnings
    .filter((warning) => noticeOf(warning) !== 'none' || GRAVE.has(warning.severity))
    .map((warning) => ({ warning, rank: rankOf(warning), ...spanOf(warning) }))
    .filter((one) => one.fromEpochH < untilEpochH && one.untilEpochH > fromEpochH)
    .sort((a, b) => a.rank - b.rank || a.fromEpochH - b.fromEpochH)
    .slice(0, MOST_QUOTED)
    .map(({ warning, ...span }) => ({
      notice: noticeOf(warning),
      event: warning.event,
      headline: warning.headline ?? warning.event,
      issuer: warning.senderName,
      fromEpochH: span.fromEpochH,
      untilEpochH: span.untilEpochH,
    }))
}

const RANKS = { ban: 0, warning: 1, none: 2 } as const
const rankOf = (warning: Warning): number => RANKS[noticeOf(warning)] + (GRAVE.has(warning.severity) ? 0 : 0.5)

export interface WarningsNow {
  readonly warnings: readonly Warning[]
  /** Why they may not be all; empty when every source answered. */
  readonly failures: readonly string[]
}

export interface WarningsQuestion extends Omit<WeatherRequest, 'place'> {
  readonly places: readonly Place[]
}

export type WarningWatch = (question: WarningsQuestion) => Promise<WarningsNow>

/** About 28 km of latitude: zones of warnings are seldom smaller. */
const CELL_DEG = 0.25
const MOST_PLACES = 4

/** @returns the home and one place for each part of the country in which fields lie, a few at most. */
export function placesToWarn({ home, fields }: Pick<Farm, 'home' | 'fields'>): readonly Place[] {
  const cells = new Map<string, Place>()
  for (const { latDeg, lonDeg } of [home, ...fields.map(({ centre }) => centre)]) {
    const cell = `${Math.round(latDeg / CELL_DEG)},${Math.round(lonDeg / CELL_DEG)}`
    if (!cells.has(cell)) cells.set(cell, { latDeg, lonDeg, elevationM: home.elevationM })
  }
  return [...cells.values()].slice(0, MOST_PLACES)
}

export interface OfficialToday extends WarningsNow {
  readonly said: SaidOfficials
}

/** @returns what is in force for a farm, and what to quote of it from now to the end of its day. */
export async function officialToday(
  farm: Farm,
  watch: WarningWatch | undefined,
  nowEpochH: number,
): Promise<OfficialToday> {
  if (!watch) return { warnings: [], failures: [], said: NOTHING_OFFICIAL }
  const { warnings, failures } = await watch({ places: placesToWarn(farm), nowEpochH })
  const { endEpochH } = hoursOfLocalDay(localDateOf(nowEpochH, farm.timeZone), farm.timeZone)
  const quoted = quotedFor(warnings, nowEpochH, endEpochH)
  return { warnings, failures, said: { quoted, unread: failures.length > 0 } }
}
