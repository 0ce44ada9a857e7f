/** English words for how far to trust it: what changed, how sure, from what weather. */
import type { SaidAgreement, SaidChange, SaidConfidence, SaidPoorRecord, SaidWeather } from '#core/messages/morning.ts'
import { chance, holds } from './english.ts'
import { clock, type Manner, moisture, number } from './format.ts'

/** For the first line: what follows rests on weather that nobody could renew. */
export const oldWeather = (ageH: number, manner: Manner): string =>
  `Old weather: ${number(ageH, 0, manner)} h, look at the sky first.`

export const late = (dueEpochH: number, nowEpochH: number, manner: Manner): string =>
  `This comes late: due at ${clock(dueEpochH, manner)}, made at ${clock(nowEpochH, manner)} from the weather known then.`

export function change(said: SaidChange, manner: Manner): string {
  switch (said.kind) {
    case 'no-yesterday':
      return 'First message: nothing to compare with yet.'
    case 'nothing':
      return 'Nothing of weight has changed since yesterday.'
    case 'first-field':
      return `Since yesterday: ${said.now} goes first instead of ${said.was}.`
    case 'moisture':
      return `Since yesterday: ${said.partName} reads ${moisture(said.toWb, manner)} where ${moisture(said.fromWb, manner)} was expected.`
    case 'window-moved':
      return `Since yesterday: ${said.partName} ${said.edge} ${clock(said.toEpochH, manner)}, not ${clock(said.fromEpochH, manner)}.`
    case 'rain':
      return `Since yesterday: chance of rain in the next three days ${said.chance > said.wasChance ? 'up' : 'down'} from ${chance(said.wasChance)} to ${chance(said.chance)}.`
  }
}

export function confidence(said: SaidConfidence, manner: Manner): string {
  const basis = said.measured ? '' : ' No reading taken yet: probe before you open it up.'
  return `How sure: ${holds(said.chance)}, moisture between ${moisture(said.lowWb, manner)} and ${moisture(said.highWb, manner)} (8 in 10).${basis}${said.poorRecord ? poorRecord(said.poorRecord, manner) : ''}`
}

/** A bias below this is not worth a word [points]. */
const SAID_BIAS_WB = 0.5

function poorRecord({ inside90, biasWb }: SaidPoorRecord, manner: Manner): string {
  const points = number(Math.abs(biasWb), 1, manner)
  const lean = Math.abs(biasWb) < SAID_BIAS_WB ? '' : `, on average ${points} points too ${biasWb > 0 ? 'wet' : 'dry'}`
  return ` Of late the forecasts were poor: ${Math.round(10 * inside90)} in 10 readings fell in the range meant for 9 in 10${lean}. Measure before you rely on them.`
}

export function weather(said: SaidWeather, manner: Manner): string {
  if (said.members === 0) return 'Weather: none that can be used.'
  const age = said.ageH < 1 ? 'under 1 h old' : `${number(said.ageH, 0, manner)} h old`
  const spread =
    said.spread === 'ensemble'
      ? `${said.members} courses from the service's own ensemble`
      : said.spread === 'grown'
        ? `${said.members} courses built from how far forecasts usually stray`
        : 'one course only'
  return `Weather ${age}, ${said.source}${said.agreement ? `, ${agreement(said.agreement)}` : ''}; ${spread}.`
}

const DIFFERS = { temperature: 'temperature', humidity: 'humidity', rain: 'rain' } as const

const SMALL_NUMBERS = ['no', 'one', 'two', 'three', 'four'] as const

function agreement({ sources, differs }: SaidAgreement): string {
  const those = `${SMALL_NUMBERS[sources] ?? sources} sources`
  if (differs.length === 0) return `${those} agree`
  const list = new Intl.ListFormat('en', { type: 'conjunction' }).format(differs.map((name) => DIFFERS[name]))
  return `${those} differ on today's ${list}`
}
