/** Some hours of a weather, and pieces of weather laid end to end. */
import { mapArrays, unknownWeatherArrays, WEATHER_VARIABLES, type Weather, type WeatherArrays } from './weather.ts'

/**
 * @param fromEpochH whole hours since the epoch. @param toEpochH one past the last; none where it is not after the first.
 * @returns the hours between, of every member; unknown where the weather has none.
 */
export const hoursBetween = (weather: Weather, fromEpochH: number, toEpochH: number): Weather => ({
  ...weather,
  ...laidBetween([weather], fromEpochH, toEpochH, weather.members),
  startEpochH: fromEpochH,
  hours: Math.max(0, toEpochH - fromEpochH),
})

/**
 * @param pieces each of so many members, in any place; where two have an hour the later one's counts.
 * @returns arrays of the hours between two moments, whole hours since the epoch; unknown where no piece reaches.
 */
export function laidBetween(
  pieces: readonly Weather[],
  fromEpochH: number,
  toEpochH: number,
  members = 1,
): WeatherArrays {
  const hours = Math.max(0, toEpochH - fromEpochH)
  const arrays = unknownWeatherArrays(members, hours)
  for (const piece of pieces) {
    const first = Math.max(fromEpochH, piece.startEpochH)
    const count = Math.min(toEpochH, piece.startEpochH + piece.hours) - first
    if (count <= 0) continue
    for (const name of WEATHER_VARIABLES) {
      for (let member = 0; member < members; member++) {
        const from = member * piece.hours + first - piece.startEpochH
        arrays[name].set(piece[name].subarray(from, from + count), member * hours + first - fromEpochH)
      }
    }
  }
  return arrays
}

/** @returns what the weather has of the hours between two moments; undefined where it has none. */
export function sharedHours(weather: Weather, fromEpochH: number, toEpochH: number): Weather | undefined {
  const from = Math.max(fromEpochH, weather.startEpochH)
  const to = Math.min(toEpochH, weather.startEpochH + weather.hours)
  return to > from ? hoursBetween(weather, from, to) : undefined
}

/** @returns one member of a weather, as the only one. */
export function memberOf(weather: Weather, member: number): Weather {
  const { hours } = weather
  const arrays = mapArrays(weather, (values) => values.slice(member * hours, (member + 1) * hours))
  return { ...weather, ...arrays, members: 1 }
}
