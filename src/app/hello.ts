/** Test messages sent at once, outside the outbox of the service: what the other side says is known when it ends. */
import type { Farm, Person } from '#core/operation/farm.ts'
import type { AddressBook } from './addresses.ts'
import { type Carried, Outbox } from './outbox.ts'
import type { Carrier, Channel, OutboxStore } from './outbox-port.ts'
import { postHookTest, postTest } from './test-message.ts'

export interface HelloTools {
  /** Empty, and of use for this alone. */
  readonly outbox: OutboxStore
  readonly addresses: AddressBook
  readonly carriers: readonly Carrier[]
  readonly clock: () => number
}

/** @param people who gets it; programs are tried too where `programs` says so. */
export async function sayHello(
  farm: Farm,
  people: readonly Person[],
  programs: boolean,
  by: Channel | undefined,
  { outbox, addresses, carriers, clock }: HelloTools,
): Promise<Carried> {
  const now = clock()
  const forget: AddressBook['forget'] = (parcel) => addresses.forget(parcel)
  // Each has a circuit of its own: that some could not be reached is no reason not to try the next.
  const carry = () =>
    new Outbox({ store: outbox, carriers, owner: 'hello', clock, random: () => 0.5, forget }).carryDue()
  const carried: Carried[] = []
  for (const person of people) {
    await postTest(farm, person, { outbox, addresses }, now, 'hello', by)
    carried.push(await carry())
  }
  if (programs && (by === undefined || by === 'webhook')) {
    await postHookTest(farm, { outbox, addresses }, now, 'hello')
    carried.push(await carry())
  }
  return {
    sent: carried.flatMap(({ sent }) => sent),
    postponed: carried.flatMap(({ postponed }) => postponed),
    dead: carried.flatMap(({ dead }) => dead),
    lapsed: [],
  }
}

/** @param text id or name, whatever the letter case. */
export function personMeant(people: readonly Person[], text: string): Person | undefined {
  const typed = text.trim().toLowerCase()
  return people.find(({ id, name }) => id === typed || name.toLowerCase() === typed)
}
