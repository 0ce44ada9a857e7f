/**
 * A year of hours as bytes, small: whole steps of a hundredth of a degree and the like in 16 bits, little-endian, each as
 * the difference from the one before, deflated. Steps are finer than any service rounds its past. NaN stays NaN.
 */
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import {
  unknownWeatherArrays,
  WEATHER_VARIABLES,
  type WeatherArrays,
  type WeatherVariable,
} from '#core/units/weather.ts'

/** Steps in one unit: of a deg C, of the share, mm, m/s, degree, W/m2. */
const STEPS: { readonly [V in WeatherVariable]: number } = {
  airTempC: 100,
  relHumidity: 10_000,
  rainMm: 100,
  windMs: 100,
  gustMs: 100,
  windFromDeg: 10,
  solarWm2: 10,
}
const UNKNOWN = -32_768
const LARGEST = 32_767
const BYTES = 2

/** What does not fit is not known; no screened value is that large. */
export function packShorts(weather: WeatherArrays): Uint8Array {
  const { length } = weather.airTempC
  const bytes = Buffer.alloc(WEATHER_VARIABLES.length * length * BYTES)
  let at = 0
  for (const name of WEATHER_VARIABLES) {
    let before = 0
    for (let h = 0; h < length; h++, at += BYTES) {
      const steps = Math.round(weather[name][h]! * STEPS[name])
      const value = Math.abs(steps) <= LARGEST ? steps : UNKNOWN
      bytes.writeUInt16LE((value - before) & 0xffff, at)
      before = value
    }
  }
  return deflateRawSync(bytes)
}

/** @param hours how many each variable has; anything else is a broken row. */
export function unpackShorts(packed: Uint8Array, hours: number): WeatherArrays {
  const expected = WEATHER_VARIABLES.length * hours * BYTES
  const bytes = inflateRawSync(packed, { maxOutputLength: expected + BYTES })
  if (bytes.length !== expected) throw new RangeError(`${bytes.length} bytes of weather where ${expected} belong`)
  const arrays = unknownWeatherArrays(1, hours)
  let at = 0
  for (const name of WEATHER_VARIABLES) {
    let before = 0
    for (let h = 0; h < hours; h++, at += BYTES) {
      // Back into the range of 16 bits with a sign.
      before = ((before + bytes.readUInt16LE(at)) << 16) >> 16
      if (before !== UNKNOWN) arrays[name][h] = before / STEPS[name]
    }
  }
  return arrays
}
