/** English words for the sky over the work: dew, rain, fire, wind and dust. */
import type { SaidDust, SaidFire } from '#core/messages/morning.ts'
import type { DewTimes, RainAhead } from '#core/outlook/day-weather.ts'
import type { Visibility } from '#core/science/dust/sight.ts'
import { chance } from './english.ts'
import { clock, dayName, daysFromToday, distance, humidity, type Manner, rain, speed, speedRange } from './format.ts'

export function dew(said: DewTimes, manner: Manner): string {
  const on = Number.isNaN(said.onEpochH) ? undefined : clock(said.onEpochH, manner)
  switch (said.kind) {
    case 'unknown':
      return 'Dew: not known.'
    case 'wet':
      return said.rainBefore ? 'Rain keeps the plants wet all day.' : 'Plants stay wet all day.'
    case 'dry':
      if (!on) return 'No dew to wait for today.'
      return said.rainAfter ? `Plants dry until rain wets them ${on}.` : `Plants dry from first light; dew back ${on}.`
    case 'dries': {
      const off = clock(said.offEpochH, manner)
      const start = said.rainBefore ? `Plants dry ${off} after the rain` : `Dew off ${off}`
      if (!on) return said.rainBefore ? `${start}.` : `${start}; none back before midnight.`
      return said.rainAfter
        ? `${start}, wet again with rain ${on}.`
        : `${start}, ${said.rainBefore ? 'dew ' : ''}back ${on}.`
    }
  }
}

export function rainLine(said: RainAhead, manner: Manner): string {
  switch (said.kind) {
    case 'unknown':
      return 'Rain: not known.'
    case 'none-in-sight':
      return `No rain in sight before ${dayName(said.untilEpochH, manner)}.`
    case 'expected':
      return `Rain ${dayPart(said.startEpochH, manner)}: ${chance(said.chance)}, about ${rain(said.amountMm, manner)} if it comes.`
  }
}

/** `Sunday night`, `today from 14:00`. */
function dayPart(epochHours: number, manner: Manner): string {
  const days = daysFromToday(epochHours, manner)
  if (days === 0) return `today from ${clock(epochHours, manner)}`
  const hour = Number(clock(epochHours, manner).split(':')[0])
  const part = hour < 5 ? 'before dawn' : hour < 12 ? 'morning' : hour < 18 ? 'afternoon' : 'night'
  return `${dayName(epochHours, manner)} ${part}`
}

export function fire(said: SaidFire, manner: Manner): string {
  const straw = said.strawUnder ? ', dry straw under the crop' : ''
  const facts = `humidity down to ${humidity(said.relHumidity, manner)}${Number.isNaN(said.gustMs) ? '' : `, gusts to ${speed(said.gustMs, manner)}`}${straw}`
  switch (said.level) {
    case 'unknown':
      return 'Fire: weather not known, so take care as on a dry, windy day. Local rules first.'
    case 'ordinary':
      return `Fire: ordinary care (${facts}).`
    case 'care':
      return `Fire care from ${clock(said.fromEpochH, manner)}: ${facts}. Blow off at every fill, disc and water ready in the field, local rules first.`
    case 'stop':
      return said.banText
        ? `FIRE STOP: ${said.banText}. Do not cut, haul across stubble or park hot on straw. Local rules first.`
        : `FIRE STOP from ${clock(said.fromEpochH, manner)} to ${clock(said.untilEpochH, manner)}: ${facts}. Stop cutting for those hours; local rules first.`
  }
}

/** The words of official warnings themselves are quoted, never put into words here. */
export const officialUnread: string = 'Official warnings could not be read: look them up before you start.'

const COMPASS = ['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'] as const

const LINES = ['north-south', 'northeast-southwest', 'east-west', 'northwest-southeast'] as const

const compass = (deg: number): string => COMPASS[Math.round(deg / 45) % 8]!

const line = (deg: number): string => LINES[Math.round(deg / 45) % 4]!

export function dust(said: SaidDust, manner: Manner): string {
  const doubled = said.doubled ? ' Wheat straw doubles the dust.' : ''
  if (said.calm) {
    return `Wind almost calm: dust hangs where it is raised. Spread the machines out and wait when you cannot see.${doubled}`
  }
  const wind = `Wind ${compass(said.windFromDeg)} ${speedRange(said.windLowMs, said.windHighMs, manner)}`
  const gap = said.staggerFails
    ? 'Do not follow another machine in its dust.'
    : `Keep machines staggered at least ${distance(said.staggerM, manner)}, upwind side.`
  return `${wind}. ${passes(said)} ${gap}${doubled}`
}

/** Which way the passes go: across the wind where they are free, along the rows where those fix them. */
function passes(said: SaidDust): string {
  if (said.rows === undefined) return `Cut ${line(said.preferBearingDeg)} so that it clears the line.`
  const rows = `The rows run ${line(said.rows.bearingDeg)}`
  const expect = `expect ${SIGHT_WORDS[said.rows.sight]} sight along them.`
  switch (said.rows.lie) {
    case 'across':
      return `${rows}, across the wind, so that it clears the line.`
    case 'aslant':
      return `${rows}, aslant to the wind: ${expect}`
    case 'along':
      return `${rows}, along the wind: ${expect}`
  }
}

const SIGHT_WORDS: Record<Visibility, string> = { clear: 'fair', thin: 'thin', poor: 'poor', blind: 'no' }
