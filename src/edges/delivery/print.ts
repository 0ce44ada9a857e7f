/** Without a mail server the message is printed: the text as it would have gone out, once for all who get the same. */
import type { Letter } from '#app/mail-port.ts'
import type { Carrier } from '#app/outbox-port.ts'

/** A carrier that prints, and remembers what was printed last. */
export interface PrintingCarrier extends Carrier {
  /** Prints a text by itself; a letter that says the same is then only named. */
  show(text: string): void
}

export function printingCarrier(print: (text: string) => void): PrintingCarrier {
  let shown: string | undefined
  const show = (text: string) => {
    shown = text
    print(text)
  }
  return {
    channel: 'mail',
    async carry(parcel) {
      const letter = JSON.parse(parcel.body) as Letter
      if (letter.text === shown) print(`To ${letter.to.name}: the same message.`)
      else {
        print(`\nTo ${letter.to.name}: ${letter.subject}\n`)
        show(letter.text)
      }
      return { kind: 'taken', reference: 'printed' }
    },
    close: () => {},
    show,
  }
}
