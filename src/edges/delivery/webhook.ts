/** Signed messages to other programs, as the Standard Webhooks specification has them (standardwebhooks.com). */
import { createHmac, randomBytes } from 'node:crypto'
import type { Carrier } from '#app/outbox-port.ts'
import { type Network, post } from './ask.ts'

export interface WebhookSettings {
  readonly network: Network
  /** The hook's secrets, the newest first; while one is being replaced both sign. */
  readonly secretsOf: (hookId: string) => Promise<readonly string[]>
  readonly nowSeconds: () => number
}

const PREFIX = 'whsec_'
/** 24 to 64 bytes are asked for. */
const SECRET_BYTES = 32

export const newSecret = (): string => PREFIX + randomBytes(SECRET_BYTES).toString('base64')

export function webhookCarrier({ network, secretsOf, nowSeconds }: WebhookSettings): Carrier {
  return {
    channel: 'webhook',
    async carry(parcel) {
      const secrets = await secretsOf(parcel.recipient)
      if (secrets.length === 0) return { kind: 'refused', reason: 'the hook has no secret' }
      // The same id at every try, so that the other side can tell a second coming.
      const id = parcel.key.replaceAll('/', '_')
      const timestamp = Math.floor(nowSeconds())
      const headers = {
        'content-type': 'application/json',
        'webhook-id': id,
        'webhook-timestamp': `${timestamp}`,
        'webhook-signature': secrets.map((secret) => sign(secret, id, timestamp, parcel.body)).join(' '),
      }
      const answer = await post({ url: parcel.target, headers, body: parcel.body }, network)
      // Only 410 switches a hook off; a 404 may be a program that is being put up.
      return answer.kind === 'gone' && answer.reason.endsWith('404')
        ? { kind: 'later', reason: answer.reason, wholeChannel: false }
        : answer
    },
    close: () => void network.dispatcher.close(),
  }
}

export function sign(secret: string, id: string, timestamp: number, body: string): string {
  const key = Buffer.from(secret.slice(PREFIX.length), 'base64')
  return `v1,${createHmac('sha256', key).update(`${id}.${timestamp}.${body}`).digest('base64')}`
}
