/** A look at the day for what the crew must know before the next morning: told once, to whom it concerns. */

import type { Alert } from '#core/messages/alerts/alert.ts'
import { hears, isQuiet } from '#core/messages/alerts/audience.ts'
import { type AlertBoard, stepBoard } from '#core/messages/alerts/board.ts'
import { admit, NO_POST, type PersonPost } from '#core/messages/alerts/rate.ts'
import { type AlertMessage, alertHtml, alertText, renderAlerts } from '#core/messages/alerts/render.ts'
import { toldDay } from '#core/messages/alerts/told.ts'
import { watch } from '#core/messages/alerts/watch.ts'
import type { WatchedMeter, WatchedWarning } from '#core/messages/alerts/watch-input.ts'
import type { Manner } from '#core/messages/words/format.ts'
import { alertWordsOf } from '#core/messages/words/words.ts'
import type { Farm, Person } from '#core/operation/farm.ts'
import { localDateOf } from '#core/units/time.ts'
import type { AddressBook } from './addresses.ts'
import type { AlertStore, KeptAlerts } from './alert-store.ts'
import { deciders } from './everybody.ts'
import type { Links } from './links.ts'
import type { DayMade } from './morning.ts'
import { morningHours } from './morning-hours.ts'
import type { Note } from './note.ts'
import type { Parcel } from './outbox-port.ts'
import { parcelsTo, parcelsToHooks } from './parcels.ts'

export interface AlertTools {
  readonly alerts: AlertStore
  readonly addresses: AddressBook
  readonly links: Links
}

/** What bears on alerts beside the day itself. */
export interface Sidelights {
  readonly meters: readonly WatchedMeter[]
  /** Undefined while it is not known what is in force. */
  readonly warnings: readonly WatchedWarning[] | undefined
}

export const ALERT = 'alert' as const
/** A fire stop that nobody has acknowledged for so long is told to owner and planner [h]. */
const AWAITED_H = 0.25
/** Alerts tell of now: one that could not be sent for so long is of no use [h]. */
const SERVES_H = 2
const URGENT_SERVES_H = 8

/** @returns what started or ended, and how many parcels were posted for it. */
export async function lookForAlerts(
  farm: Farm,
  made: DayMade,
  tools: AlertTools,
  nowEpochH: number,
  sidelights: Sidelights = { meters: [], warnings: undefined },
): Promise<{ readonly alerts: readonly Alert[]; readonly posted: number }> {
  const { version, kept } = await tools.alerts.load(farm.id)
  const look = new AlertLook(farm, nowEpochH, version + 1)
  const { board, alerts } = look.step(kept.board, made, sidelights)
  const escalated = await look.escalate(kept, tools)
  const { posts, letters } = look.admit(kept, board, alerts)
  const stops = tools.links.reachable
    ? alerts.filter(({ phase, said }) => phase === 'start' && said.kind === 'fire-stop')
    : []
  const next: KeptAlerts = {
    board,
    posts,
    awaited: [...escalated.left, ...stops.map(({ id }) => ({ id, toldEpochH: nowEpochH }))],
  }
  const parcels = [...(await look.parcels(letters, alerts, tools)), ...escalated.parcels]
  if (parcels.length === 0 && JSON.stringify(next) === JSON.stringify(kept)) return { alerts: [], posted: 0 }
  const isOurs = await tools.alerts.save(farm.id, version, next, parcels)
  return isOurs ? { alerts, posted: parcels.length } : { alerts: [], posted: 0 }
}

interface AlertPost {
  readonly urgent: boolean
  /** Tells apart what one look posts to the same person. */
  readonly suffix: string
  /** Page that a tap on a note opens. */
  readonly path: string
}

interface AlertLetter {
  readonly person: Person
  readonly tell: readonly Alert[]
}

class AlertLook {
  readonly #farm: Farm
  readonly #now: number
  readonly #version: number
  readonly #date: Temporal.PlainDate

  constructor(farm: Farm, nowEpochH: number, version: number) {
    this.#farm = farm
    this.#now = nowEpochH
    this.#version = version
    this.#date = localDateOf(nowEpochH, farm.timeZone)
  }

