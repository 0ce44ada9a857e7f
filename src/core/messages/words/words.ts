/**
 * The message catalogue: each language is two modules of functions, one whole sentence or paragraph each. English sets
 * their shape; a language that lacks one does not compile.
 */
import type { Language } from '#core/farm/farm.ts'
import * as english from './english.ts'
import * as englishAlerts from './english-alerts.ts'
import * as spanish from './spanish.ts'
import * as spanishAlerts from './spanish-alerts.ts'

export type Words = typeof english
export type AlertWords = typeof englishAlerts

const WORDS: Record<Language, Words> = { en: english, es: spanish }
const ALERT_WORDS: Record<Language, AlertWords> = { en: englishAlerts, es: spanishAlerts }

export const wordsOf = (language: Language): Words => WORDS[language]
export const alertWordsOf = (language: Language): AlertWords => ALERT_WORDS[language]
