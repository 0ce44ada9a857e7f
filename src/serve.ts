/** The running service: store, mail, pages and the minute's tick, started and stopped together. */
import { randomUUID } from 'node:crypto'
import { mkdirSync } from 'node:fs'
import { serve as listen } from '@hono/node-server'
import { Hono } from 'hono'
import { schedule } from 'node-cron'
import { everybody } from '#app/everybody.ts'
import { farmFromBook } from '#app/farm-fields.ts'
import type { Log } from '#app/log.ts'
import { dayBefore } from '#app/morning.ts'
import { Outbox } from '#app/outbox.ts'
import { ownerLink } from '#app/people.ts'
import { planDesk } from '#app/plan-desk.ts'
import { leftOver, seasonOf } from '#app/season-ahead.ts'
import { startService } from '#app/service.ts'
import type { FarmSettings } from '#app/settings-port.ts'
import { keepWeather } from '#app/weather-keeper.ts'
import { renderText } from '#core/messages/render-text.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { type Environment, SECRET_SETTINGS } from '#edges/config/environment.ts'
import { readOutline } from '#edges/config/read-outline.ts'
import { faultOfTarget } from '#edges/delivery/guard.ts'
import { linkRoutes } from '#edges/delivery/link-routes.ts'
import { newLinkKey, sealedLinks } from '#edges/delivery/links.ts'
import { openPainter } from '#edges/delivery/painter.ts'
import { printingCarrier } from '#edges/delivery/print.ts'
import { newSecret } from '#edges/delivery/webhook.ts'
import { openLogs, secretsIn } from '#edges/logs/logs.ts'
import { preparedBy } from '#edges/maker/day-thread.ts'
import { seasonBy } from '#edges/maker/season-thread.ts'
import { openThread } from '#edges/maker/thread.ts'
import { weekWorkBy } from '#edges/maker/week-thread.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { type CalendarTables, calendarStore } from '#edges/storage/calendar-store.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { type ForecastTables, forecastStore } from '#edges/storage/forecasts.ts'
import { openAt } from '#edges/storage/open.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'
import { type PeopleTables, peopleStore } from '#edges/storage/people.ts'
import { type PlanTables, planStore } from '#edges/storage/plan-store.ts'
import { type RecordTables, recordStore } from '#edges/storage/records.ts'
import { keptSecret, type SecretTables } from '#edges/storage/secrets.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { type WeatherTables, weatherStore } from '#edges/storage/weather-store.ts'
import { webApp } from '#edges/web/app.ts'
import { liveFeed } from '#edges/web/live/feed.ts'
import { requestLog } from '#edges/web/request-log.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { machineSecrets } from '#edges/web/sign-in/secrets.ts'
import { databaseIn, readFarmFile } from './book.ts'
import { carriersOf, keptVapid, mailShown } from './carriers.ts'
import { suppliersOf } from './suppliers.ts'

type Tables = DayTables &
  AlertTables &
  CalendarTables &
  SubscriptionTables &
  SecretTables &
  RecordTables &
  ForecastTables &
  PeopleTables &
  WeatherTables &
  PlanTables

const EVERY_MINUTE = '* * * * *'
const ONCE_A_DAY = '17 3 * * *'
/** A plan that is not proven by then is the best that was found: the morning does not wait. */
const SOLVER_SECONDS = 20
const DAY_WORKER = new URL('./day-worker.ts', import.meta.url)
const LOOPBACK: readonly string[] = ['127.0.0.1', '::1', 'localhost']

