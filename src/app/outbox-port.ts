/** What must be kept so that a message is told once, and what carries it out of the house. */

export const CHANNELS = ['mail', 'push', 'webhook'] as const
export type Channel = (typeof CHANNELS)[number]

/** What the key of a parcel is made of: one parcel each, whatever restarts or second instances there are. */
export interface ParcelName {
  readonly farmId: string
  /** `morning`, `alert`, `test`. */
  readonly kind: string
  /** What it is about: a field, an alert; empty for the day as a whole. */
  readonly subject: string
  /** Local date at the farm, ISO 8601. */
  readonly date: string
  readonly channel: Channel
  /** A person's id, or the id of a webhook or push subscription. */
  readonly recipient: string
}

/** A message for one recipient on one channel, rendered to its last character before it is first tried. */
export interface Parcel extends ParcelName {
  /** The mail address, push endpoint or hook's address. */
  readonly target: string
  /** What the channel's carrier reads: JSON of its own shape. */
  readonly body: string
  /** Fire stops and the like: first in the queue, tried every minute, through an open circuit too. */
  readonly urgent: boolean
  readonly createdEpochH: number
  /** From here on nobody is helped by it: it lapses unsent. */
  readonly closesEpochH: number
}

export type ParcelState = 'waiting' | 'sending' | 'sent' | 'dead' | 'lapsed'

export interface KeptParcel extends Parcel {
  readonly key: string
  readonly state: ParcelState
  readonly attempts: number
  readonly nextEpochH: number
  readonly touchedEpochH: number
  readonly lastReason: string
  /** What the other side called it when it took it. */
  readonly reference: string
}

export interface Claim {
  readonly channel: Channel
  /** Only urgent parcels: asked while the channel's circuit is open. */
  readonly urgentOnly: boolean
  /** Who claims: a name that no other running instance has. */
  readonly owner: string
  readonly nowEpochH: number
  /** After so long a claim of a process that died may be taken over [h]. */
  readonly leaseH: number
}

export interface OutboxStore {
  /** Keeps parcels, all or none; one whose key is known already is left as it is. @returns how many were new. */
  post(parcels: readonly Parcel[]): Promise<number>
  /** Whether anything of this kind was posted for the date, to anyone. */
  posted(farmId: string, kind: string, subject: string, date: string): Promise<boolean>
  /** Takes the most pressing parcel that is due, so that nobody else does; undefined when none is. */
  claim(claim: Claim): Promise<KeptParcel | undefined>
  /** The other side has taken it: true for ever, whoever says so. */
  settleSent(key: string, reference: string, atEpochH: number): Promise<void>
  /** It failed for now, or for good; heeded only from the owner of the claim. */
  settleFailed(key: string, owner: string, failed: SettledFailure): Promise<void>
  /** Lets go of what has closed. @returns the parcels that lapsed just now. */
  lapse(atEpochH: number): Promise<readonly KeptParcel[]>
  /** Everything that did not get through, newest first. */
  undelivered(farmId: string, most: number): Promise<readonly KeptParcel[]>
  /** What went out or is on its way, newest first. */
  recent(farmId: string, most: number): Promise<readonly KeptParcel[]>
  /** Puts a dead or lapsed parcel back into the queue. @returns whether there was one. */
  resend(key: string, atEpochH: number, closesEpochH: number): Promise<boolean>
}

export interface SettledFailure {
  readonly state: 'waiting' | 'dead'
  readonly nextEpochH: number
  readonly atEpochH: number
  readonly reason: string
}

/**
 * How a try ended. `later`: not now, the same again may work. `refused`: this parcel never will. `gone`: the recipient
 * itself is no more, forget him. A try that broke off before the answer is `later`: better twice than never.
 */
export type Answer =
  | { readonly kind: 'taken'; readonly reference: string }
  | {
      readonly kind: 'later'
      readonly reason: string
      /** The other side asked for so long a wait [h]. */
      readonly waitH?: number
      /** The fault lies with the whole channel (no connection, no login), not with this recipient. */
      readonly wholeChannel: boolean
    }
  | { readonly kind: 'refused'; readonly reason: string }
  | { readonly kind: 'gone'; readonly reason: string }

export interface Carrier {
  readonly channel: Channel
  /** Never throws for what the other side does; a throw is a bug and counts as `later`. */
  carry(parcel: KeptParcel): Promise<Answer>
  close(): void
}

/** A part is written with letters, digits, dash and tilde; anything else becomes its code, so keys never meet. */
const keyPart = (text: string): string =>
  text === '' ? '_' : text.replace(/[^A-Za-z0-9~-]/gu, (character) => `_${character.codePointAt(0)!.toString(16)}_`)

export const parcelKey = (name: ParcelName): string =>
  [name.farmId, name.kind, name.subject, name.date, name.channel, name.recipient].map(keyPart).join('/')
