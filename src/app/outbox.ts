/** Carries what the outbox holds: claims a parcel, hands it to its channel, notes the answer. At least once, in order. */
import { afterFailure, afterSuccess, type Circuit, CLOSED, passage } from './circuit.ts'
import type { Answer, Carrier, Channel, KeptParcel, OutboxStore } from './outbox-port.ts'
import { waitBefore } from './retry.ts'

export interface OutboxParts {
  readonly store: OutboxStore
  readonly carriers: readonly Carrier[]
  /** A name that no other running instance has. */
  readonly owner: string
  readonly clock: () => number
  /** A draw from [0, 1), to shift retries. */
  readonly random: () => number
  /** A recipient is no more: his subscription or hook is to be forgotten. */
  readonly forget?: (parcel: KeptParcel) => Promise<void>
  readonly leaseH?: number
}

export interface Carried {
  readonly sent: readonly KeptParcel[]
  /** Failed for now; it is tried again. */
  readonly postponed: readonly Failed[]
  /** Failed for good; on the list of what did not get through. */
  readonly dead: readonly Failed[]
  readonly lapsed: readonly KeptParcel[]
}

export interface Failed {
  readonly parcel: KeptParcel
  readonly reason: string
}

/** Longer than any carrier may take for one try [h]. */
const LEASE_H = 3 / 60

export class Outbox {
  readonly #parts: OutboxParts
  readonly #circuits = new Map<Channel, Circuit>()

  constructor(parts: OutboxParts) {
    this.#parts = parts
  }

  /** How a channel is doing, as this process has found it. */
  circuitOf(channel: Channel): Circuit {
    return this.#circuits.get(channel) ?? CLOSED
  }

  /** Sends everything that is due now, channel by channel side by side; each channel one parcel after another. */
  async carryDue(): Promise<Carried> {
    const { store, carriers, clock } = this.#parts
    const lapsed = await store.lapse(clock())
    const carried = await Promise.all(carriers.map((carrier) => this.#carryChannel(carrier)))
    return {
      sent: carried.flatMap(({ sent }) => sent),
      postponed: carried.flatMap(({ postponed }) => postponed),
      dead: carried.flatMap(({ dead }) => dead),
      lapsed,
    }
  }

  async #carryChannel(carrier: Carrier) {
    const { store, owner, clock, leaseH = LEASE_H } = this.#parts
    const { channel } = carrier
    const sent: KeptParcel[] = []
    const postponed: Failed[] = []
    const dead: Failed[] = []
    // A parcel that failed is due again at the earliest a minute on, so this ends.
    for (;;) {
      const may = passage(this.circuitOf(channel), clock())
      const claim = { channel, urgentOnly: may === 'urgent', owner, nowEpochH: clock(), leaseH }
      const parcel = await store.claim(claim)
      if (!parcel) break
      const answer = await carrier.carry(parcel).catch(bugAsAnswer)
      const settled = await this.#settle(parcel, answer)
      if (settled === 'sent') sent.push(parcel)
      else if (answer.kind !== 'taken') (settled === 'dead' ? dead : postponed).push({ parcel, reason: answer.reason })
    }
    return { sent, postponed, dead }
  }

  async #settle(parcel: KeptParcel, answer: Answer): Promise<'sent' | 'waiting' | 'dead'> {
    const { store, owner, clock, random, forget } = this.#parts
    const at = clock()
    const circuit = this.circuitOf(parcel.channel)
    const wholeChannel = answer.kind === 'later' && answer.wholeChannel
    this.#circuits.set(parcel.channel, wholeChannel ? afterFailure(circuit, at) : afterSuccess())
    if (answer.kind === 'taken') {
      await store.settleSent(parcel.key, answer.reference, at)
      return 'sent'
    }
    if (answer.kind === 'gone') await forget?.(parcel)
    const wait = answer.kind === 'later' ? waitBefore(parcel.attempts, parcel.urgent, random()) : undefined
    const state = wait === undefined ? 'dead' : 'waiting'
    const asked = answer.kind === 'later' ? (answer.waitH ?? 0) : 0
    await store.settleFailed(parcel.key, owner, {
      state,
      nextEpochH: at + Math.max(wait ?? 0, asked),
      atEpochH: at,
      reason: answer.reason,
    })
    return state
  }
}

const bugAsAnswer = (bug: unknown): Answer => ({
  kind: 'later',
  reason: bug instanceof Error ? bug.message : String(bug),
  wholeChannel: false,
})
