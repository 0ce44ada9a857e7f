/** What carries messages out of the house, as the environment has it set. */
import { readFileSync } from 'node:fs'
import type { Kysely } from 'kysely'
import type { Subscriptions } from '#app/addresses.ts'
import type { Carrier } from '#app/outbox-port.ts'
import type { Environment } from '#edges/config/environment.ts'
import { network } from '#edges/delivery/ask.ts'
import { openNetwork } from '#edges/delivery/guard.ts'
import { type MailSettings, smtpCarrier } from '#edges/delivery/mail.ts'
import { pushCarrier } from '#edges/delivery/push.ts'
import { newVapidKeys, type VapidKeys } from '#edges/delivery/vapid.ts'
import { webhookCarrier } from '#edges/delivery/webhook.ts'
import { keptSecret, type SecretTables } from '#edges/storage/secrets.ts'
import type { MailShown } from '#edges/web/reach/reach.ts'

/** The service's own keys for pushes, made at its first start. */
export const keptVapid = async <Tables extends SecretTables>(database: Kysely<Tables>): Promise<VapidKeys> =>
  JSON.parse(await keptSecret(database, 'vapid', () => JSON.stringify(newVapidKeys()))) as VapidKeys

/** Mail by the server that is set, or printed; pushes and hooks to whoever signed up. */
export function carriersOf(
  environment: Environment,
  signedUp: Subscriptions,
  vapid: VapidKeys,
  printer: Carrier,
): Carrier[] {
  const { THRESHDAY_SMTP: url, THRESHDAY_MAIL_FROM: from, THRESHDAY_CONTACT: contact } = environment
  const nowSeconds = () => Temporal.Now.instant().epochMilliseconds / 1000
  return [
    url ? smtpCarrier({ url, from, ...dkimOf(environment.THRESHDAY_DKIM) }) : printer,
    webhookCarrier({ network: network(openNetwork()), secretsOf: signedUp.hookSecrets, nowSeconds }),
    pushCarrier({
      network: network(openNetwork()),
      vapid,
      contact: contactOf(contact ?? from),
      keysOf: signedUp.pushKeys,
      nowSeconds,
    }),
  ]
}

/** RFC 8292, 2.1: a mailto: or https: address. */
const contactOf = (contact: string): string =>
  contact.startsWith('https:') ? contact : `mailto:${/<([^>]*)>/.exec(contact)?.[1] ?? contact}`

function dkimOf(setting: string | undefined): Pick<MailSettings, 'dkim'> {
  const [, domain, selector, path] = /^([^:]+):([^:]+):(.+)$/.exec(setting ?? '') ?? []
  if (!domain || !selector || !path) return {}
  return { dkim: { domain, selector, privateKey: readFileSync(path, 'utf8') } }
}

/** The settings of mail without what must stay secret. */
export function mailShown(environment: Environment): MailShown {
  const { THRESHDAY_SMTP: url, THRESHDAY_MAIL_FROM: from } = environment
  const signedFor = dkimOf(environment.THRESHDAY_DKIM).dkim?.domain
  return { from, ...(url && { server: new URL(url).host }), ...(signedFor && { signedFor }) }
}
