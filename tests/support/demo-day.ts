/** The demo farm and its recorded autumn, for tests that make whole days of it in one process. */
import { join } from 'node:path'
import { type Day, type DayInput, makeDay } from '#app/make-day.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { loadFarm } from '#edges/config/load.ts'
import { readRecordedWeather, splitAt } from '#edges/sources/recorded/index.ts'

const DEMO = join(import.meta.dirname, '../../config/demo')
const AHEAD_H = 240

export const at = (text: string): number => epochHoursOf(Temporal.Instant.from(text))

export interface Demo {
  readonly farm: Farm
  readonly weather: Weather
}

export async function loadDemo(): Promise<Demo> {
  const { farm } = await loadFarm(join(DEMO, 'farm.yaml'))
  const provenance = { source: 'recorded weather', attribution: '', licence: 'MIT', remarks: [] }
  return { farm, weather: readRecordedWeather(join(DEMO, 'weather-2010.csv'), farm.home, provenance) }
}

export function demoDay({ farm, weather }: Demo, nowEpochH: number, more: Partial<DayInput> = {}): Day {
  return makeDay({ farm, nowEpochH, weather: splitAt(weather, nowEpochH, AHEAD_H), standingHa: new Map(), ...more })
}

/** The moment at which the demo's clock starts: the morning of the README. */
export const DEMO_NOW = at('2010-09-30T05:30-05:00')

const mornings = new WeakMap<Demo, Day>()

/** The demo's morning, made once for all tests of a file that only look at it. */
export function demoMorning(demo: Demo): Day {
  const made = mornings.get(demo) ?? demoDay(demo, DEMO_NOW)
  mornings.set(demo, made)
  return made
}
