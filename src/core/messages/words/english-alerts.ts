/** English words for alerts: a title for the lock screen, and whole sentences with reason, time, deed and end. */
import type {
  SaidAlert,
  SaidDustAlert,
  SaidFireAlert,
  SaidOverDry,
  SaidPlanChanged,
  SaidRainAlert,
  SaidSources,
} from '#core/messages/alerts/alert.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { chance } from './english.ts'
import { clock, dayAndClock, humidity, type Manner, moisture, number, rain, speed } from './format.ts'

export interface AlertText {
  readonly title: string
  readonly text: string
}

const list = (names: readonly string[]): string => new Intl.ListFormat('en', { type: 'conjunction' }).format(names)
const plural = (names: readonly string[], one: string, many: string): string => (names.length === 1 ? one : many)
const known = (epochHours: number): boolean => Number.isFinite(epochHours)

export function alertStart(said: SaidAlert, manner: Manner): AlertText {
  switch (said.kind) {
    case 'fire-stop':
      return { title: 'FIRE STOP', text: fireStop(said, manner) }
    case 'fire-care':
      return { title: 'Fire care', text: fireCare(said, manner) }
    case 'official-warning':
      return {
        title: 'Official warning',
        text: `Official warning by ${said.issuer}: ${said.headline}. In force until ${dayAndClock(said.untilEpochH, manner)}. Follow it: it outranks anything here.`,
      }
    case 'rain':
      return rainComes(said, manner)
    case 'dust':
      return { title: 'Dust blinds the line', text: dust(said, manner) }
    case 'too-wet': {
      const again = known(said.fitAgainEpochH)
        ? `Likely fit again ${dayAndClock(said.fitAgainEpochH, manner)}.`
        : 'No window in sight yet.'
      return {
        title: 'Grain too wet',
        text: `Too wet at ${list(said.partNames)}: ${CROP_TRADE[said.crop].spoken} about ${moisture(said.moistureWb, manner)}, your limit is ${moisture(said.limitWb, manner)}. Stop and probe before you go on. ${again}`,
      }
    }
    case 'dew':
      return {
        title: `Dew early, about ${clock(said.closesEpochH, manner)}`,
        text: `Dew closes ${list(said.partNames)} about ${clock(said.closesEpochH, manner)}, not ${clock(said.toldEpochH, manner)}. Plan the last loads for then, and stop when straw and pods turn tough.`,
      }
    case 'soft-ground': {
      const again = known(said.carriesAgainEpochH)
        ? `Likely to carry again ${dayAndClock(said.carriesAgainEpochH, manner)}.`
        : 'No end in sight yet.'
      return {
        title: 'Ground too soft',
        text: `Ground too soft at ${list(said.partNames)}. Keep loaded carts and trucks off it, unload on the road side. ${again}`,
      }
    }
    case 'plan-changed':
      return { title: 'Change of plan', text: planChanged(said, manner) }
    case 'over-dry':
      return { title: 'Drying out', text: overDry(said, manner) }
    case 'meter-disagrees':
      return {
        title: 'A reading disagrees',
        text: `${said.partName} reads ${moisture(said.readWb, manner)} where about ${moisture(said.expectedWb, manner)} was expected. Take a second sample from another spot; if it stands, check the meter against the buyer's.`,
      }
    case 'sources-down':
      return { title: 'Weather is old', text: sources(said, manner) }
  }
}

/** The end of an alert; only for those whose end is told. */
export function alertEnd(said: SaidAlert): AlertText {
  switch (said.kind) {
    case 'fire-stop':
      return {
        title: 'Fire stop over',
        text: 'Fire stop over by the weather. Before you start again: look round for smoke, blow off, ask whether a local ban still holds.',
      }
    case 'official-warning':
      return {
        title: 'Warning over',
        text: `No longer in force: ${said.headline}. Look up the local state before you go on.`,
      }
    case 'rain':
      return {
        title: 'Rain is past',
        text: `No more rain in sight for now${said.partNames.length > 0 ? ` at ${list(said.partNames)}` : ''}. Plants must dry first: feel straw and pods before you cut.`,
      }
    case 'dust':
      return {
        title: 'Dust clears',
        text: `Wind no longer drives the dust along the line at ${said.partName}. Keep the machines staggered all the same.`,
      }
    case 'too-wet':
      return {
        title: 'Back in its band',
        text: `${list(said.partNames)} should be dry enough again. Probe before you start.`,
      }
    case 'soft-ground':
      return {
        title: 'Ground carries again',
        text: `Ground at ${list(said.partNames)} should carry again. Walk it before you drive it.`,
      }
    case 'sources-down':
      return { title: 'Weather is fresh', text: 'Weather comes in again; the day has been made anew.' }
    case 'fire-care':
    case 'dew':
    case 'plan-changed':
    case 'over-dry':
    case 'meter-disagrees':
      return { title: 'Over', text: 'An earlier alert is over.' }
  }
}

