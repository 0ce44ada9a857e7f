/** A message that says that messages arrive: for one person, on every way that reaches him. */
import type { Farm, Person } from '#core/farm/farm.ts'
import { alertHtml, alertText } from '#core/messages/alerts/render.ts'
import { alertWordsOf } from '#core/messages/words/words.ts'
import { localDateOf } from '#core/units/time.ts'
import type { AddressBook } from './addresses.ts'
import type { Letter } from './mail-port.ts'
import type { Note } from './note.ts'
import type { OutboxStore, Parcel } from './outbox-port.ts'

const SERVES_H = 1

/** @param id unlike that of any test before. @returns the ways it goes, with their addresses. */
export async function postTest(
  farm: Farm,
  person: Person,
  tools: { readonly outbox: Pick<OutboxStore, 'post'>; readonly addresses: AddressBook },
  nowEpochH: number,
  id: string,
): Promise<readonly Parcel[]> {
  const manner = {
    units: farm.units,
    language: person.language,
    timeZone: farm.timeZone,
    today: localDateOf(nowEpochH, farm.timeZone),
    nowEpochH,
  }
  const { title, text } = alertWordsOf(person.language).test(farm.name, nowEpochH, manner)
  const message = { title, paragraphs: [text] }
  const addresses = await tools.addresses.addressesOf(farm, person, 'test')
  const parcels = addresses.map(({ channel, recipient, target }): Parcel => {
    const letter: Letter = {
      to: { name: person.name, address: target },
      subject: title,
      text: alertText(message),
      html: alertHtml(message, person.language),
    }
    const note: Note = { title, body: text, tag: 'test', path: '/' }
    return {
      farmId: farm.id,
      kind: 'test',
      subject: id,
      date: manner.today.toString(),
      channel,
      recipient,
      target,
      body: JSON.stringify(channel === 'mail' ? letter : note),
      urgent: false,
      createdEpochH: nowEpochH,
      closesEpochH: nowEpochH + SERVES_H,
    }
  })
  await tools.outbox.post(parcels)
  return parcels
}
