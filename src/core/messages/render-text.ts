/** The morning message as lines of plain text, most urgent first. */
import type { MorningMessage } from './morning.ts'
import * as english from './words/english.ts'
import type { Manner } from './words/format.ts'

/** What a line is about; pages and mail choose its look by it. */
export type LineKind =
  | 'headline'
  | 'work'
  | 'after'
  | 'leave'
  | 'weather-today'
  | 'fire'
  | 'dust'
  | 'hauling'
  | 'change'
  | 'confidence'
  | 'source'
  | 'caution'

export interface Line {
  readonly kind: LineKind
  readonly text: string
}

export function mannerOf(message: MorningMessage): Manner {
  return { units: message.units, language: message.language, timeZone: message.timeZone, today: message.date }
}

export function sayMorning(message: MorningMessage): Line[] {
  const manner = mannerOf(message)
  const lines: Line[] = []
  const say = (kind: LineKind, text: string) => lines.push({ kind, text })
  const headline = english.headline(message.headline, manner)
  const old = message.oldWeatherH === undefined ? '' : ` ${english.oldWeather(message.oldWeatherH, manner)}`
  say('headline', `${headline}${old}`)
  if (message.dueEpochH !== undefined) say('work', english.late(message.dueEpochH, message.nowEpochH, manner))
  if (message.headline.kind === 'run') say('work', english.work(message.headline.run, manner))
  for (const run of message.after) say('after', english.afterwards(run, manner))
  if (message.turns.length > 0) say('after', english.turns(message.turns))
  for (const said of message.leave) say('leave', english.leave(said, manner))
  if (message.headline.kind !== 'no-forecast') {
    say('weather-today', `${english.dew(message.dew, manner)} ${english.rainLine(message.rain, manner)}`)
  }
  say('fire', english.fire(message.fire, manner))
  if (message.dust) say('dust', english.dust(message.dust, manner))
  if (message.hauling) say('hauling', english.hauling(message.hauling, manner))
  for (const said of message.changes) say('change', english.change(said, manner))
  if (message.confidence) say('confidence', english.confidence(message.confidence, manner))
  say('source', english.weather(message.weather, manner))
  say('caution', message.cautions.map(english.caution).join(' '))
  return lines
}

/** Plain text: the headline, then a line each. */
export const renderText = (message: MorningMessage): string =>
  `${sayMorning(message)
    .map((line) => line.text)
    .join('\n')}\n`
