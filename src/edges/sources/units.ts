/**
 * The units in which services deliver, and the way into ours. A unit that is not listed is refused, never guessed.
 */

import { SourceUnitUnknown } from '#app/failures.ts'
import { celsiusFromFahrenheit, MM_PER_IN, MS_PER_KMH, MS_PER_MPH } from '#core/units/convert.ts'

/** International knot: 1852 m per hour, exact. */
const MS_PER_KNOT = 1852 / 3600
const ZERO_CELSIUS_K = 273.15

type Convert = (value: number) => number
/** For what comes in our unit already. */
export const same: Convert = (value) => value
const times =
  (factor: number): Convert =>
  (value) =>
    value * factor

const celsius = { degC: same, celsius: same, '°C': same, C: same }
const fahrenheit = {
  degF: celsiusFromFahrenheit,
  fahrenheit: celsiusFromFahrenheit,
  '°F': celsiusFromFahrenheit,
  F: celsiusFromFahrenheit,
}
const percent = { percent: same, '%': same }

const UNITS = {
  /** to [deg C] */
  temperature: { ...celsius, ...fahrenheit, K: (kelvin: number) => kelvin - ZERO_CELSIUS_K },
  /** to [m/s] */
  speed: {
    'm_s-1': same,
    'm/s': same,
    'km_h-1': times(MS_PER_KMH),
    'km/h': times(MS_PER_KMH),
    mph: times(MS_PER_MPH),
    'mp/h': times(MS_PER_MPH),
    kn: times(MS_PER_KNOT),
    kt: times(MS_PER_KNOT),
  },
  /** to a share [0-1] */
  share: { percent: times(0.01), '%': times(0.01) },
  /** to [%] */
  percent,
  /** to [mm]; a rate is that of its hour */
  rain: { mm: same, 'mm/hour': same, m: times(1000), inch: times(MM_PER_IN), in: times(MM_PER_IN) },
  /** to [deg] clockwise from north */
  direction: { 'degree_(angle)': same, degrees: same, degree: same, Degrees: same, '°': same },
  /** to [W/m2]; an energy is that of its hour */
  irradiance: { 'W/m²': same, 'W/m2': same, 'Wh/m^2': same },
  /** to [m] */
  height: { m: same },
} as const satisfies { readonly [quantity: string]: { readonly [unit: string]: Convert } }
export type Quantity = keyof typeof UNITS

const PREFIX = /^(?:(?:wmoUnit|nwsUnit|unit):|https?:\/\/codes\.wmo\.int\/common\/unit\/)/

/** @returns the conversion into our unit of the quantity. */
export function intoOurs(
  quantity: Quantity,
  unit: string | undefined,
  variable: string,
  told: { source: string; where: string },
): Convert {
  const known: { readonly [unit: string]: Convert } = UNITS[quantity]
  const name = (unit ?? '').replace(PREFIX, '')
  if (!Object.hasOwn(known, name)) throw new SourceUnitUnknown(variable, unit ?? 'none given', told)
  return known[name]!
}
