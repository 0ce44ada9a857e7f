/** Numbers as a person reads them, in the farm's units and language. Pure: language and zone are arguments. */
import type { Language, UnitSystem } from '#core/operation/farm.ts'
import {
  fahrenheitFromCelsius,
  HA_PER_ACRE,
  KM_PER_MI,
  kgPerBushel,
  M_PER_FT,
  MM_PER_IN,
  MS_PER_KMH,
  MS_PER_MPH,
} from '#core/units/convert.ts'
import { zonedAt } from '#core/units/time.ts'

export interface Manner {
  readonly units: UnitSystem
  readonly language: Language
  readonly timeZone: string
  /** Today at the farm: times of other days carry their weekday. */
  readonly today: Temporal.PlainDate
  /** When it is said, hours since the epoch. */
  readonly nowEpochH: number
}

const LOCALE: Record<Language, string> = { en: 'en-US', es: 'es-US' }

/** Units whose short form differs between the languages; metric ones are the same in all. */
const UNIT_WORDS: Record<Language, { readonly inch: string; readonly foot: string; readonly mile: string }> = {
  en: { inch: 'in', foot: 'ft', mile: 'mi' },
  es: { inch: 'pulg.', foot: 'pies', mile: 'millas' },
}

export function number(value: number, digits: number, manner: Manner): string {
  return new Intl.NumberFormat(LOCALE[manner.language], {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  }).format(value)
}

export const moisture = (wb: number, manner: Manner): string => `${number(wb, 1, manner)}%`
export const wholeMoisture = (wb: number, manner: Manner): string => `${number(Math.round(wb), 0, manner)}%`
export const humidity = (share: number, manner: Manner): string => `${number(share * 100, 0, manner)}%`

export const area = (ha: number, manner: Manner): string =>
  manner.units === 'us'
    ? `${number(Math.round(ha / HA_PER_ACRE), 0, manner)} acres`
    : `${number(ha, ha < 20 ? 1 : 0, manner)} ha`

export const bareArea = (ha: number, manner: Manner): string =>
  manner.units === 'us' ? number(Math.round(ha / HA_PER_ACRE), 0, manner) : number(ha, ha < 20 ? 1 : 0, manner)

/** Grain as the farm counts it: bushels to the nearest fifty, or tonnes. */
export function grain(massT: number, lbPerBu: number, manner: Manner): string {
  if (manner.units === 'metric') return `${number(massT, massT < 100 ? 1 : 0, manner)} t`
  const bushels = (massT * 1000) / kgPerBushel(lbPerBu)
  const step = bushels < 1000 ? 10 : 50
  return `${number(Math.round(bushels / step) * step, 0, manner)} bu`
}

const perHour = (ms: number, manner: Manner): number => ms / (manner.units === 'us' ? MS_PER_MPH : MS_PER_KMH)
const speedUnit = (manner: Manner): string => (manner.units === 'us' ? 'mph' : 'km/h')

export const speed = (ms: number, manner: Manner): string =>
  `${number(perHour(ms, manner), 0, manner)} ${speedUnit(manner)}`

export function speedRange(lowMs: number, highMs: number, manner: Manner): string {
  const low = number(perHour(lowMs, manner), 0, manner)
  const high = number(perHour(highMs, manner), 0, manner)
  return low === high ? `${high} ${speedUnit(manner)}` : `${low}-${high} ${speedUnit(manner)}`
}

export const rain = (mm: number, manner: Manner): string =>
  manner.units === 'us'
    ? `${number(mm / MM_PER_IN, mm < 25 ? 2 : 1, manner)} ${UNIT_WORDS[manner.language].inch}`
    : `${number(mm, 0, manner)} mm`

export const temperature = (tempC: number, manner: Manner): string =>
  manner.units === 'us' ? `${number(fahrenheitFromCelsius(tempC), 0, manner)} °F` : `${number(tempC, 0, manner)} °C`

/** A stagger or sight distance, rounded to what an eye can judge. */
export function distance(m: number, manner: Manner): string {
  if (manner.units === 'metric') return `${number(Math.ceil(m / 10) * 10, 0, manner)} m`
  return `${number(Math.ceil(m / M_PER_FT / 50) * 50, 0, manner)} ${UNIT_WORDS[manner.language].foot}`
}

export const haul = (km: number, manner: Manner): string =>
  manner.units === 'us'
    ? `${number(km / KM_PER_MI, 0, manner)} ${UNIT_WORDS[manner.language].mile}`
    : `${number(km, 0, manner)} km`

/** The farm's own money, to whole units: prices and losses are told in the same. */
export const money = (amount: number, manner: Manner): string => `$${number(amount, 0, manner)}`

/** Clock time to the nearest ten minutes: `10:40`. */
export function clock(epochHours: number, manner: Manner): string {
  const time = zonedAt(epochHours, manner.timeZone).round({ smallestUnit: 'minute', roundingIncrement: 10 })
  return `${time.hour}:${String(time.minute).padStart(2, '0')}`
}

export function weekday(epochHours: number, manner: Manner): string {
  const date = zonedAt(epochHours, manner.timeZone)
    .round({ smallestUnit: 'minute', roundingIncrement: 10 })
    .toPlainDate()
  return date.toLocaleString(LOCALE[manner.language], { weekday: 'long' })
}

/** `10:40` today, `Thursday 10:40` on another day, with the date when a week or more away. */
export function dayAndClock(epochHours: number, manner: Manner): string {
  const days = daysFromToday(epochHours, manner)
  return days === 0 ? clock(epochHours, manner) : `${dayName(epochHours, manner)} ${clock(epochHours, manner)}`
}

export function dayName(epochHours: number, manner: Manner): string {
  const days = daysFromToday(epochHours, manner)
  if (days < 7) return weekday(epochHours, manner)
  return zonedAt(epochHours, manner.timeZone)
    .toPlainDate()
    .toLocaleString(LOCALE[manner.language], { weekday: 'short', month: 'short', day: 'numeric' })
}

export function daysFromToday(epochHours: number, manner: Manner): number {
  const date = zonedAt(epochHours, manner.timeZone)
    .round({ smallestUnit: 'minute', roundingIncrement: 10 })
    .toPlainDate()
  return manner.today.until(date, { largestUnit: 'day' }).days
}

export const longDate = (date: Temporal.PlainDate, manner: Manner): string =>
  date.toLocaleString(LOCALE[manner.language], { weekday: 'long', month: 'long', day: 'numeric' })
