/** Made-up weather for the tests of fire: one member unless told, values per hour, unknown where not given. */
import { unknownWeatherArrays, type Weather, type WeatherVariable } from '#core/units/weather.ts'

export function weatherOf(
  startEpochH: number,
  hours: number,
  values: { readonly [V in WeatherVariable]?: (h: number, member: number) => number },
  members = 1,
): Weather {
  const arrays = unknownWeatherArrays(members, hours)
  for (const [name, value] of Object.entries(values)) {
    const array = arrays[name as WeatherVariable]
    for (let m = 0; m < members; m++) for (let h = 0; h < hours; h++) array[m * hours + h] = value(h, m)
  }
  return {
    place: { latDeg: 40, lonDeg: -88, elevationM: 220 },
    startEpochH,
    hours,
    members,
    ...arrays,
    provenance: {
      source: 'made up',
      attribution: '',
      licence: '',
      issuedAtEpochH: startEpochH,
      spread: 'single',
      remarks: [],
    },
  }
}