/** Several at once are told in one message, the most pressing first. */
export const alertDigest = (first: string, others: number): string => `${first}, and ${others} more`

/** To owner and planner, when nobody has acknowledged a fire stop. */
export const unacknowledged = (sinceEpochH: number, manner: Manner): AlertText => ({
  title: 'Fire stop not acknowledged',
  text: `Nobody has acknowledged the fire stop of ${clock(sinceEpochH, manner)}. Call the crew.`,
})

export const test = (farmName: string, nowEpochH: number, manner: Manner): AlertText => ({
  title: 'Test message',
  text: `This is a test for ${farmName}, sent at ${clock(nowEpochH, manner)}. If you read it, messages reach you.`,
})

export const acknowledgeHere = (url: string): string => `Say that you have read this: ${url}`

function fireFacts({ relHumidity, gustMs }: SaidFireAlert, manner: Manner): string {
  const air = known(relHumidity) ? `humidity down to ${humidity(relHumidity, manner)}` : 'dry air'
  return known(gustMs) ? `${air}, gusts to ${speed(gustMs, manner)}` : air
}

function fireStop(said: SaidFireAlert, manner: Manner): string {
  const until = known(said.untilEpochH) ? ` until about ${dayAndClock(said.untilEpochH, manner)}` : ''
  const why = said.banText ?? fireFacts(said, manner)
  return `FIRE STOP now${until}: ${why}. Stop cutting, park on bare ground with the engine off, keep water and disc at hand. Local bans and rules come first.`
}

function fireCare(said: SaidFireAlert, manner: Manner): string {
  const until = known(said.untilEpochH) ? ` until about ${dayAndClock(said.untilEpochH, manner)}` : ''
  return `Fire care${until}: ${fireFacts(said, manner)}. Blow off at every fill, water and disc ready in the field. Local rules first.`
}

function rainComes(said: SaidRainAlert, manner: Manner): AlertText {
  const when = said.arrivesEpochH <= manner.nowEpochH ? 'now' : `about ${clock(said.arrivesEpochH, manner)}`
  const amount = known(said.amountMm) ? `, about ${rain(said.amountMm, manner)}` : ''
  const until = known(said.endsEpochH) ? `, likely until ${dayAndClock(said.endsEpochH, manner)}` : ''
  return {
    title: `Rain ${when}`,
    text: `Rain ${when} at ${list(said.partNames)}: ${chance(said.chance)}${amount}${until}. Get the cut grain under cover, tarp trucks and carts.`,
  }
}

const COMPASS = ['north', 'northeast', 'east', 'southeast', 'south', 'southwest', 'west', 'northwest'] as const
const LINES = ['north-south', 'northeast-southwest', 'east-west', 'northwest-southeast'] as const

function dust(said: SaidDustAlert, manner: Manner): string {
  const wind = known(said.windFromDeg)
    ? `wind ${COMPASS[Math.round(said.windFromDeg / 45) % 8]} ${speed(said.windMs, manner)}`
    : 'hardly any wind'
  const turn =
    said.rowsFixed || !known(said.preferBearingDeg)
      ? 'Spread the machines out.'
      : `Cut ${LINES[Math.round(said.preferBearingDeg / 45) % 4]} and spread the machines out.`
  return `Dust hangs along the line at ${said.partName}: ${wind}. ${turn} Lost sight of the next machine? Stop and call before you move. Look again at ${clock(said.untilEpochH, manner)}.`
}

function planChanged(said: SaidPlanChanged, manner: Manner): string {
  const change = said.outfitName === undefined ? 'Change of plan' : `Change of plan for ${said.outfitName}`
  if (!said.now) return `${change}: ${said.was} is off for today. Stand by.`
  const span = `${clock(said.now.startEpochH, manner)} to ${clock(said.now.endEpochH, manner)}`
  return `${change}: ${said.now.partName} goes next, ${span}, instead of ${said.was}. Tell carts and trucks.`
}

function overDry(said: SaidOverDry, manner: Manner): string {
  const when =
    said.leavesEpochH <= manner.nowEpochH ? 'already' : `from about ${dayAndClock(said.leavesEpochH, manner)}`
  return `${list(said.partNames)} ${plural(said.partNames, 'is', 'are')} drying out: ${CROP_TRADE[said.crop].spoken} below ${moisture(said.lowWb, manner)} ${when}. Move ${plural(said.partNames, 'it', 'them')} up, or cut in the damp of morning and evening and go easy at the head: the loss grows by the day.`
}

function sources(said: SaidSources, manner: Manner): string {
  const age = known(said.ageH) ? `Weather is ${number(said.ageH, 0, manner)} h old` : 'There is no weather'
  return `${age} and no source gives newer. Beyond ${number(said.limitH, 0, manner)} h no field is named. Go by eye, hand meter and the local forecast.`
}
