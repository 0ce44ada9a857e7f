/** People in memory for tests of the web: a database of its own, secrets that are quick, a clock that can be moved. */
import { createHash } from 'node:crypto'
import type { Hono } from 'hono'
import { CLOSED } from '#app/circuit.ts'
import { everybody } from '#app/everybody.ts'
import type { OutboxStore } from '#app/outbox-port.ts'
import { join, ownerLink, type People } from '#app/people.ts'
import type { Role, Secrets } from '#app/people-port.ts'
import { planDesk } from '#app/plan-desk.ts'
import type { RecordStore } from '#app/records-port.ts'
import type { Service } from '#app/service.ts'
import { weekWork } from '#app/week-work.ts'
import type { Language } from '#core/operation/farm.ts'
import { loadFarm } from '#edges/config/load.ts'
import { readOutline } from '#edges/config/read-outline.ts'
import { settingsOf } from '#edges/config/settings.ts'
import { faultOfTarget } from '#edges/delivery/guard.ts'
import { newLinkKey, sealedLinks } from '#edges/delivery/links.ts'
import { newVapidKeys } from '#edges/delivery/vapid.ts'
import { newSecret } from '#edges/delivery/webhook.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { openAt } from '#edges/storage/open.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'
import { type PeopleTables, peopleStore } from '#edges/storage/people.ts'
import { type PlanTables, planStore } from '#edges/storage/plan-store.ts'
import { type RecordTables, recordStore } from '#edges/storage/records.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { type WebOptions, webApp } from '#edges/web/app.ts'
import type { Reach } from '#edges/web/reach/reach.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { DEMO_FARM } from './demo-service.ts'

/** Where its things stand, whatever a test has made of the farm. */
const demoFile = loadFarm(DEMO_FARM)

export const PASSWORD = 'four words of mine'

/** Counts instead of chance, and a plain digest instead of a slow hash. */
function quickSecrets(): Secrets {
  let count = 0
  const digest = (text: string) => createHash('sha256').update(text).digest('hex')
  return {
    token: () => `token-${count++}`,
    digest,
    hash: (password) => Promise.resolve(`quick:${digest(password)}`),
    verify: (password, hash) => Promise.resolve(hash === `quick:${digest(password)}`),
  }
}

export interface Site {
  readonly app: Hono<WebEnv>
  readonly people: People
  readonly records: RecordStore
  readonly outbox: OutboxStore
  readonly reach: Reach
  /** How the channels are doing, as a test has it. */
  readonly ways: { circuitOf: Reach['circuitOf'] }
  readonly time: { laterH: number }
  /** Session cookies of one person of each role. */
  readonly cookies: { readonly [R in Role | 'spanish']: string }
  as(role: Role | 'spanish' | undefined, path: string, init?: RequestInit): Promise<Response>
  post(role: Role | 'spanish' | undefined, path: string, form: Record<string, string>): Promise<Response>
}

export async function siteOf(
  service: Service,
  options: WebOptions = {},
  secrets = quickSecrets(),
  inBook: Partial<NonNullable<WebOptions['book']>> = {},
): Promise<Site> {
  const time = { laterH: 0 }
  const database = await openAt<PeopleTables & RecordTables & AlertTables & SubscriptionTables & PlanTables>(':memory:')
  const records = recordStore(database)
  const outbox = outboxStore(database)
  const people: People = {
    farm: service.farm,
    store: peopleStore(database),
    secrets,
    clock: () => service.clock() + time.laterH,
    removed: (id) => signedUp.forgetPerson(service.farm.id, id),
  }
  const signedUp = subscriptions(database)
  const ways: Site['ways'] = { circuitOf: () => CLOSED }
  let ids = 0
  const reach: Reach = {
    subscriptions: signedUp,
    links: sealedLinks(newLinkKey(), undefined),
    outbox,
    everyone: async () => everybody(service.farm, await people.store.accounts(service.farm.id)),
    pushKey: newVapidKeys().publicKey,
    mail: { server: 'mail.example.org:587', from: 'Farm <farm@example.org>', signedFor: 'example.org' },
    circuitOf: (channel) => ways.circuitOf(channel),
    newId: () => `test-${ids++}`,
    faultOf: faultOfTarget,
    newSecret,
  }
  const app = webApp(service, {
    people,
    reach,
    book: {
      records,
      outbox,
      addresses: signedUp,
      alerts: alertStore(database),
      outlines: readOutline,
      ...inBook,
    },
    settings: {
      ...settingsOf({ ...(await demoFile), farm: service.farm }, DEMO_FARM),
      fileNow: async () => ({ kind: 'same' }),
    },
    desk: planDesk({ service, records, plans: planStore(database), work: weekWork(undefined) }),
    openReading: false,
    ...options,
  })
  const cookieOf = async (name: string, token: string) => {
    const joined = await join(people, token, name, PASSWORD)
    if (joined.kind === 'refused') throw new Error(joined.fault)
    return { cookie: `threshday_session=${joined.session}`, account: joined.account }
  }
  const owner = await cookieOf('Ola Owner', (await ownerLink(people))!)
  const invited = async (name: string, role: Role, language: Language = 'en') => {
    const { invite } = await import('#app/people.ts')
    return (await cookieOf(name, await invite(people, role, language, owner.account))).cookie
  }
  const cookies = {
    owner: owner.cookie,
    planner: await invited('Pat Planner', 'planner'),
    crew: await invited('Cal Crew', 'crew'),
    spanish: await invited('Chayo Lindero', 'crew', 'es'),
  }
  const as: Site['as'] = async (role, path, init = {}) =>
    await app.request(path, { ...init, headers: { ...init.headers, ...(role ? { cookie: cookies[role] } : {}) } })
  return {
    app,
    people,
    records,
    outbox,
    reach,
    ways,
    time,
    cookies,
    as,
    post: (role, path, form) =>
      as(role, path, {
        method: 'POST',
        body: new URLSearchParams(form),
        headers: { 'sec-fetch-site': 'same-origin' },
      }),
  }
}

/** Asks the API as a program of this site would. @param request method and path. */
export function asked(site: Site, role: Role | 'spanish' | undefined, request: string, body?: unknown, key?: string) {
  const [method = 'GET', path = '/'] = request.split(/ (.*)/)
  return site.as(role, path, {
    method,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    headers: {
      'content-type': 'application/json',
      'sec-fetch-site': 'same-origin',
      ...(key ? { 'idempotency-key': key } : {}),
    },
  })
}
