/** English words for the outlook on tomorrow. */
import type { CouldChange, EveningMessage, SaidMeasure, SaidTomorrow } from '#core/messages/evening.ts'
import { chance, crop, holdback } from './english.ts'
import { clock, dayAndClock, type Manner, moisture, weekday } from './format.ts'

const list = (names: readonly string[]): string => new Intl.ListFormat('en', { type: 'conjunction' }).format(names)

export function eveningTitle(message: EveningMessage, manner: Manner): string {
  const [first] = message.likely
  if (first) {
    return `Tomorrow likely ${first.partName}, ${clock(first.startEpochH, manner)} to ${clock(first.endEpochH, manner)} (${chance(first.chance)}).`
  }
  const why = message.heldBy ? `: ${holdback(message.heldBy)}` : ''
  return `No field likely tomorrow${why}.`
}

export const tomorrowField = (said: SaidTomorrow, manner: Manner): string =>
  `${said.partName}, ${weekday(said.startEpochH, manner)} ${clock(said.startEpochH, manner)} to ${clock(said.endEpochH, manner)}: ${chance(said.chance)}, ${crop(said.crop)} about ${moisture(said.startMoistureWb, manner)} at the start, between ${moisture(said.lowWb, manner)} and ${moisture(said.highWb, manner)} through the day (8 in 10).`

const DIFFERS = { temperature: 'temperature', humidity: 'humidity', rain: 'rain' } as const

export function couldChange(said: CouldChange, manner: Manner): string {
  switch (said.kind) {
    case 'rain':
      return `Rain by tomorrow night: ${chance(said.chance)}.`
    case 'moisture':
      return `${said.partName} ${said.side} than ${moisture(said.limitWb, manner)} when its window opens: ${chance(said.chance)}.`
    case 'window':
      return `${said.partName} waits for this to pass, until about ${dayAndClock(said.untilEpochH, manner)}: ${holdback(said.heldBy)}.`
    case 'fire':
      return said.level === 'stop'
        ? `Fire stop likely from ${dayAndClock(said.fromEpochH, manner)}; local rules first.`
        : `Fire care from ${dayAndClock(said.fromEpochH, manner)}; local rules first.`
    case 'sources':
      return `The sources of the weather differ on the ${list(said.differs.map((name) => DIFFERS[name]))}.`
  }
}

export const changesIntro: string = 'What could change it:'

export const measureFirst = (measure: readonly SaidMeasure[]): string =>
  `Measure first in the morning: ${list(measure.map(({ partName, turns }) => `${partName} (turns the choice ${chance(turns)})`))}.`

export const eveningEnd: string =
  'This is an outlook, not an order: the morning message takes its place. What you see in the field comes first.'
