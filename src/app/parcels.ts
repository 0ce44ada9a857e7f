/** A message made into parcels, one for each way it goes. */
import type { Person } from '#core/operation/farm.ts'
import type { Address, Hook } from './addresses.ts'
import type { Letter } from './mail-port.ts'
import type { Note } from './note.ts'
import type { Parcel } from './outbox-port.ts'

/** What all parcels of a message share. */
export type ParcelBase = Omit<Parcel, 'channel' | 'recipient' | 'target' | 'body'>

/** What a person is told: as a letter where he is reached by mail, else as a note. */
export type SaidToPerson = Omit<Letter, 'to'> & { readonly note: Note }

export function parcelsTo(
  person: Person,
  addresses: readonly Address[],
  base: ParcelBase,
  { note, ...said }: SaidToPerson,
): Parcel[] {
  return addresses.map((address) => {
    const letter: Letter = { to: { name: person.name, address: address.target }, ...said }
    return { ...base, ...address, body: JSON.stringify(address.channel === 'mail' ? letter : note) }
  })
}

/** @param event what the programs read. */
export const parcelsToHooks = (hooks: readonly Hook[], base: ParcelBase, event: object): Parcel[] =>
  hooks.map(({ id, url }) => ({
    ...base,
    channel: 'webhook',
    recipient: id,
    target: url,
    body: JSON.stringify(event),
  }))
