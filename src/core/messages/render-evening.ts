/** The outlook on tomorrow as a title and paragraphs. */
import type { EveningMessage } from './evening.ts'
import { mannerOf } from './render-text.ts'
import { eveningWordsOf } from './words/words.ts'

export interface EveningText {
  readonly title: string
  readonly paragraphs: readonly string[]
}

export function renderEvening(message: EveningMessage): EveningText {
  const words = eveningWordsOf(message.language)
  // Times of tomorrow carry no weekday: the whole message is about it.
  const manner = mannerOf(message)
  const changes = message.changes.map((said) => words.couldChange(said, manner))
  return {
    title: words.eveningTitle(message, manner),
    paragraphs: [
      ...message.likely.map((said) => words.tomorrowField(said, manner)),
      ...(changes.length > 0 ? [[words.changesIntro, ...changes].join(' ')] : []),
      ...(message.measure.length > 0 ? [words.measureFirst(message.measure)] : []),
      words.eveningEnd,
    ],
  }
}