  step(board: AlertBoard, made: DayMade, { meters, warnings }: Sidelights) {
    const farm = this.#farm
    const told = this.#told(board, made)
    const readings = watch({
      farm,
      nowEpochH: this.#now,
      date: this.#date,
      day: made.day,
      told,
      weatherAgeH: made.message.weather.ageH,
      meters,
      warnings,
    })
    const stepped = stepBoard({ ...board, told }, readings, this.#now, this.#version, [
      'meter-disagrees',
      ...(warnings ? (['official-warning'] as const) : []),
    ])
    const changed = stepped.alerts.some(({ phase, said }) => phase === 'start' && said.kind === 'plan-changed')
    if (!changed || !told) return stepped
    // What the crew has just been told is from now on what it knows.
    const runs = toldDay(made.message, made.day?.plan).runs
    return { board: { ...stepped.board, told: { ...told, runs } }, alerts: stepped.alerts }
  }

  /** The morning's word counts from its hour on. */
  #told(board: AlertBoard, made: DayMade): AlertBoard['told'] {
    if (board.told?.date === this.#date.toString()) return board.told
    const { dueEpochH } = morningHours(this.#farm, this.#date, made.day?.plan)
    const isToday = made.message.date.equals(this.#date)
    return isToday && this.#now >= dueEpochH ? toldDay(made.message, made.day?.plan) : undefined
  }

  /** What each person is told now, within his hours and number. */
  admit(kept: KeptAlerts, board: AlertBoard, alerts: readonly Alert[]) {
    const farm = this.#farm
    const stillOn = new Set(
      Object.values(board.standings).flatMap((standing) => ('id' in standing ? [standing.id] : [])),
    )
    // Each has been told of its own; a plan's change is over as soon as it is told.
    for (const { id, phase } of alerts) if (phase === 'start') stillOn.add(id)
    const posts: Record<string, PersonPost> = {}
    const letters: AlertLetter[] = []
    for (const person of farm.people) {
      const incoming = alerts.filter(({ said }) => hears(person, said.kind, farm))
      const quiet = isQuiet(person, this.#now, farm.timeZone)
      const { post, tell } = admit(kept.posts[person.id] ?? NO_POST, incoming, stillOn, this.#now, quiet)
      if (post.held.length > 0 || post.sentEpochH.length > 0) posts[person.id] = post
      if (tell.length > 0) letters.push({ person, tell })
    }
    return { posts, letters }
  }

  async parcels(letters: readonly AlertLetter[], alerts: readonly Alert[], tools: AlertTools): Promise<Parcel[]> {
    const parcels: Parcel[] = []
    for (const { person, tell } of letters) {
      const stop = tell.find(({ phase, said }) => phase === 'start' && said.kind === 'fire-stop')
      const deed = stop && { deed: 'acknowledge' as const, farmId: this.#farm.id, personId: person.id, alert: stop.id }
      const message = renderAlerts(tell, this.#manner(person), deed && tools.links.to(deed))
      // A tap on the phone's note leads to where a fire stop is acknowledged.
      const post = { urgent: stop !== undefined, suffix: '', path: deed ? tools.links.pathTo(deed) : '/' }
      parcels.push(...(await this.#toPerson(person, message, post, tools)))
    }
    if (alerts.length > 0) parcels.push(...(await this.#toHooks(alerts, tools)))
    return parcels
  }

  /** A fire stop that nobody has acknowledged goes to owner and planner, who can call. */
  async escalate(kept: KeptAlerts, tools: AlertTools) {
    const left: KeptAlerts['awaited'][number][] = []
    const parcels: Parcel[] = []
    for (const awaited of kept.awaited) {
      if (await tools.alerts.isAcknowledged(this.#farm.id, awaited.id)) continue
      if (this.#now - awaited.toldEpochH < AWAITED_H) {
        left.push(awaited)
        continue
      }
      for (const person of deciders(this.#farm.people)) {
        const words = alertWordsOf(person.language)
        const { title, text } = words.unacknowledged(awaited.toldEpochH, this.#manner(person))
        const post = { urgent: true, suffix: '-unread', path: '/' }
        parcels.push(...(await this.#toPerson(person, { title, paragraphs: [text] }, post, tools)))
      }
    }
    return { left, parcels }
  }

  #manner(person: Person): Manner {
    const { units, timeZone } = this.#farm
    return { units, timeZone, language: person.language, today: this.#date, nowEpochH: this.#now }
  }

  async #toPerson(
    person: Person,
    message: AlertMessage,
    { urgent, suffix, path }: AlertPost,
    tools: AlertTools,
  ): Promise<Parcel[]> {
    const addresses = await tools.addresses.addressesOf(this.#farm, person, ALERT)
    const base = this.#base(suffix, urgent)
    // Each look has a tag of its own: no later alert wipes a fire stop off the screen.
    const note: Note = {
      title: message.title,
      body: message.paragraphs[0]!,
      tag: `${ALERT}-${base.subject}`,
      path,
      urgent,
    }
    const html = alertHtml(message, person.language)
    return parcelsTo(person, addresses, base, { subject: message.title, text: alertText(message), html, note })
  }

  async #toHooks(alerts: readonly Alert[], tools: AlertTools): Promise<Parcel[]> {
    const urgent = alerts.some(({ phase, said }) => phase === 'start' && said.kind === 'fire-stop')
    const event = { type: ALERT, farm: this.#farm.id, date: this.#date.toString(), alerts }
    return parcelsToHooks(await tools.addresses.hooksOf(this.#farm), this.#base('', urgent), event)
  }

  #base(suffix: string, urgent: boolean) {
    return {
      farmId: this.#farm.id,
      kind: ALERT,
      subject: `look-${this.#version}${suffix}`,
      date: this.#date.toString(),
      urgent,
      createdEpochH: this.#now,
      closesEpochH: this.#now + (urgent ? URGENT_SERVES_H : SERVES_H),
    }
  }
}
