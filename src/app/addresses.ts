/** Where a person is reached: the mail address of the farm file, and what he signed up for since. */
import type { Farm, Person } from '#core/operation/farm.ts'
import type { Channel, KeptParcel } from './outbox-port.ts'

export interface Address {
  readonly channel: Channel
  /** Id of the recipient in parcel keys: the person's, or the subscription's. */
  readonly recipient: string
  readonly target: string
}

export interface Hook {
  readonly id: string
  readonly url: string
}

/** What a message is: who ends the morning mail still gets alerts, for they may be about fire. */
export type MessageKind = 'morning' | 'evening' | 'alert' | 'test'

export interface AddressBook {
  addressesOf(farm: Farm, person: Person, kind: MessageKind): Promise<readonly Address[]>
  /** Addresses of programs that get every message of the farm. */
  hooksOf(farm: Farm): Promise<readonly Hook[]>
  /** The other side says that this address is no more. */
  forget(parcel: KeptParcel): Promise<void>
}

/** What the farm file alone gives: mail. */
export const farmFileAddresses: AddressBook = {
  addressesOf: async (_, person) => mailOf(person),
  hooksOf: async () => [],
  forget: async () => {},
}

export const mailOf = (person: Person): Address[] =>
  person.email === undefined ? [] : [{ channel: 'mail', recipient: person.id, target: person.email }]

/** A browser or phone that signed up for notes. */
export interface PushSubscription {
  readonly endpoint: string
  readonly p256dh: string
  readonly auth: string
}

export interface PushAddress {
  readonly id: string
  readonly endpoint: string
}

/** What people and programs signed up for, beside the farm file. */
export interface Subscriptions extends AddressBook {
  /** The same endpoint again takes the place of the former. @returns its id. */
  addPush(farmId: string, personId: string, subscription: PushSubscription): Promise<string>
  /** @returns whether this person had it. */
  removePush(farmId: string, personId: string, id: string): Promise<boolean>
  pushKeys(id: string): Promise<Pick<PushSubscription, 'p256dh' | 'auth'> | undefined>

  /** @returns the hook's id; its secret is shown once, here. */
  addHook(farmId: string, url: string, secret: string): Promise<string>
  removeHook(farmId: string, id: string): Promise<void>
  /** From now on both secrets sign; the next change drops the older. @returns whether there is such a hook. */
  changeSecret(farmId: string, id: string, secret: string): Promise<boolean>
  /** The newest first. */
  hookSecrets(id: string): Promise<readonly string[]>

  /** The browsers and phones of a person. */
  pushesOf(farmId: string, personId: string): Promise<readonly PushAddress[]>
  /** How often this person's own links were renewed: only links that bear this number work. */
  linksNth(farmId: string, personId: string): Promise<number>
  /** Ends this person's own links; the next ones bear the next number. */
  renewLinks(farmId: string, personId: string): Promise<void>

  /** He has left: his devices get nothing any more, his links end. */
  forgetPerson(farmId: string, personId: string): Promise<void>

  /** The morning mail to this person ends or begins again; alerts go on. */
  setMorningMail(farmId: string, personId: string, wanted: boolean): Promise<void>
}
