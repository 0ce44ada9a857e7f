/** English words for the morning message: whole sentences, so that no caller glues one from parts. */
import type { Caution } from '#core/messages/morning.ts'
import type { Holdback } from '#core/outlook/holdback.ts'
import { CROP_TRADE, type CropName } from '#core/science/crop.ts'

export const crop = (name: CropName): string => CROP_TRADE[name].spoken

export const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`

/** From here on a chance is as good as sure, and below that one as good as none. */
const SURE_SHARE = 0.975
const HARDLY_SHARE = 0.05

/** `7 in 10`: the way a crew speaks of chance. */
export function chance(share: number): string {
  if (Number.isNaN(share)) return 'chance unknown'
  if (share >= SURE_SHARE) return 'almost sure'
  if (share < HARDLY_SHARE) return 'hardly a chance'
  return `${Math.min(9, Math.max(1, Math.round(share * 10)))} in 10`
}

/** How sure it is that a window holds, as a clause. */
export function holds(share: number): string {
  if (Number.isNaN(share)) return 'whether the window holds is not known'
  if (share >= SURE_SHARE) return 'the window is almost sure to hold'
  if (share < HARDLY_SHARE) return 'the window will hardly hold'
  return `the window holds ${chance(share)}`
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
