/**
 * The message catalogue: each language is some modules of functions, one whole sentence or paragraph each. English sets
 * their shape; a language that lacks one does not compile.
 */
import type { Language } from '#core/operation/farm.ts'
import * as english from './english.ts'
import * as englishAlerts from './english-alerts.ts'
import * as englishCalendar from './english-calendar.ts'
import * as englishEvening from './english-evening.ts'
import * as englishFields from './english-fields.ts'
import * as englishLinks from './english-links.ts'
import * as englishShort from './english-short.ts'
import * as englishSky from './english-sky.ts'
import * as englishTrust from './english-trust.ts'
import * as spanish from './spanish.ts'
import * as spanishAlerts from './spanish-alerts.ts'
import * as spanishCalendar from './spanish-calendar.ts'
import * as spanishEvening from './spanish-evening.ts'
import * as spanishFields from './spanish-fields.ts'
import * as spanishLinks from './spanish-links.ts'
import * as spanishShort from './spanish-short.ts'
import * as spanishSky from './spanish-sky.ts'
import * as spanishTrust from './spanish-trust.ts'

export type Words = typeof english & typeof englishFields & typeof englishSky & typeof englishTrust
export type AlertWords = typeof englishAlerts
export type ShortWords = typeof englishShort
export type LinkWords = typeof englishLinks
export type CalendarWords = typeof englishCalendar
export type EveningWords = typeof englishEvening

const WORDS: Record<Language, Words> = {
  en: { ...english, ...englishFields, ...englishSky, ...englishTrust },
  es: { ...spanish, ...spanishFields, ...spanishSky, ...spanishTrust },
}
const ALERT_WORDS: Record<Language, AlertWords> = { en: englishAlerts, es: spanishAlerts }
const SHORT_WORDS: Record<Language, ShortWords> = { en: englishShort, es: spanishShort }
const CALENDAR_WORDS: Record<Language, CalendarWords> = { en: englishCalendar, es: spanishCalendar }
const EVENING_WORDS: Record<Language, EveningWords> = { en: englishEvening, es: spanishEvening }
const LINK_WORDS: Record<Language, LinkWords> = { en: englishLinks, es: spanishLinks }

export const wordsOf = (language: Language): Words => WORDS[language]
export const alertWordsOf = (language: Language): AlertWords => ALERT_WORDS[language]
export const shortWordsOf = (language: Language): ShortWords => SHORT_WORDS[language]
export const calendarWordsOf = (language: Language): CalendarWords => CALENDAR_WORDS[language]
export const eveningWordsOf = (language: Language): EveningWords => EVENING_WORDS[language]
export const linkWordsOf = (language: Language): LinkWords => LINK_WORDS[language]
