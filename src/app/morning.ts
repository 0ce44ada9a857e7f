/** The morning: make the day from the newest weather, keep it, and post it once to everyone who gets it. */

import { LONGEST_SEASON_DAYS } from '#core/field/season.ts'
import { standingHa } from '#core/field/standing-area.ts'
import { composeNoForecast } from '#core/messages/compose.ts'
import type { MorningMessage } from '#core/messages/morning.ts'
import { pictureOf } from '#core/messages/picture.ts'
import { renderHtml } from '#core/messages/render-html.ts'
import { renderText, sayMorning } from '#core/messages/render-text.ts'
import { renderShort } from '#core/messages/short.ts'
import type { Farm, Person } from '#core/operation/farm.ts'
import type { PlanRules } from '#core/planning/optimiser/plan-rules.ts'
import { HOURS_PER_DAY, localDateOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type { AddressBook } from './addresses.ts'
import { agreementOf } from './agreement.ts'
import type { DayPlanner, Prepared } from './day-planner.ts'
import type { DayStore } from './day-store.ts'
import { deciders } from './everybody.ts'
import { SourceFailure } from './failures.ts'
import { findWeather, type Suppliers } from './find-weather.ts'
import type { ForecastStore } from './forecasts-port.ts'
import { forecastsOf } from './kept-forecasts.ts'
import type { Links } from './links.ts'
import { type Day, type DayInput, firstPlanOf, foresee, tellDay } from './make-day.ts'
import { morningHours } from './morning-hours.ts'
import type { OutboxStore, Parcel } from './outbox-port.ts'
import type { Painter } from './painter.ts'
import { parcelsTo, parcelsToHooks, type SaidToPerson } from './parcels.ts'
import { NOTHING_TOLD, type Told, toldBy } from './told.ts'
import { noticeCodes, officialToday } from './warnings.ts'

/** A day made, or the reason why none can be: either way there is a message. */
export interface DayMade {
  readonly message: MorningMessage
  readonly day: Day | undefined
  /** The forecast behind it, to fall back on when the next asking fails. */
  readonly good: Weather | undefined
  /** What failed on the way, for the log. */
  readonly failures: readonly string[]
}

/** How far back weather is asked for [h]. */
const HOURS_BACK = LONGEST_SEASON_DAYS * HOURS_PER_DAY

/** How a day is planned; without it the first plan has to do. */
export interface Planning {
  readonly planner: Pick<DayPlanner, 'prepare'>
  readonly rules: PlanRules
  /** Ends it when a newer day is wanted. */
  readonly signal?: AbortSignal
}

export async function dayFromSources(
  farm: Farm,
  suppliers: Suppliers,
  nowEpochH: number,
  store: Pick<DayStore, 'publishedBefore'> | undefined,
  lastGood?: Weather,
  told: Told = NOTHING_TOLD,
  planning?: Planning,
): Promise<DayMade> {
  const date = localDateOf(nowEpochH, farm.timeZone)
  const question = {
    place: farm.home,
    nowEpochH,
    ageLimitH: farm.morning.weatherAgeLimitH,
    hoursBack: HOURS_BACK,
    lastGood,
  }
  const [answer, official] = await Promise.all([
    findWeather(suppliers, question),
    officialToday(farm, suppliers.warnings, nowEpochH),
  ])
  const failures = [...answer.failures, ...official.failures]
  if (answer.kind === 'none') {
    const message = composeNoForecast(farm, date, nowEpochH, answer.reason, answer.ageH, official.said)
    return { message, day: undefined, good: lastGood, failures }
  }
  const { readings, cuts, events, poorRecord } = toldBy(told, nowEpochH)
  const standing = standingHa(farm, cuts)
  const { weather } = answer
  const input: DayInput = {
    farm,
    nowEpochH,
    weather,
    standingHa: standing,
    readings,
    events,
    poorRecord,
    official: noticeCodes(official.warnings, weather.ahead.startEpochH, weather.ahead.hours),
    quoted: official.said,
    agreement: agreementOf(answer.compared, date, farm.timeZone),
  }
  // The long work has a thread of its own: yesterday is looked up, or made, meanwhile.
  const [{ foreseen, planned }, yesterday] = await Promise.all([
    planning?.planner.prepare(input, cuts, planning.rules, planning.signal) ?? prepareSimply(input),
    store?.publishedBefore(farm.id, date),
  ])
  const day = tellDay(foreseen, planned, yesterday)
  return { message: day.message, day, good: answer.good, failures }
}

/** Without a planner the first plan serves. */
export function prepareSimply(input: DayInput): Prepared {
  const foreseen = foresee(input)
  return { foreseen, planned: { day: firstPlanOf(foreseen) } }
}

/**
 * A memory made on the spot, for weather that can be asked for any moment: what was to be foreseen yesterday at this hour,
 * or nothing where the record does not reach back. Nobody was told a plan then, so none is made, nor compared with.
 */
export function dayBefore(
  farm: Farm,
  suppliers: Suppliers,
  nowEpochH: number,
  told: Told = NOTHING_TOLD,
): Pick<DayStore, 'publishedBefore'> {
  return {
    publishedBefore: async () => {
      try {
        const before = nowEpochH - HOURS_PER_DAY
        const made = await dayFromSources(farm, suppliers, before, undefined, undefined, told)
        return made.day && { ...made.day.published, firstPart: undefined }
      } catch (failure) {
        if (failure instanceof SourceFailure) return undefined
        throw failure
      }
    },
  }
}

export interface MorningTools {
  readonly days: Pick<DayStore, 'keepPublished'>
  readonly forecasts?: Pick<ForecastStore, 'keepForecasts'> | undefined
  readonly outbox: Pick<OutboxStore, 'post' | 'posted'>
  readonly addresses: AddressBook
  readonly links: Links
  /** Makes the picture of the day for the mail; without one the mail has none. */
  readonly paint?: Painter | undefined
}

export const MORNING = 'morning'

/**
 * Puts the morning message of the day into the outbox when it is due and not there yet: one a person, channel and local
 * date. Late, it says so; once the day's runs are over it stays unwritten.
 * @returns how many were posted.
 */
export async function postMorning(farm: Farm, made: DayMade, tools: MorningTools, nowEpochH: number): Promise<number> {
  const { date } = made.message
  const { dueEpochH, lateEpochH, closesEpochH } = morningHours(farm, date, made.day?.plan)
  if (!date.equals(localDateOf(nowEpochH, farm.timeZone))) return 0
  if (nowEpochH < dueEpochH || nowEpochH >= closesEpochH) return 0
  if (await tools.outbox.posted(farm.id, MORNING, '', date.toString())) return 0
  const message = nowEpochH >= lateEpochH ? { ...made.message, nowEpochH, dueEpochH } : made.message
  const parcels = await morningParcels(farm, message, made.day, tools, { nowEpochH, closesEpochH })
  // Kept before it is posted: a crash between the two makes both again, and neither is lost.
  if (made.day) {
    await tools.days.keepPublished(farm.id, made.day.published)
    await tools.forecasts?.keepForecasts(forecastsOf(made.day))
  }
  return tools.outbox.post(parcels)
}

interface Span {
  readonly nowEpochH: number
  readonly closesEpochH: number
}

async function morningParcels(
  farm: Farm,
  message: MorningMessage,
  day: Day | undefined,
  tools: MorningTools,
  span: Span,
): Promise<Parcel[]> {
  const base = {
    farmId: farm.id,
    kind: MORNING,
    subject: '',
    date: message.date.toString(),
    urgent: false,
    createdEpochH: span.nowEpochH,
    closesEpochH: span.closesEpochH,
  }
  const parcels: Parcel[] = []
  for (const person of deciders(farm.people)) {
    const theirs = { ...message, language: person.language }
    const addresses = await tools.addresses.addressesOf(farm, person, MORNING)
    // Nothing is drawn for who gets no mail.
    const shown = addresses.some(({ channel }) => channel === 'mail') ? day : undefined
    parcels.push(...parcelsTo(person, addresses, base, saidTo(person, theirs, farm, shown, tools)))
  }
  const event = { type: MORNING, farm: farm.id, date: base.date, lines: sayMorning(message) }
  return [...parcels, ...parcelsToHooks(await tools.addresses.hooksOf(farm), base, event)]
}

function saidTo(
  person: Person,
  message: MorningMessage,
  farm: Farm,
  shown: Day | undefined,
  tools: MorningTools,
): SaidToPerson {
  const unsubscribeUrl = tools.links.to({ deed: 'unsubscribe', farmId: farm.id, personId: person.id })
  const picture = shown && tools.paint && pictureOf(message, shown.plan, shown.outlooks)
  return {
    subject: sayMorning(message)[0]!.text,
    text: renderText(message),
    html: renderHtml(message, picture && { cid: PICTURE, alt: picture.alt }),
    ...(unsubscribeUrl ? { unsubscribeUrl } : {}),
    ...(picture && tools.paint
      ? { pictures: [{ cid: PICTURE, mediaType: 'image/png' as const, base64: tools.paint(picture.svg) }] }
      : {}),
    note: { title: farm.name, body: renderShort(message), tag: MORNING, path: '/' },
  }
}

/** Content id of the picture in a letter. */
const PICTURE = 'day'
