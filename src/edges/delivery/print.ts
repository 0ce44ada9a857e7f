/** Without a mail server the message is printed: the text as it would have gone out. */
import type { Letter } from '#work/mail-port.ts'
import type { Carrier } from '#work/outbox-port.ts'

export const printingCarrier = (print: (text: string) => void): Carrier => ({
  channel: 'mail',
  async carry(parcel) {
    const letter = JSON.parse(parcel.body) as Letter
    print(`\nTo ${letter.to.name}: ${letter.subject}\n\n${letter.text}`)
    return { kind: 'taken', reference: 'printed' }
  },
  close: () => {},
})
