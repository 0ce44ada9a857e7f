import { expect, it } from 'vitest'
import { printingCarrier } from '#edges/delivery/print.ts'
import type { Letter } from '#work/mail-port.ts'
import type { KeptParcel } from '#work/outbox-port.ts'

it('a letter is printed as it would have gone out, and counts as taken', async () => {
  const letter: Letter = {
    to: { name: 'Orla Fenn', address: 'orla@example.org' },
    subject: 'Run Mill Forty, 10:40 to 19:20.',
    text: 'Run Mill Forty, 10:40 to 19:20.\nFive combines.\n',
    html: '<p>Run</p>',
  }
  const printed: string[] = []
  const carrier = printingCarrier((text) => printed.push(text))
  expect(carrier.channel).toBe('mail')
  const outcome = await carrier.carry({ body: JSON.stringify(letter) } as KeptParcel)
  expect(outcome).toEqual({ kind: 'taken', reference: 'printed' })
  expect(printed.join('')).toContain('To Orla Fenn: Run Mill Forty, 10:40 to 19:20.')
  expect(printed.join('')).toContain(letter.text)
  expect(printed.join('')).not.toContain('<p>')
  carrier.close()
})
