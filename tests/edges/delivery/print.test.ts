import { expect, it } from 'vitest'
import type { Letter } from '#app/mail-port.ts'
import type { KeptParcel } from '#app/outbox-port.ts'
import { printingCarrier } from '#edges/delivery/print.ts'

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

it('a letter that says what was just printed is only named, whoever gets it; another text is printed again', async () => {
  const printed: string[] = []
  const carrier = printingCarrier((text) => printed.push(text))
  const carry = (name: string, text: string) =>
    carrier.carry({ body: JSON.stringify({ to: { name }, subject: 'S', text }) } as KeptParcel)
  carrier.show('Run Mill Forty.\n')
  await carry('Orla Fenn', 'Run Mill Forty.\n')
  await carry('Wim Tallow', 'Run Mill Forty.\n')
  await carry('Bert Quill', 'Corra Mill Forty.\n')
  expect(printed.filter((text) => text === 'Run Mill Forty.\n')).toHaveLength(1)
  expect(printed.slice(1, 3)).toEqual(['To Orla Fenn: the same message.', 'To Wim Tallow: the same message.'])
  expect(printed.at(-1)).toBe('Corra Mill Forty.\n')
})
