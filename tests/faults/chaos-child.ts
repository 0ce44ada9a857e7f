/** A service that may be killed at any moment: posts the morning message and carries it until nothing is left to do. */

import { farmFileAddresses } from '#app/addresses.ts'
import { noLinks } from '#app/links.ts'
import { postMorning } from '#app/morning.ts'
import { Outbox } from '#app/outbox.ts'
import { composeNoForecast } from '#core/messages/compose.ts'
import { localDateOf } from '#core/units/time.ts'
import { smtpCarrier } from '#edges/delivery/mail.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { demoFarm } from '#tests/app/support/demo.ts'

const [path, url, startEpochH, startedMs, speed] = process.argv.slice(2) as [string, string, string, string, string]
const TICK_MS = 25
const WHOLE_MS = 1500

/** The farm's clock runs faster than ours and goes on over restarts. */
const clock = () =>
  Number(startEpochH) + ((Temporal.Now.instant().epochMilliseconds - Number(startedMs)) * Number(speed)) / 3_600_000

const farm = await demoFarm()
const database = openDatabase<OutboxTables & DayTables>(path)
await migrate(database)
const store = outboxStore(database)
const carrier = smtpCarrier({ url, from: 'Threshday <day@farm.example>', wholeMs: WHOLE_MS })
const outbox = new Outbox({ store, carriers: [carrier], owner: `${process.pid}`, clock, random: Math.random })
const tools = { days: dayStore(database), outbox: store, addresses: farmFileAddresses, links: noLinks }

const message = composeNoForecast(farm, localDateOf(clock(), farm.timeZone), clock(), 'a trial by fire', 1)
process.send?.('planned')
await postMorning(farm, { message, day: undefined, good: undefined, failures: [] }, tools, clock())
for (;;) {
  await outbox.carryDue()
  const open = (await store.recent(farm.id, 10)).filter(({ state }) => state === 'waiting' || state === 'sending')
  if (open.length === 0) break
  await new Promise((done) => setTimeout(done, TICK_MS))
}
carrier.close()
await database.destroy()
process.disconnect?.()
