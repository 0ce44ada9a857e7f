/** Without a mail server the message is printed: the text as it would have gone out. */
import type { Mailer } from '#work/mail-port.ts'

export const printingMailer = (print: (text: string) => void): Mailer => ({
  send: async (letter) => print(`\nTo ${letter.to.name}: ${letter.subject}\n\n${letter.text}`),
  close: () => {},
})
