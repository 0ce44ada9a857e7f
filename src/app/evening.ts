/** The evening: an outlook on tomorrow for the planner, where the farm wants one, once a local date. */

import { alertHtml, alertText } from '#core/messages/alerts/render.ts'
import { composeEvening, type EveningMessage } from '#core/messages/evening.ts'
import { renderEvening } from '#core/messages/render-evening.ts'
import type { Farm, Person } from '#core/operation/farm.ts'
import { epochHoursAtMinute, hoursOfLocalDay, localDateOf } from '#core/units/time.ts'
import type { AddressBook } from './addresses.ts'
import type { Day } from './make-day.ts'
import type { DayMade } from './morning.ts'
import type { OutboxStore, Parcel } from './outbox-port.ts'
import { parcelsTo, parcelsToHooks, type SaidToPerson } from './parcels.ts'

export const EVENING = 'evening' as const
/** Whoever has gone to bed is not helped by it [h]. */
const SERVES_H = 3

export interface EveningTools {
  readonly outbox: Pick<OutboxStore, 'post' | 'posted'>
  readonly addresses: AddressBook
}

export function eveningOf(day: Day): EveningMessage {
  const { farm, date, nowEpochH, outlooks, plan, planned, standingHa, ahead, fire, message } = day
  return composeEvening({
    farm,
    date,
    nowEpochH,
    outlooks,
    plan,
    later: planned?.week.later,
    standingHa,
    weather: ahead,
    fire,
    agreement: message.weather.agreement,
  })
}

/** @returns how many were posted. */
export async function postEvening(farm: Farm, made: DayMade, tools: EveningTools, nowEpochH: number): Promise<number> {
  const { eveningMinute } = farm.morning
  const date = localDateOf(nowEpochH, farm.timeZone)
  if (eveningMinute === undefined || !made.day || !made.day.date.equals(date)) return 0
  const dueEpochH = epochHoursAtMinute(date, eveningMinute, farm.timeZone)
  const closesEpochH = Math.min(dueEpochH + SERVES_H, hoursOfLocalDay(date, farm.timeZone).endEpochH)
  if (nowEpochH < dueEpochH || nowEpochH >= closesEpochH) return 0
  if (await tools.outbox.posted(farm.id, EVENING, '', date.toString())) return 0
  const message = eveningOf(made.day)
  const base = {
    farmId: farm.id,
    kind: EVENING,
    subject: '',
    date: date.toString(),
    urgent: false,
    createdEpochH: nowEpochH,
    closesEpochH,
  }
  const parcels: Parcel[] = []
  for (const person of plannersOf(farm)) {
    const { title, paragraphs } = renderEvening({ ...message, language: person.language })
    const said: SaidToPerson = {
      subject: title,
      text: alertText({ title, paragraphs: [title, ...paragraphs] }),
      html: alertHtml({ title, paragraphs }, person.language),
      note: { title: farm.name, body: title, tag: EVENING, path: '/week' },
    }
    parcels.push(...parcelsTo(person, await tools.addresses.addressesOf(farm, person, EVENING), base, said))
  }
  const event = { type: EVENING, farm: farm.id, date: message.date.toString(), ...renderEvening(message) }
  parcels.push(...parcelsToHooks(await tools.addresses.hooksOf(farm), base, event))
  return await tools.outbox.post(parcels)
}

/** On a farm without a planner the owner plans. */
function plannersOf({ people }: Farm): readonly Person[] {
  const planners = people.filter(({ role }) => role === 'planner')
  return planners.length > 0 ? planners : people.filter(({ role }) => role === 'owner')
}
