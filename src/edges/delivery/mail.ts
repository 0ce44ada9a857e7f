/** Mail through an SMTP server: a pool of connections, signed where a key is given, the same id at every try. */
import { createTransport, type SendMailOptions } from 'nodemailer'
import type { Letter } from '#app/mail-port.ts'
import type { Answer, Carrier, KeptParcel } from '#app/outbox-port.ts'

export interface MailSettings {
  /** smtp:// or smtps:// with user and password. */
  readonly url: string
  /** The sender, `Name <address>`. */
  readonly from: string
  /** Signs every letter (RFC 6376), so that a receiver can trust the sender's domain and the unsubscribe link. */
  readonly dkim?: { readonly domain: string; readonly selector: string; readonly privateKey: string }
  /** Longest wait for any single step of the talk with the server [ms]. */
  readonly timeoutMs?: number
  /** Longest wait for a letter as a whole [ms]; shorter than the outbox's lease. */
  readonly wholeMs?: number
}

const TIMEOUT_MS = 20_000
const WHOLE_MS = 90_000
const CONNECTIONS = 2
const PERMANENT = 500

export function smtpCarrier(settings: MailSettings): Carrier {
  const { url, from, dkim, timeoutMs = TIMEOUT_MS, wholeMs = WHOLE_MS } = settings
  const transport = createTransport({
    pool: true,
    maxConnections: CONNECTIONS,
    url,
    connectionTimeout: timeoutMs,
    greetingTimeout: timeoutMs,
    socketTimeout: timeoutMs,
    ...(dkim ? { dkim: { domainName: dkim.domain, keySelector: dkim.selector, privateKey: dkim.privateKey } } : {}),
  })
  const domain = domainOf(from)
  return {
    channel: 'mail',
    async carry(parcel) {
      const { promise: tooLong, reject } = Promise.withResolvers<never>()
      const timer = setTimeout(() => reject(new Error(`No answer within ${wholeMs / 1000} s`)), wholeMs)
      try {
        const taken = await Promise.race([transport.sendMail(mailOf(parcel, from, domain)), tooLong])
        return { kind: 'taken', reference: taken.response ?? '' }
      } catch (failure) {
        return answerOf(failure as SmtpFailure)
      } finally {
        clearTimeout(timer)
      }
    },
    close: () => transport.close(),
  }
}

/** A parcel's id (RFC 5322, 3.6.4): its key, under the sender's domain; a server that gets it twice can see so. */
const messageIdOf = (key: string, domain: string): string => `<${key.replaceAll('/', '.')}@${domain}>`

export function mailOf(parcel: KeptParcel, from: string, domain: string): SendMailOptions {
  const letter = JSON.parse(parcel.body) as Letter
  return {
    from,
    to: letter.to,
    subject: letter.subject,
    text: letter.text,
    html: letter.html,
    messageId: messageIdOf(parcel.key, domain),
    // RFC 3834, 5: written by a program, not to be answered by another.
    headers: { 'Auto-Submitted': 'auto-generated', ...unsubscribeHeaders(letter.unsubscribeUrl) },
    attachments: (letter.pictures ?? []).map(({ cid, mediaType, base64 }) => ({
      cid,
      filename: `${cid}.png`,
      contentType: mediaType,
      contentDisposition: 'inline' as const,
      content: Buffer.from(base64, 'base64'),
    })),
  }
}

/** RFC 2369 and, for one click without a page, RFC 8058: only an https address may stand there. */
const unsubscribeHeaders = (url: string | undefined): Record<string, string> =>
  url?.startsWith('https://')
    ? { 'List-Unsubscribe': `<${url}>`, 'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click' }
    : {}

interface SmtpFailure extends Error {
  readonly code?: string
  readonly responseCode?: number
}

/** What the server said to this letter for good (5xx to recipient or content) is final; anything else may pass. */
function answerOf({ code, responseCode = 0, message }: SmtpFailure): Answer {
  const aboutLetter = code === 'EENVELOPE' || code === 'EMESSAGE'
  if (aboutLetter && responseCode >= PERMANENT) return { kind: 'refused', reason: message }
  return { kind: 'later', reason: message, wholeChannel: !aboutLetter || responseCode === 421 }
}

export function domainOf(from: string): string {
  const address = /<([^>]*)>/.exec(from)?.[1] ?? from
  return address.slice(address.lastIndexOf('@') + 1).trim() || 'localhost'
}
