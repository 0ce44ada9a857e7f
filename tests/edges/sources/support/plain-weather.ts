/** Weather without any fault, one value per hour that differs from its neighbours. */
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'

export function plainWeather(hours: number, members = 1): Weather {
  const arrays = unknownWeatherArrays(members, hours)
  for (let i = 0; i < members * hours; i++) {
    arrays.airTempC[i] = 15 + (i % 24) / 2
    arrays.relHumidity[i] = 0.4 + (i % 20) / 50
    arrays.rainMm[i] = 0
    arrays.windMs[i] = 3 + (i % 7) / 2
    arrays.gustMs[i] = 8
    arrays.windFromDeg[i] = (i * 10) % 360
    arrays.solarWm2[i] = 30 * (i % 24)
  }
  return {
    place: { latDeg: 41, lonDeg: -96, elevationM: 300 },
    startEpochH: 440_000,
    hours,
    members,
    ...arrays,
    provenance: {
      source: 'S',
      attribution: '',
      licence: '',
      issuedAtEpochH: 440_000,
      spread: 'single',
      remarks: ['first'],
    },
  }
}
