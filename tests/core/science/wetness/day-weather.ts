import type { Weather } from '#core/units/weather.ts'

/** Hour 0 is midnight local solar time, 20 September 2025, at 40 N 90 W. */
const START = Temporal.Instant.from('2025-09-20T06:00:00Z').epochMilliseconds / 3_600_000

export interface Day {
  readonly days?: number
  readonly members?: number
  readonly lowC?: number
  readonly highC?: number
  readonly dewPointRelHumidityAtLow?: number
  readonly windMs?: number
  readonly brightness?: number
}

/** Made-up clear days: temperature and sun by sines, the same water vapour all day, no rain. */
export function dayWeather(day: Day = {}): Weather {
  const { days = 2, members = 1, lowC = 12, highC = 26, dewPointRelHumidityAtLow = 0.98, windMs = 1.5 } = day
  const hours = 24 * days
  const fill = (valueAt: (hourOfDay: number) => number) =>
    Float32Array.from({ length: members * hours }, (_, i) => valueAt((i % hours) % 24))
  const temp = (h: number) => (lowC + highC) / 2 + ((highC - lowC) / 2) * Math.sin(((h - 9) / 12) * Math.PI)
  const es = (c: number) => Math.exp((17.27 * c) / (c + 237.3))
  return {
    place: { latDeg: 40, lonDeg: -90, elevationM: 200 },
    startEpochH: START,
    hours,
    members,
    airTempC: fill(temp),
    relHumidity: fill((h) => (dewPointRelHumidityAtLow * es(lowC)) / es(temp(h))),
    rainMm: fill(() => 0),
    windMs: fill(() => windMs),
    gustMs: fill(() => Number.NaN),
    windFromDeg: fill(() => Number.NaN),
    solarWm2: fill((h) => (day.brightness ?? 1) * 760 * Math.max(0, Math.sin(((h + 0.5 - 6) / 12) * Math.PI))),
    provenance: {
      source: 'made up',
      attribution: '',
      licence: '',
      issuedAtEpochH: START,
      spread: 'single',
      remarks: [],
    },
  }
}
