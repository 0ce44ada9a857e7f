/** English words for the morning message: whole sentences, so that no caller glues one from parts. */
import type {
  Caution,
  Headline,
  SaidAgreement,
  SaidChange,
  SaidConfidence,
  SaidDew,
  SaidDust,
  SaidFire,
  SaidHauling,
  SaidLeave,
  SaidPoorRecord,
  SaidRain,
  SaidRun,
  SaidWeather,
} from '#core/messages/morning.ts'
import type { Holdback } from '#core/outlook/holdback.ts'
import { CROP_TRADE, type CropName } from '#core/science/crop.ts'
import type { Visibility } from '#core/science/dust/sight.ts'
import {
  area,
  bareArea,
  clock,
  dayAndClock,
  dayName,
  daysFromToday,
  distance,
  grain,
  humidity,
  type Manner,
  moisture,
  number,
  rain,
  speed,
  speedRange,
  wholeMoisture,
} from './format.ts'

const crop = (name: CropName): string => CROP_TRADE[name].spoken
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`

/** `7 in 10`: the way a crew speaks of chance. */
export function chance(share: number): string {
  if (Number.isNaN(share)) return 'chance unknown'
  if (share >= 0.975) return 'almost sure'
  if (share < 0.05) return 'hardly a chance'
  return `${Math.min(9, Math.max(1, Math.round(share * 10)))} in 10`
}

const HOLDBACK_WORDS: Record<Holdback, string> = {
  unknown: 'the weather is not known',
  unripe: 'not ripe yet',
  'wet-grain': 'grain still too wet',
  rain: 'rain',
  'wet-plants': 'plants wet',
  'tough-stems': 'stems and pods tough',
  'soft-ground': 'ground too soft to carry',
  'fire-stop': 'fire stop',
  wind: 'too much wind',
  'buyer-shut': 'buyer shut',
  'crew-off': 'crew off',
  dark: 'dark',
}
export const holdback = (name: Holdback): string => HOLDBACK_WORDS[name]

export function headline(said: Headline, manner: Manner): string {
  switch (said.kind) {
    case 'run':
      return runFirst(said.run, manner)
    case 'done':
      return 'Nothing left to cut: every field is done.'
    case 'no-forecast':
      return `No field named today: ${said.reason}. Go by eye, hand meter and local forecast until it is back.`
    case 'wait': {
      const why = said.reason ? `${capital(holdback(said.reason))} today.` : 'No field is fit today.'
      if (said.nextFieldName === undefined) return `Stand by. ${why} No window in sight in the next ten days.`
      return `Stand by. ${why} Next up: ${said.nextFieldName}, ${dayAndClock(said.nextEpochH, manner)} (${chance(said.chance)}).`
    }
  }
}

function runFirst(run: SaidRun, manner: Manner): string {
  const span = `${clock(run.startEpochH, manner)} to ${clock(run.endEpochH, manner)}`
  return `Run ${run.partName}, ${span}. ${runMoisture(run, manner)}`
}

const BRITTLE_WORDS: Partial<Record<CropName, string>> = {
  soybean: 'Brittle: pods will shatter, slow the reel.',
  corn: 'Dry: watch for shelled corn at the head.',
  canola: 'Brittle: pods will shatter, cut on the damp side of the day.',
}

function runMoisture(run: SaidRun, manner: Manner): string {
  const start = moisture(run.startMoistureWb, manner)
  const end = moisture(run.endMoistureWb, manner)
  if (Math.abs(run.startMoistureWb - run.endMoistureWb) < 0.15)
    return `${capital(crop(run.crop))} near ${end} throughout.`
  return `${capital(crop(run.crop))} ${start} at the start, ${end} at the end.`
}

/** For the first line: what follows rests on weather that nobody could renew. */
export const oldWeather = (ageH: number, manner: Manner): string =>
  `Old weather: ${number(ageH, 0, manner)} h, look at the sky first.`

export const late = (dueEpochH: number, nowEpochH: number, manner: Manner): string =>
  `This comes late: due at ${clock(dueEpochH, manner)}, made at ${clock(nowEpochH, manner)} from the weather known then.`

export function work(run: SaidRun, manner: Manner): string {
  const machines = count(run.combines, 'combine takes', 'combines take')
  const share =
    run.areaHa >= run.ofAreaHa * 0.98
      ? `all ${area(run.ofAreaHa, manner)}`
      : `${bareArea(run.areaHa, manner)} of ${area(run.ofAreaHa, manner)}`
  const brittle = run.brittle ? ` ${BRITTLE_WORDS[run.crop] ?? 'Over-dry: go easy at the head.'}` : ''
  return `${machines} ${share}: ${grain(run.massT, run.lbPerBu, manner)}, ${count(run.truckLoads, 'truckload', 'truckloads')}.${brittle}`
}

export function afterwards(run: SaidRun, manner: Manner): string {
  return `Then ${run.partName} from ${clock(run.startEpochH, manner)} to ${clock(run.endEpochH, manner)}: ${crop(run.crop)} ${moisture(run.startMoistureWb, manner)}, ${bareArea(run.areaHa, manner)} of ${area(run.ofAreaHa, manner)}.`
}

export function leave(said: SaidLeave, manner: Manner): string {
  const next =
    said.nextEpochH === undefined
      ? 'no window in sight yet'
      : `likely fit ${daysFromToday(said.nextEpochH, manner) === 0 ? `today from ${clock(said.nextEpochH, manner)}` : dayName(said.nextEpochH, manner)} (${chance(said.chance)})`
  switch (said.reason) {
    case 'later-turn':
      return `${said.partName} is fit too and waits its turn: ${crop(said.crop)} about ${wholeMoisture(said.moistureWb, manner)}.`
    case 'patch-green':
      return `Leave ${said.partName} standing: still about ${wholeMoisture(said.moistureWb, manner)}, ${next}.`
    case 'short-window':
      return `Leave ${said.partName}: today's window is too short to move for, ${next}.`
    case 'no-outfit':
      return `${said.partName} is fit but no head on the farm cuts ${crop(said.crop)}.`
    case 'unripe':
    case 'wet-grain':
      return `Leave ${said.partName}: ${crop(said.crop)} still about ${wholeMoisture(said.moistureWb, manner)}, ${next}.`
    default:
      return `Leave ${said.partName}: ${holdback(said.reason)}, ${next}.`
  }
}

