/** The morning message as lines of plain text, most urgent first. */
import type { MorningMessage, SaidOfficial } from './morning.ts'
import type { Opening } from './opening.ts'
import type { Manner } from './words/format.ts'
import { wordsOf } from './words/words.ts'

/** What a line is about; pages and mail choose its look by it. */
export type LineKind =
  | 'headline'
  | 'work'
  | 'after'
  | 'why'
  | 'leave'
  | 'weather-today'
  | 'fire'
  | 'official'
  | 'dust'
  | 'hauling'
  | 'change'
  | 'confidence'
  | 'source'
  | 'credit'
  | 'caution'

export interface Line {
  readonly kind: LineKind
  readonly text: string
}

export function mannerOf(message: Opening): Manner {
  return {
    units: message.units,
    language: message.language,
    timeZone: message.timeZone,
    today: message.date,
    nowEpochH: message.nowEpochH,
  }
}

export function sayMorning(message: MorningMessage): Line[] {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  const lines: Line[] = []
  const say = (kind: LineKind, text: string) => lines.push({ kind, text })
  const headline = words.headline(message.headline, manner)
  const old = message.oldWeatherH === undefined ? '' : ` ${words.oldWeather(message.oldWeatherH, manner)}`
  say('headline', `${headline}${old}`)
  if (message.dueEpochH !== undefined) say('work', words.late(message.dueEpochH, message.nowEpochH, manner))
  if (message.headline.kind === 'run') say('work', words.work(message.headline.run, manner))
  for (const run of message.after) say('after', words.afterwards(run, manner))
  if (message.turns.length > 0) say('after', words.turns(message.turns))
  if (message.rest) say('after', words.rest(message.rest, manner))
  if (message.why) say('why', words.why(message.why, manner))
  for (const said of message.leave) say('leave', words.leave(said, manner))
  if (message.headline.kind !== 'no-forecast') {
    say('weather-today', `${words.dew(message.dew, manner)} ${words.rainLine(message.rain, manner)}`)
  }
  if (message.tellsFire) say('fire', words.fire(message.fire, manner))
  for (const said of message.official.quoted) say('official', quoted(said))
  if (message.official.unread) say('official', words.officialUnread)
  if (message.dust) say('dust', words.dust(message.dust, manner))
  const hauling = message.hauling.map(words.hauling)
  if (message.buyers.length > 0) hauling.push(words.buyers(message.buyers, manner))
  if (hauling.length > 0) say('hauling', hauling.join(' '))
  for (const said of message.changes) say('change', words.change(said, manner))
  if (message.confidence) say('confidence', words.confidence(message.confidence, manner))
  say('source', words.weather(message.weather, manner))
  if (message.weather.credits.length > 0) say('credit', message.weather.credits.join(' · '))
  say('caution', message.cautions.map(words.caution).join(' '))
  return lines
}

/** The issuer's own words, unaltered and in its own language. */
const quoted = ({ headline, issuer }: SaidOfficial): string => `“${headline}”${issuer === '' ? '' : ` (${issuer})`}`

/** Plain text: the headline, then a line each. */
export const renderText = (message: MorningMessage): string =>
  `${sayMorning(message)
    .map((line) => line.text)
    .join('\n')}\n`
