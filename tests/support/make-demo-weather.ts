/**
 * Makes the demo's recorded weather from an hourly table of Champaign, Illinois (config/demo/README.md names it):
 *
 *   node tests/support/make-demo-weather.ts SOURCE.csv 2010 > config/demo/weather-2010.csv
 *
 * SOURCE.csv has a heading and the columns: local standard time (UTC-6) as 2010-07-01T00:00, air temperature [deg C],
 * relative humidity [0-1], wind [m/s], photosynthetic photon flux [umol/m2/s], a 24th of the day's rain [mm].
 * What the source lacks is invented by the fixed rules below: the hours of the rain, the gusts, the wind's direction.
 * Nothing here depends on chance or on the clock.
 */
import { readFileSync } from 'node:fs'

const SOURCE_UTC_OFFSET_H = -6
/** Sunlight per photosynthetic photon flux [W/m2 per umol/m2/s]: common practice. */
const WM2_PER_UMOL = 0.473

export interface SourceHour {
  /** Local standard time, such as 2010-07-01T00:00. */
  readonly localTime: string
  readonly airTempC: number
  readonly relHumidity: number
  readonly windMs: number
  readonly photonFlux: number
  readonly dayRainOver24Mm: number
}

export function readSource(csv: string, year: number): SourceHour[] {
  const number = (cell: string | undefined) => (cell === undefined || cell.trim() === '' ? Number.NaN : Number(cell))
  return csv
    .split(/\r?\n/)
    .filter((line) => line.startsWith(`${year}-`))
    .map((line) => {
      const [localTime = '', airTemp, humidity, wind, flux, rain] = line.split(',')
      return {
        localTime,
        airTempC: number(airTemp),
        relHumidity: number(humidity),
        windMs: number(wind),
        photonFlux: number(flux),
        dayRainOver24Mm: number(rain),
      }
    })
}

/** @returns the demo's CSV; an empty cell is "not known". */
export function demoWeatherCsv(hours: readonly SourceHour[]): string {
  const rain = rainByHour(hours)
  const from = windFromDeg(hours)
  const lines = hours.map((hour, i) => {
    const solar = hour.photonFlux * WM2_PER_UMOL
    return [
      utcTime(hour.localTime),
      cell(hour.airTempC, 2),
      cell(hour.relHumidity, 3),
      cell(rain[i]!, 2),
      cell(hour.windMs, 2),
      cell(hour.windMs * gustFactor(solar), 2),
      cell(from[i]!, 0),
      cell(solar, 1),
    ].join(',')
  })
  return [
    'time_utc,air_temp_c,relative_humidity,rain_mm,wind_m_s,gust_m_s,wind_from_deg,solar_w_m2',
    ...lines,
    '',
  ].join('\n')
}

const cell = (value: number, digits: number): string => (Number.isNaN(value) ? '' : value.toFixed(digits))

function utcTime(localTime: string): string {
  const utc = Temporal.PlainDateTime.from(localTime).subtract({ hours: SOURCE_UTC_OFFSET_H })
  return `${utc.toString({ smallestUnit: 'minute' })}:00Z`
}

/**
 * Gusts are invented: 1.5 times the hour's wind in the dark, rising to 1.75 times in full sun, when the air is
 * stirred most. The upper figure is about the 3-second gust in an hour over open country (from memory).
 */
function gustFactor(solarWm2: number): number {
  const stirred = Number.isNaN(solarWm2) ? 0 : Math.min(1, solarWm2 / 600)
  return 1.5 + 0.25 * stirred
}

/**
 * The wind's direction is invented from warmth: where the day is warmer than the three days around it the wind comes
 * from the south-south-west, where colder from the north-west, in between from the west, turning smoothly.
 */
function windFromDeg(hours: readonly SourceHour[]): number[] {
  const temps = hours.map((hour) => hour.airTempC)
  return temps.map((_, i) => {
    const warmer = meanAround(temps, i, 12) - meanAround(temps, i, 36)
    return Math.round(255 - 65 * Math.tanh(warmer / 2.5))
  })
}

function meanAround(values: readonly number[], at: number, reach: number): number {
  const known = values.slice(Math.max(0, at - reach), at + reach + 1).filter((value) => !Number.isNaN(value))
  return known.reduce((sum, value) => sum + value, 0) / known.length
}

/**
 * The day's total is put into hours. A day gets one hour of rain per square root of its total [mm], at most 12; from
 * 10 mm on in two bursts, 70 and 30 percent. Each burst is the unbroken run of hours whose air was most humid (and sky
 * darkest) compared with the usual for that hour of the day over the fortnight either side, and is heaviest in its
 * middle. The hours are an invention: only the day's total was observed.
 */
function rainByHour(hours: readonly SourceHour[]): number[] {
  const rain = hours.map(() => 0)
  const wetness = hours.map((_, i) => unusualWetness(hours, i))
  for (let start = 0; start + 24 <= hours.length; start += 24) {
    const day = hours.slice(start, start + 24)
    const totalMm = day.reduce((sum, hour) => sum + hour.dayRainOver24Mm, 0)
    if (Number.isNaN(totalMm)) rain.fill(Number.NaN, start, start + 24)
    else if (totalMm > 0) spread(totalMm, wetness.slice(start, start + 24), rain, start)
  }
  return rain
}

function spread(totalMm: number, wetness: readonly number[], rain: number[], dayStart: number): void {
  const hoursOfRain = Math.min(12, Math.max(1, Math.round(Math.sqrt(totalMm))))
  const shares = totalMm >= 10 ? [0.7, 0.3] : [1]
  const free = [...wetness]
  for (const share of shares) {
    const length = Math.max(1, Math.round(hoursOfRain * share))
    const first = wettestRun(free, length)
    const weights = Array.from({ length }, (_, i) => Math.min(i + 1, length - i))
    const weightSum = weights.reduce((sum, weight) => sum + weight, 0)
    for (let i = 0; i < length; i++) {
      rain[dayStart + first + i]! += (totalMm * share * weights[i]!) / weightSum
      free[first + i] = Number.NEGATIVE_INFINITY
    }
  }
}

function wettestRun(wetness: readonly number[], length: number): number {
  let best = 0
  let bestSum = Number.NEGATIVE_INFINITY
  for (let first = 0; first + length <= wetness.length; first++) {
    const sum = wetness.slice(first, first + length).reduce((a, b) => a + b, 0)
    if (sum > bestSum) {
      best = first
      bestSum = sum
    }
  }
  return best
}

function unusualWetness(hours: readonly SourceHour[], at: number): number {
  const sameHour: SourceHour[] = []
  for (let days = -15; days <= 15; days++) {
    const other = hours[at + days * 24]
    if (other) sameHour.push(other)
  }
  const usualHumidity = sameHour.reduce((sum, hour) => sum + hour.relHumidity, 0) / sameHour.length
  const brightest = Math.max(...sameHour.map((hour) => hour.photonFlux))
  const cloud = brightest > 200 ? 0.5 - hours[at]!.photonFlux / brightest : 0
  const wetness = hours[at]!.relHumidity - usualHumidity + 0.3 * cloud
  return Number.isNaN(wetness) ? 0 : wetness
}

if (import.meta.main) {
  const [path, year] = process.argv.slice(2)
  if (!path || !year) throw new Error('Say the source file and the year.')
  process.stdout.write(demoWeatherCsv(readSource(readFileSync(path, 'utf8'), Number(year))))
}