/** Fit fields that wait for machines, in one line. */
export function turns(names: readonly string[]): string {
  const list = new Intl.ListFormat('en', { type: 'conjunction' }).format(names)
  return `Fit too, waiting ${names.length === 1 ? 'its' : 'their'} turn: ${list}.`
}

export function dew(said: SaidDew, manner: Manner): string {
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

export function rainLine(said: SaidRain, manner: Manner): string {
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
  const rows =
    said.rowBearingDeg !== undefined && (said.rowsOffBestDeg ?? 0) > 45
      ? `The rows run ${line(said.rowBearingDeg)}, near the wind: expect ${sight(said.rowsSight)} sight along them.`
      : `Cut ${line(said.preferBearingDeg)} so that it clears the line.`
  return `${wind}. ${rows} ${gap}${doubled}`
}

const SIGHT_WORDS: Record<Visibility, string> = { clear: 'fair', thin: 'thin', poor: 'poor', blind: 'no' }
const sight = (visibility: Visibility | undefined): string => SIGHT_WORDS[visibility ?? 'poor']

export function hauling(said: SaidHauling, manner: Manner): string {
  const short = said.trucksNeeded > said.trucksThere || said.cartsNeeded > said.cartsThere
  const need = `${count(said.cartsNeeded, 'cart', 'carts')} and ${count(said.trucksNeeded, 'truck', 'trucks')} keep them cutting`
  const have = `you have ${said.cartsThere} and ${said.trucksThere}`
  const limit = said.limitedBy === 'combines' ? '' : `, so ${said.limitedBy} set the pace`
  const close = Number.isNaN(said.buyerClosesEpochH)
    ? ''
    : ` ${said.buyerName} takes grain until ${clock(said.buyerClosesEpochH, manner)}.`
  return `Hauling: ${need}${short ? `; ${have}${limit}` : limit}.${close}`
}

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
  return `How sure: the window holds ${chance(said.chance)}, moisture between ${moisture(said.lowWb, manner)} and ${moisture(said.highWb, manner)} (8 in 10).${basis}${said.poorRecord ? poorRecord(said.poorRecord, manner) : ''}`
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

const CAUTION_WORDS: Record<Caution, string> = {
  'eyes-first': 'This is advice: what you see in the field comes first.',
  'screen-lags': 'Positions on a screen lag: never steer by them.',
  'fire-local-rules': 'Local fire bans and codes outrank anything here.',
  'fire-clean': 'Clean the engine bay at least daily; let it cool 15 minutes before you fuel.',
  'fire-away': 'If it burns: away from standing crop, engine off, get out, call, then the extinguisher.',
  'dust-stop': 'Lost sight of the next machine? Stop and call before you move.',
  'power-lines': 'Look up: augers and unloading spouts under power lines.',
}
export const caution = (code: Caution): string => CAUTION_WORDS[code]

/** Words set before a line of the mail that does not itself begin with what it is about. */
export const labels: Readonly<Record<string, string>> = {
  'weather-today': 'Sky',
  official: 'Official',
  fire: 'Fire',
  dust: 'Dust',
  change: 'Changed',
}

/** What the picture of the day shows, for who does not see it. */
export function pictureAlt(
  runs: readonly { readonly name: string; readonly from: string; readonly to: string }[],
): string {
  const list = new Intl.ListFormat('en', { type: 'conjunction' })
  return `The day drawn: ${list.format(runs.map(({ name, from, to }) => `${name} from ${from} to ${to}`))}.`
}
