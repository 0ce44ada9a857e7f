/** Weather made by hand: one fine, dry, breezy day after another, with what a test sets on top. */
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather, type WeatherVariable } from '#core/units/weather.ts'

const FINE: { readonly [V in WeatherVariable]: number } = {
  airTempC: 20,
  relHumidity: 0.5,
  rainMm: 0,
  windMs: 4,
  gustMs: 6,
  windFromDeg: 225,
  solarWm2: 300,
}

export interface Plan {
  readonly startEpochH: number
  readonly hours: number
  readonly members?: number
  /** Values in place of the fine ones; index of member and hour. */
  readonly set?: Partial<Record<WeatherVariable, number | ((member: number, hour: number) => number)>>
}

export function plainWeather({ startEpochH, hours, members = 1, set = {} }: Plan): Weather {
  const arrays = unknownWeatherArrays(members, hours)
  for (const variable of WEATHER_VARIABLES) {
    const value = set[variable] ?? FINE[variable]
    for (let m = 0; m < members; m++) {
      for (let h = 0; h < hours; h++) {
        arrays[variable][m * hours + h] = typeof value === 'number' ? value : value(m, h)
      }
    }
  }
  return {
    place: { latDeg: 40, lonDeg: -88, elevationM: 215 },
    startEpochH,
    hours,
    members,
    ...arrays,
    provenance: {
      source: 'made by hand',
      attribution: '',
      licence: '',
      issuedAtEpochH: startEpochH,
      spread: members === 1 ? 'single' : 'ensemble',
      remarks: [],
    },
  }
}
