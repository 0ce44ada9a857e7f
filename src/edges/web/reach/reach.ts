/** What the pages and the API of messages stand on: who is reached how, and what carries it out of the house. */

import type { Subscriptions } from '#app/addresses.ts'
import { type Circuit, isOpen } from '#app/circuit.ts'
import type { HookTools } from '#app/hooks.ts'
import type { Links, PersonalLink } from '#app/links.ts'
import type { Channel, OutboxStore } from '#app/outbox-port.ts'
import type { Account } from '#app/people-port.ts'
import type { Farm, Person } from '#core/operation/farm.ts'

export interface Reach extends HookTools {
  readonly subscriptions: Subscriptions
  readonly links: Links
  readonly outbox: Pick<OutboxStore, 'post'>
  /** Everybody who is told things. */
  readonly everyone: () => Promise<readonly Person[]>
  /** The service's own public key, as a browser asks for it (RFC 8292), base64url. */
  readonly pushKey: string
  readonly mail: MailShown
  readonly circuitOf: (channel: Channel) => Circuit
  /** Unlike any before. */
  readonly newId: () => string
}

/** How mail goes out, without what must stay secret. */
export interface MailShown {
  /** Host and port of the server; absent where mail is printed instead. */
  readonly server?: string
  readonly from: string
  /** Domain whose key signs it; absent where none does. */
  readonly signedFor?: string
}

/** A way that failed of late is tried again, or let be until its circuit closes. */
export const wayState = (circuit: Circuit, nowEpochH: number): 'works' | 'trying' | 'paused' =>
  isOpen(circuit, nowEpochH) ? 'paused' : circuit.failures > 0 ? 'trying' : 'works'

/** The person of the farm behind an account. */
export const personOf = async ({ everyone }: Reach, { id }: Account): Promise<Person | undefined> =>
  (await everyone()).find((person) => person.id === id)

/** @param origin where the asker reached this service: stands in where it has no public address of its own. */
export async function personalLink(
  { links, subscriptions }: Reach,
  farm: Farm,
  personId: string,
  deed: PersonalLink['deed'],
  origin: string,
): Promise<string> {
  const link = { deed, farmId: farm.id, personId, nth: await subscriptions.linksNth(farm.id, personId) }
  return links.to(link) ?? new URL(links.pathTo(link), origin).href
}

/** Whether the morning mail comes to a person; undefined where he has no mail address. */
export async function morningMailOf(
  { subscriptions }: Reach,
  farm: Farm,
  person: Person,
): Promise<boolean | undefined> {
  if (person.email === undefined) return undefined
  return (await subscriptions.addressesOf(farm, person, 'morning')).some(({ channel }) => channel === 'mail')
}
