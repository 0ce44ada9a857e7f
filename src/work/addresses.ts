/** Where a person is reached: the mail address of the farm file, and what he signed up for since. */
import type { Farm, Person } from '#core/farm/farm.ts'
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

export interface AddressBook {
  addressesOf(farm: Farm, person: Person): Promise<readonly Address[]>
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
