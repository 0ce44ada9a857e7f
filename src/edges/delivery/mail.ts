/** Mail through an SMTP server. */
import { createTransport } from 'nodemailer'
import type { Letter, Mailer } from '#work/mail-port.ts'

const TIMEOUT_MS = 20_000

/** @param url smtp:// or smtps:// with user and password. @param from the sender, `Name <address>`. */
export function smtpMailer(url: string, from: string): Mailer {
  const transport = createTransport({
    url,
    connectionTimeout: TIMEOUT_MS,
    greetingTimeout: TIMEOUT_MS,
    socketTimeout: TIMEOUT_MS,
  })
  return {
    async send(letter: Letter) {
      await transport.sendMail({
        from,
        to: letter.to,
        subject: letter.subject,
        text: letter.text,
        html: letter.html,
        messageId: letter.messageId,
        headers: { 'Auto-Submitted': 'auto-generated' },
      })
    },
    close: () => transport.close(),
  }
}
