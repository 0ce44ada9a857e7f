/** The morning message in one text message: 160 characters that any phone takes. */
import { SEPTETS_IN_ONE, septets, toGsm7 } from './gsm7.ts'
import type { MorningMessage } from './morning.ts'
import { mannerOf } from './render-text.ts'
import { shortWordsOf } from './words/words.ts'

/** Long names are cut to this, then to less, until all fits. */
const NAME_LENGTHS = [40, 24, 16, 10] as const

export function renderShort(message: MorningMessage): string {
  const words = shortWordsOf(message.language)
  for (const most of NAME_LENGTHS) {
    const named = withNames(message, (name) => cut(name, most))
    for (const text of words.shortMorning(named, mannerOf(message))) {
      const plain = toGsm7(text)
      if (septets(plain) <= SEPTETS_IN_ONE) return plain
    }
  }
  throw new RangeError('The shortest form of the morning message must fit')
}

const cut = (name: string, most: number): string => {
  const plain = toGsm7(name).trim()
  return plain.length <= most ? plain : `${plain.slice(0, most - 1).trimEnd()}.`
}

function withNames(message: MorningMessage, shorten: (name: string) => string): MorningMessage {
  const { headline, after } = message
  return {
    ...message,
    headline:
      headline.kind === 'run'
        ? { ...headline, run: { ...headline.run, partName: shorten(headline.run.partName) } }
        : headline.kind === 'wait' && headline.nextFieldName !== undefined
          ? { ...headline, nextFieldName: shorten(headline.nextFieldName) }
          : headline,
    after: after.map((run) => ({ ...run, partName: shorten(run.partName) })),
  }
}
