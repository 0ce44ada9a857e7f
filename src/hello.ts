/** Wires the test message of the command line: the addresses that the service keeps, the ways that it uses. */
import { mkdirSync } from 'node:fs'
import { everybody } from '#app/everybody.ts'
import { personMeant, sayHello } from '#app/hello.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { type HelloCommand, printHello } from '#edges/cli/hello.ts'
import type { Environment } from '#edges/config/environment.ts'
import { printingCarrier } from '#edges/delivery/print.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { type PeopleTables, peopleStore } from '#edges/storage/people.ts'
import type { SecretTables } from '#edges/storage/secrets.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { databaseIn } from './book.ts'
import { carriersOf, keptVapid } from './carriers.ts'

type Tables = SubscriptionTables & PeopleTables & SecretTables

/** @returns what to print, and whether anything failed or nobody was reached. */
export async function hello(
  farm: Farm,
  { to, by }: HelloCommand,
  environment: Environment,
  print: (text: string) => void,
): Promise<{ readonly text: string; readonly failed: boolean }> {
  mkdirSync(environment.THRESHDAY_DATA, { recursive: true })
  const kept = await openAt<Tables>(databaseIn(environment))
  const memory = await openAt<OutboxTables>(':memory:')
  const addresses = subscriptions(kept)
  const carriers = carriersOf(environment, addresses, await keptVapid(kept), printingCarrier(print))
  const clock = () => epochHoursOf(Temporal.Now.instant())
  try {
    const people = everybody(farm, await peopleStore(kept).accounts(farm.id))
    const meant = to === undefined ? people : [personMeant(people, to)].filter((person) => person !== undefined)
    if (meant.length === 0) {
      const known = people.map(({ name }) => name).join(', ')
      return { text: `There is no "${to}". People: ${known}.\n`, failed: true }
    }
    const tools = { outbox: outboxStore(memory), addresses, carriers, clock }
    const carried = await sayHello(farm, meant, to === undefined, by, tools)
    const failed = carried.sent.length === 0 || carried.postponed.length + carried.dead.length > 0
    const printed = environment.THRESHDAY_SMTP === undefined && carried.sent.some(({ channel }) => channel === 'mail')
    const note = printed ? 'No mail server is set (THRESHDAY_SMTP): mail was printed, not sent.\n' : ''
    return { text: `${printHello(carried)}${note}`, failed }
  } finally {
    for (const carrier of carriers) carrier.close()
    await memory.destroy()
    await kept.destroy()
  }
}
