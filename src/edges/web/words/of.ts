/** The words of a language. */
import type { DayMade } from '#app/morning.ts'
import type { Language } from '#core/operation/farm.ts'
import { english } from './english.ts'
import { spanish } from './spanish.ts'
import type { Words } from './words.ts'

const WORDS: { readonly [L in Language]: Words } = { en: english, es: spanish }

export const wordsOf = (language: Language): Words => WORDS[language]

/** The message in the language of who reads it. */
export const inLanguage = (made: DayMade, language: Language): DayMade => ({
  ...made,
  message: { ...made.message, language },
})
