/**
 * Twenty-eight real autumns (July to November, 1996-2023) near Champaign, Illinois, as `Weather` values.
 * Source and licence: tests/fixtures/champaign/NOTICE.md. Time there is local STANDARD time, UTC-6, all year.
 */
import { readFileSync } from 'node:fs'
import { gunzipSync } from 'node:zlib'
import { epochHourOf, HOURS_PER_DAY } from '#core/units/time.ts'
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'

export const CHAMPAIGN_YEARS: readonly number[] = Array.from({ length: 28 }, (_, i) => 1996 + i)
/** Hours that local standard time is behind UTC. */
export const CHAMPAIGN_UTC_OFFSET_H = 6
/** Sunlight per photosynthetic photon flux [W/m2 per umol/m2/s], common practice, no source. */
const WM2_PER_UMOL = 0.473
/** Rain of a day falls in one burst, an hour longer for each of these [mm]; no source, a plain rule. */
const BURST_MM_PER_HOUR = 3
const BURST_MAX_HOURS = 8

const FIXTURE = new URL('../fixtures/champaign/hourly-jul-nov-1996-2023.csv.gz', import.meta.url)
let linesByYear: Map<string, string[]> | undefined

function linesOf(year: number): string[] {
  linesByYear ??= Map.groupBy(gunzipSync(readFileSync(FIXTURE)).toString('utf8').trim().split('\n').slice(1), (line) =>
    line.slice(0, 4),
  )
  const lines = linesByYear.get(String(year))
  if (!lines) throw new Error(`No autumn of ${year} in the fixture`)
  return lines
}

const numberOf = (cell: string | undefined): number => (cell?.trim() ? Number(cell) : Number.NaN)

/**
 * One autumn, 1 July to 30 November, hour by hour, one member.
 *
 * The sun of the data is centred on solar noon only if a value stands for the moment of its stamp, so each hour here is
 * the mean of the values at its two ends (temperature, humidity, wind and sunlight alike).
 *
 * Rain is known only as a daily total. It is put into one burst per day (one hour plus one per 3 mm, at most eight),
 * over the run of hours whose air is wettest against the autumn's mean for the same hour of the day, falling off
 * linearly from its first hour. That is a rule of ours and must never be shown as observed hourly rain.
 */
export function champaignAutumn(year: number): Weather {
  const lines = linesOf(year)
  const hours = lines.length
  const arrays = unknownWeatherArrays(1, hours)
  const dailyRainMm = new Float64Array(hours / HOURS_PER_DAY)
  for (const [h, line] of lines.entries()) {
    const [, tempC, relHumidity, windMs, ppfd, rainShareMm] = line.split(',')
    arrays.airTempC[h] = numberOf(tempC)
    arrays.relHumidity[h] = numberOf(relHumidity)
    arrays.windMs[h] = numberOf(windMs)
    arrays.solarWm2[h] = numberOf(ppfd) * WM2_PER_UMOL
    dailyRainMm[Math.floor(h / HOURS_PER_DAY)]! += numberOf(rainShareMm)
  }
  for (const name of ['airTempC', 'relHumidity', 'windMs', 'solarWm2'] as const) {
    const values = arrays[name]
    for (let h = 0; h + 1 < hours; h++) values[h] = (values[h]! + values[h + 1]!) / 2
  }
  putRainIntoHours(dailyRainMm, arrays.relHumidity, arrays.rainMm)
  return {
    place: { latDeg: 40.06, lonDeg: -88.2, elevationM: 220 },
    startEpochH: epochHourOf(Temporal.Instant.from(`${lines[0]!.slice(0, 16)}:00Z`)) + CHAMPAIGN_UTC_OFFSET_H,
    hours,
    members: 1,
    ...arrays,
    provenance: {
      source: 'BioCro cmi_weather_data',
      attribution: 'BioCro authors; SURFRAD Bondville (NOAA) and Illinois WARM network',
      licence: 'MIT',
      issuedAtEpochH: Number.NaN,
      spread: 'observed',
      remarks: ['Daily rain put into hours by a rule', 'Sunlight computed from photon flux'],
    },
  }
}

function putRainIntoHours(dailyRainMm: Float64Array, relHumidity: Float32Array, rainMm: Float32Array): void {
  const usual = usualByHourOfDay(relHumidity)
  for (const [day, totalMm] of dailyRainMm.entries()) {
    const first = day * HOURS_PER_DAY
    rainMm.fill(Number.isNaN(totalMm) ? Number.NaN : 0, first, first + HOURS_PER_DAY)
    if (!(totalMm > 0)) continue
    const length = Math.min(BURST_MAX_HOURS, 1 + Math.floor(totalMm / BURST_MM_PER_HOUR))
    let start = 0
    let wettest = Number.NEGATIVE_INFINITY
    for (let candidate = 0; candidate + length <= HOURS_PER_DAY; candidate++) {
      let excess = 0
      for (let h = candidate; h < candidate + length; h++) excess += relHumidity[first + h]! - usual[h]!
      if (excess > wettest) [wettest, start] = [excess, candidate]
    }
    const shares = (length * (length + 1)) / 2
    for (let h = 0; h < length; h++) rainMm[first + start + h] = (totalMm * (length - h)) / shares
  }
}

function usualByHourOfDay(values: Float32Array): Float64Array {
  const sums = new Float64Array(HOURS_PER_DAY)
  const counts = new Float64Array(HOURS_PER_DAY)
  for (const [h, value] of values.entries()) {
    if (Number.isNaN(value)) continue
    sums[h % HOURS_PER_DAY]! += value
    counts[h % HOURS_PER_DAY]! += 1
  }
  return sums.map((sum, i) => sum / counts[i]!)
}
