/**
 * Speed of reading an ensemble: the time from a body's text to screened weather, as a multiple of JSON.parse of the
 * same text. Run by `npm run bench -- parse`.
 */

import { seededRandom } from '#core/units/random.ts'
import { instantOf } from '#core/units/time.ts'
import { jsonOf } from '#edges/http/body.ts'
import { accepted, FORECAST_NEED } from '#edges/sources/need.ts'
import { hourlyAnswerSchema } from '#edges/sources/open-meteo/schema.ts'
import { weatherFromHourlyAnswer } from '#edges/sources/open-meteo/to-weather.ts'
import { checked } from '#edges/sources/reading.ts'

const MEMBERS = 51
const HOURS = 16 * 24
const ROUNDS = 41
const NOW = 493_000
const TOLD = { source: 'bench', where: 'https://example.org/' }
const PLACE = { latDeg: 40, lonDeg: -88.2, elevationM: 215 }

export function benchParse(print: (line: string) => void): void {
  const text = ensembleText()
  const read = () =>
    accepted(
      weatherFromHourlyAnswer(checked(hourlyAnswerSchema, jsonOf(text), TOLD), PLACE, NOW, 'ensemble', TOLD),
      FORECAST_NEED,
      TOLD.where,
    )
  const bare: number[] = []
  const whole: number[] = []
  // In turn, so that a machine that slows down slows both.
  for (let round = 0; round < ROUNDS; round++) {
    bare.push(msOf(() => JSON.parse(text)))
    whole.push(msOf(read))
  }
  const { weather } = read()
  const tell = (which: string, wholeMs: number, bareMs: number) =>
    print(
      `parse: ${(text.length / 1e6).toFixed(2)} MB, ${weather.members} members, ${weather.hours} h, ${which}: ` +
        `${wholeMs.toFixed(2)} ms, JSON.parse alone ${bareMs.toFixed(2)} ms, ratio ${(wholeMs / bareMs).toFixed(2)} (bar 3)`,
    )
  tell('best', Math.min(...whole), Math.min(...bare))
  tell('median', median(whole), median(bare))
}

/** A full ensemble as the service writes it: one decimal, two for rain and wind, no decimals for humidity and direction. */
function ensembleText(): string {
  const random = seededRandom(5)
  const stamps = Array.from({ length: HOURS + 2 }, (_, h) => NOW - 1 + h)
  const sun = (stamp: number) => Math.max(0, Math.sin(((stamp % 24) - 12) * (Math.PI / 12) + Math.PI / 2))
  const around: { readonly [name: string]: readonly [unit: string, digits: number, value: (stamp: number) => number] } =
    {
      temperature_2m: ['°C', 1, (stamp) => 13 + 8 * sun(stamp) + random.normal()],
      relative_humidity_2m: ['%', 0, (stamp) => 85 - 45 * sun(stamp) + 3 * random.normal()],
      precipitation: ['mm', 2, () => (random.uniform() < 0.05 ? 4 * random.uniform() : 0)],
      wind_speed_10m: ['m/s', 2, (stamp) => 3 + 2 * sun(stamp) + random.uniform()],
      wind_gusts_10m: ['m/s', 1, (stamp) => 6 + 4 * sun(stamp) + 2 * random.uniform()],
      wind_direction_10m: ['°', 0, () => 200 + 40 * random.uniform()],
      shortwave_radiation: ['W/m²', 1, (stamp) => 650 * sun(stamp) * random.uniform()],
    }
  const hourly: { [name: string]: unknown } = { time: stamps.map((stamp) => instantOf(stamp).toString().slice(0, 16)) }
  const units: { [name: string]: string } = { time: 'iso8601' }
  for (const [name, [unit, digits, value]] of Object.entries(around))
    for (let member = 0; member < MEMBERS; member++) {
      const full = member === 0 ? name : `${name}_member${String(member).padStart(2, '0')}`
      units[full] = unit
      hourly[full] = stamps.map((stamp) => Number(value(stamp).toFixed(digits)))
    }
  return JSON.stringify({ utc_offset_seconds: 0, elevation: 215, hourly_units: units, hourly })
}

function msOf(run: () => unknown): number {
  const start = process.hrtime.bigint()
  run()
  return Number(process.hrtime.bigint() - start) / 1e6
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!
