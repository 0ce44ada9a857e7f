/** Notes to phones and browsers that signed up (Web Push, RFC 8030). */
import { createHash } from 'node:crypto'
import type { Note } from '#app/note.ts'
import type { Carrier, KeptParcel } from '#app/outbox-port.ts'
import { type Network, post } from './ask.ts'
import { encryptPush, LONGEST_PAYLOAD, type PushKeys } from './push-encryption.ts'
import { type VapidKeys, vapidAuthorization } from './vapid.ts'

export interface PushSettings {
  readonly network: Network
  readonly vapid: VapidKeys
  /** mailto: or https: address of whoever runs the service. */
  readonly contact: string
  /** Keys of a subscription; undefined when it was given up meanwhile. */
  readonly keysOf: (subscriptionId: string) => Promise<PushKeys | undefined>
  readonly nowSeconds: () => number
}

const SECONDS_PER_HOUR = 3600
/** RFC 8030, 5.4: at most 32 characters of base64url. */
const TOPIC_LENGTH = 24

export function pushCarrier({ network, vapid, contact, keysOf, nowSeconds }: PushSettings): Carrier {
  return {
    channel: 'push',
    async carry(parcel) {
      const keys = await keysOf(parcel.recipient)
      if (!keys) return { kind: 'refused', reason: 'the subscription was given up' }
      const fault = network.faultOf(parcel.target)
      if (fault) return { kind: 'refused', reason: fault }
      const headers = {
        authorization: vapidAuthorization(parcel.target, vapid, contact, nowSeconds()),
        'content-encoding': 'aes128gcm',
        'content-type': 'application/octet-stream',
        ttl: `${Math.max(0, Math.floor((parcel.closesEpochH - parcel.touchedEpochH) * SECONDS_PER_HOUR))}`,
        urgency: parcel.urgent ? 'high' : 'normal',
        ...topicOf(parcel),
      }
      return post({ url: parcel.target, headers, body: encryptPush(payloadOf(parcel), keys) }, network)
    },
    close: () => void network.dispatcher.close(),
  }
}

/** A message of the day takes the place of one not yet delivered; alerts, problems and tests, each about something, stand side by side. */
const topicOf = ({ kind, subject }: KeptParcel): Record<string, string> =>
  subject !== '' ? {} : { topic: createHash('sha256').update(kind).digest('base64url').slice(0, TOPIC_LENGTH) }

/** The text is cut where the note would not fit; the page has the whole. */
function payloadOf({ body }: KeptParcel): Buffer {
  const bytes = Buffer.from(body)
  if (bytes.length <= LONGEST_PAYLOAD) return bytes
  const note = JSON.parse(body) as Note
  const room = LONGEST_PAYLOAD - Buffer.byteLength(JSON.stringify({ ...note, body: '' }))
  // A character takes up to six bytes in JSON.
  return Buffer.from(JSON.stringify({ ...note, body: `${note.body.slice(0, Math.floor(room / 6) - 1)}…` }))
}
