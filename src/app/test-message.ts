/** A message that says that messages arrive: for one person, on every way that reaches him, or for programs. */

import { alertHtml, alertText } from '#core/messages/alerts/render.ts'
import { alertWordsOf } from '#core/messages/words/words.ts'
import type { Farm, Language, Person } from '#core/operation/farm.ts'
import { localDateOf } from '#core/units/time.ts'
import type { AddressBook } from './addresses.ts'
import type { Channel, OutboxStore, Parcel } from './outbox-port.ts'
import { parcelsTo, parcelsToHooks } from './parcels.ts'

const TEST = 'test' as const
const SERVES_H = 1

export interface TestTools {
  readonly outbox: Pick<OutboxStore, 'post'>
  readonly addresses: AddressBook
}

/** @param channel the only way to try; all that reach him when absent. @param id unlike that of any test before. @returns the ways it goes, with their addresses. */
export async function postTest(
  farm: Farm,
  person: Person,
  tools: TestTools,
  nowEpochH: number,
  id: string,
  channel?: Channel,
): Promise<readonly Parcel[]> {
  const { title, text } = testText(farm, person.language, nowEpochH)
  const message = { title, paragraphs: [text] }
  const addresses = await tools.addresses.addressesOf(farm, person, TEST)
  const wanted = addresses.filter((address) => channel === undefined || address.channel === channel)
  const parcels = parcelsTo(person, wanted, testParcel(farm, nowEpochH, id), {
    subject: title,
    text: alertText(message),
    html: alertHtml(message, person.language),
    note: { title, body: text, tag: TEST, path: '/' },
  })
  await tools.outbox.post(parcels)
  return parcels
}

/** The same for programs: every hook of the farm, or one. */
export async function postHookTest(
  farm: Farm,
  tools: TestTools,
  nowEpochH: number,
  id: string,
  hookId?: string,
): Promise<readonly Parcel[]> {
  const hooks = await tools.addresses.hooksOf(farm)
  const { text } = testText(farm, farm.language, nowEpochH)
  const event = { type: TEST, farm: farm.id, date: localDateOf(nowEpochH, farm.timeZone).toString(), text }
  const wanted = hooks.filter((hook) => hookId === undefined || hook.id === hookId)
  const parcels = parcelsToHooks(wanted, testParcel(farm, nowEpochH, id), event)
  await tools.outbox.post(parcels)
  return parcels
}

function testText(farm: Farm, language: Language, nowEpochH: number) {
  const { units, timeZone } = farm
  const manner = { units, language, timeZone, today: localDateOf(nowEpochH, timeZone), nowEpochH }
  return alertWordsOf(language).test(farm.name, nowEpochH, manner)
}

const testParcel = (farm: Farm, nowEpochH: number, id: string) => ({
  farmId: farm.id,
  kind: TEST,
  subject: id,
  date: localDateOf(nowEpochH, farm.timeZone).toString(),
  urgent: false,
  createdEpochH: nowEpochH,
  closesEpochH: nowEpochH + SERVES_H,
})
