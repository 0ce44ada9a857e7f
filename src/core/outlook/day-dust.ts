/** What the wind of a span makes of the dust that a head raises in a field. */
import type { Field, Head } from '#core/operation/farm.ts'
import { type PassAdvice, passAdvice } from '#core/science/dust/sight.ts'
import type { Weather } from '#core/units/weather.ts'
import { type SpanWeather, windThrough } from './day-weather.ts'

export interface DustThrough {
  readonly wind: SpanWeather
  readonly advice: PassAdvice
}

/** @returns undefined where wind or sunlight is not known. */
export function dustThrough(
  weather: Weather,
  field: Field,
  head: Head,
  fromEpochH: number,
  toEpochH: number,
): DustThrough | undefined {
  const wind = windThrough(weather, fromEpochH, toEpochH)
  const advice = passAdvice(
    { windMs: wind.meanWindMs, windFromDeg: wind.windFromDeg, solarWm2: wind.meanSolarWm2 },
    {
      travelMs: head.speedMs,
      swathM: head.widthM,
      dustClass: 'usual',
      straw: field.followsWheat,
      ...(field.rowBearingDeg === undefined ? {} : { rowBearingDeg: field.rowBearingDeg }),
    },
  )
  return advice ? { wind, advice } : undefined
}
