/** Today's message as plain text, for programs and phones without anything else. */
import type { Language } from '#core/operation/farm.ts'
import type { MorningMessage } from './morning.ts'
import { renderText } from './render-text.ts'
import { renderShort } from './short.ts'

/** @param short the form of 160 characters. @returns text that ends with a line break. */
export function plainMessage(message: MorningMessage, language: Language, short: boolean): string {
  const theirs = { ...message, language }
  return short ? `${renderShort(theirs)}\n` : renderText(theirs)
}
