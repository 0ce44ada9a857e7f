/** Hourly answers in the form of the service, as its recorded bodies show it, filled with plain numbers. */
import { instantOf } from '#core/units/time.ts'

export interface Answer {
  utc_offset_seconds: number
  hourly_units: { [name: string]: string }
  hourly: { time: string[]; [name: string]: (number | null)[] | string[] }
}

/** Unit and value of each series at the stamp: the value tells the stamp apart. */
const SERIES: { readonly [name: string]: readonly [unit: string, value: (stamp: number, member: number) => number] } = {
  temperature_2m: ['°C', (stamp, member) => 10 + (stamp % 24) / 4 + member / 10],
  relative_humidity_2m: ['%', (stamp) => 50 + (stamp % 24)],
  precipitation: ['mm', (stamp, member) => (stamp % 24 === 6 ? 2 + member : 0)],
  wind_speed_10m: ['m/s', (stamp) => 3 + (stamp % 5) / 10],
  wind_gusts_10m: ['m/s', (stamp) => 6 + (stamp % 5)],
  wind_direction_10m: ['°', (stamp) => (stamp * 15) % 360],
  shortwave_radiation: ['W/m²', (stamp) => 40 * (stamp % 24)],
}

export function hourlyAnswer(startEpochH: number, hours: number, members: number): Answer {
  const stamps = Array.from({ length: hours }, (_, h) => startEpochH + h)
  const answer: Answer = {
    utc_offset_seconds: 0,
    hourly_units: { time: 'iso8601' },
    hourly: { time: stamps.map((stamp) => instantOf(stamp).toString().slice(0, 16)) },
  }
  for (const [name, [unit, value]] of Object.entries(SERIES))
    for (let member = 0; member < members; member++) {
      const full = member === 0 ? name : `${name}_member${String(member).padStart(2, '0')}`
      answer.hourly_units[full] = unit
      answer.hourly[full] = stamps.map((stamp) => value(stamp, member))
    }
  if (members === 1) {
    answer.hourly_units.precipitation_probability = '%'
    answer.hourly.precipitation_probability = stamps.map((stamp) => stamp % 24)
  }
  return answer
}
