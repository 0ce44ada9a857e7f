import { expect, it } from 'vitest'
import { unknownWeatherArrays, WEATHER_VARIABLES } from '#core/units/weather.ts'

it('fresh weather is not known anywhere, in every variable, and shares no array', () => {
  const arrays = unknownWeatherArrays(3, 5)
  expect(Object.keys(arrays).sort()).toEqual([...WEATHER_VARIABLES].sort())
  for (const variable of WEATHER_VARIABLES) {
    expect(arrays[variable].length).toBe(15)
    expect(arrays[variable].every(Number.isNaN)).toBe(true)
  }
  expect(new Set(WEATHER_VARIABLES.map((variable) => arrays[variable])).size).toBe(WEATHER_VARIABLES.length)
})