/** @param settings the farm file as it is shown. */
export async function serve(environment: Environment, file: Farm, settings: FarmSettings): Promise<void> {
  const print = (text: string) => process.stdout.write(`${text}\n`)
  const { suppliers: sources, startEpochH, replayable } = await suppliersOf(file, environment)
  const clock = clockFrom(startEpochH)
  // The demo keeps nothing: it starts the same each time.
  mkdirSync(environment.THRESHDAY_DATA, { recursive: true })
  const database = await openAt<Tables>(replayable ? ':memory:' : databaseIn(environment))
  const linkKey = await keptSecret(database, 'links', newLinkKey)
  const vapid = await keptVapid(database)
  const log = logsOf(environment, [linkKey, vapid.privateKey])
  const keeper = keepWeather({ suppliers: sources, store: weatherStore(database), random: Math.random, log })
  // Recorded weather can be asked for any moment and needs no keeping.
  const suppliers = replayable ? sources : keeper.suppliers
  const store = dayStore(database)
  const book = recordStore(database)
  for (const line of await readFarmFile(file, book, clock())) log(line, { event: 'farm-file-changed' })
  const farm = await farmFromBook(file, book)
  // Two threads, so that a planner's question does not wait for the day, nor the day for it.
  const dayThread = openThread(DAY_WORKER, { seconds: SOLVER_SECONDS }, log)
  const deskThread = openThread(DAY_WORKER, { seconds: SOLVER_SECONDS }, log)
  const plans = planStore(database)
  if (replayable) {
    const memory = dayBefore(farm, suppliers, clock())
    const yesterday = await memory.publishedBefore(farm.id, Temporal.PlainDate.from('1970-01-01'))
    if (yesterday) await store.keepPublished(farm.id, yesterday)
  }
  const signedUp = subscriptions(database)
  const links = sealedLinks(linkKey, environment.THRESHDAY_URL)
  const printer = printingCarrier(print)
  const carriers = carriersOf(environment, signedUp, vapid, printer)
  const posted = outboxStore(database)
  const outbox = new Outbox({
    store: posted,
    carriers,
    forget: (parcel) => signedUp.forget(parcel),
    owner: randomUUID(),
    clock,
    random: Math.random,
  })
  const alerts = alertStore(database)
  const forecasts = forecastStore(database)
  const calendar = calendarStore(database)
  const peopleKept = peopleStore(database)
  const everyone = async () => everybody(farm, await peopleKept.accounts(farm.id))
  const live = liveFeed()
  const service = startService({
    farm,
    everyone,
    suppliers,
    store,
    outboxStore: posted,
    outbox,
    addresses: signedUp,
    links,
    paint: await openPainter(),
    alerts,
    calendar,
    book,
    forecasts,
    planner: { prepare: preparedBy(dayThread) },
    plans,
    clock,
    log,
    happened: live.hear,
  })

  printer.show(renderText((await service.current()).message))
  const people = {
    farm,
    store: peopleKept,
    secrets: machineSecrets(),
    clock,
    removed: (id: string) => signedUp.forgetPerson(farm.id, id),
  }
  const app = webApp(service, {
    people,
    book: { records: book, outbox: posted, addresses: signedUp, alerts, outlines: readOutline },
    live,
    settings,
    forecasts,
    plans,
    desk: planDesk({
      service,
      records: book,
      plans,
      work: weekWorkBy(deskThread),
      seasonOf: (day) => seasonOf(day, suppliers.earlierYears, leftOver(day), seasonBy(deskThread)),
    }),
    ...(!replayable && {
      sources: {
        states: keeper.states,
        lacks: keeper.lacks,
        credits: [
          ...sources.forecasts,
          ...sources.observations,
          ...(sources.history ?? []),
          ...(sources.warningSources ?? []),
        ],
      },
    }),
    reach: {
      subscriptions: signedUp,
      links,
      outbox: posted,
      everyone,
      pushKey: vapid.publicKey,
      mail: mailShown(environment),
      circuitOf: (channel) => outbox.circuitOf(channel),
      newId: randomUUID,
      faultOf: faultOfTarget,
      newSecret,
    },
    // The demo on this machine alone is open for looking.
    openReading: replayable && LOOPBACK.includes(environment.THRESHDAY_HOST),
    log,
  })
  // Links in messages carry their own right; all else asks who looks.
  const front = new Hono<WebEnv>()
  for (const path of ['/do/*', '/calendar/*', '/text/*']) front.use(path, requestLog(log))
  front.route(
    '/',
    linkRoutes({
      farm,
      links,
      subscriptions: signedUp,
      alerts,
      calendar,
      people: everyone,
      current: () => service.current(),
      clock,
    }),
  )
  front.all('*', (context) => app.fetch(context.req.raw, context.env))
  const invitation = await ownerLink(people)
  const server = listen(
    { fetch: front.fetch, hostname: environment.THRESHDAY_HOST, port: environment.THRESHDAY_PORT },
    ({ address, port }) => {
      const origin = `http://${address.includes(':') ? `[${address}]` : address}:${port}`
      print(`Threshday for ${farm.name}: ${origin}/`)
      if (invitation) print(`To sign in as the owner, once: ${origin}/join/${invitation}`)
      log(`Listening on ${origin}`, { event: 'started', farm: farm.id, version: process.version })
    },
  )
  const tick = () => service.tick().catch((bug: unknown) => log(...tickFailed(bug)))
  const cron = schedule(EVERY_MINUTE, tick, { timezone: 'Etc/UTC', noOverlap: true })
  void tick()
  const tidying = schedule(ONCE_A_DAY, () => keeper.tidy(clock()), { timezone: 'Etc/UTC', noOverlap: true })

  const stop = async () => {
    await cron.stop()
    await tidying.stop()
    live.close()
    server.close()
    for (const carrier of carriers) carrier.close()
    await dayThread.close()
    await deskThread.close()
    await database.destroy()
    log('Stopped', { event: 'stopped' })
  }
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void stop())
}

/** To standard error: what people read, the start lines and printed messages, stays by itself on standard output. */
function logsOf(environment: Environment, kept: readonly string[]): Log {
  const { THRESHDAY_LOG_LEVEL: level, THRESHDAY_LOG_FORMAT: format } = environment
  return openLogs({
    level,
    format: format ?? (process.stderr.isTTY ? 'text' : 'json'),
    secrets: [...secretsIn(SECRET_SETTINGS.map((name) => environment[name])), ...kept],
    write: (line) => process.stderr.write(line),
  })
}

function tickFailed(bug: unknown): Parameters<Log> {
  const { message, stack } = bug instanceof Error ? bug : new Error(String(bug))
  return [`The minute's work failed: ${message}`, { event: 'tick-failed', level: 'error', stack }]
}

/** The real clock, or one that starts at a recorded moment and runs on from there. */
function clockFrom(startEpochH: number | undefined): () => number {
  const real = () => epochHoursOf(Temporal.Now.instant())
  if (startEpochH === undefined) return real
  const offset = startEpochH - real()
  return () => real() + offset
}
