/** A service's good body told in another way: with a gap, in steps of six hours, in other units. */
import { epochHoursOf, instantOf } from '#core/units/time.ts'
import { FILL } from './power.ts'

interface Layer {
  uom?: string
  values: { validTime: string; value: number | null }[]
}
interface StepDetails {
  air_temperature?: number
  wind_speed?: number
}
interface Step {
  time: string
  data: { instant: { details: StepDetails }; next_1_hours?: unknown; next_6_hours?: SixHours }
}
interface SixHours {
  readonly details: { readonly precipitation_amount: number }
}
interface Hourly {
  readonly time: string[]
  [name: string]: (number | null)[] | string[]
}
interface Layers {
  [layer: string]: Layer | undefined
}
interface Steps {
  readonly meta: { readonly units: { air_temperature: string; wind_speed: string } }
  timeseries: Step[]
}
interface ByHour {
  readonly parameter: { [name: string]: { [stamp: string]: number | null } }
}
type Body =
  | { readonly properties: Layers | Steps }
  | { readonly properties: ByHour; readonly parameters: { [name: string]: { units: string } } }
  | { readonly hourly: Hourly; readonly hourly_units: { [name: string]: string } }

const SIX = 6
const GAP = { at: 6, hours: 6 }
const hoursOf = (duration: string): number => Temporal.Duration.from(duration).total('hours')

/** Without temperature for some hours: by null in series, by no word in steps. */
export function withGap(body: unknown): unknown {
  const copy = structuredClone(body) as Body
  if ('hourly' in copy) {
    for (const [name, values] of Object.entries(copy.hourly))
      if (name.startsWith('temperature_2m')) (values as (number | null)[]).fill(null, GAP.at, GAP.at + GAP.hours)
  } else if ('parameters' in copy) {
    const values = copy.properties.parameter.T2M!
    for (const stamp of Object.keys(values)
      .sort()
      .slice(GAP.at, GAP.at + GAP.hours))
      values[stamp] = FILL
  } else if (isSteps(copy.properties)) {
    for (const { data } of copy.properties.timeseries.slice(GAP.at, GAP.at + GAP.hours))
      delete data.instant.details.air_temperature
  } else {
    const { temperature } = copy.properties
    let hour = 0
    for (const value of temperature!.values) {
      if (hour >= GAP.at && hour < GAP.at + GAP.hours) value.value = null
      hour += hoursOf(value.validTime.split('/')[1]!)
    }
  }
  return copy
}

const STATES = ['temperature', 'dewpoint', 'relativeHumidity', 'skyCover', 'windSpeed', 'windGust', 'windDirection']

/** In spans or steps of six hours; a state holds the value of the first hour. */
export function sixHourly(body: unknown): unknown {
  const copy = structuredClone(body) as Body
  if ('hourly' in copy) {
    for (const [name, values] of Object.entries(copy.hourly))
      copy.hourly[name] = values.filter((_, at) => at % SIX === 0) as string[]
  } else if ('parameters' in copy) {
    return copy
  } else if (isSteps(copy.properties)) {
    copy.properties.timeseries = copy.properties.timeseries.filter(({ time }) => hourOf(time) % SIX === 0)
    for (const { data } of copy.properties.timeseries) delete data.next_1_hours
  } else for (const name of STATES) regroup(copy.properties[name])
  return copy
}

function regroup(layer: Layer | undefined): void {
  if (!layer) return
  const byHour = new Map<number, number | null>()
  for (const { validTime, value } of layer.values) {
    const [start, duration] = validTime.split('/') as [string, string]
    for (let h = 0; h < hoursOf(duration); h++) byHour.set(hourOf(start) + h, value)
  }
  layer.values = [...byHour]
    .filter(([hour]) => hour % SIX === 0)
    .map(([hour, value]) => ({ validTime: `${instantOf(hour).toString().replace('Z', '+00:00')}/PT6H`, value }))
}

/** The six-hour sums of rain that a body of steps names, by the hour in which they begin. */
export function sixHourSums(body: unknown): ReadonlyMap<number, number> {
  const { timeseries } = (body as { properties: { timeseries: Step[] } }).properties
  return new Map(
    timeseries.flatMap(({ time, data }) =>
      data.next_6_hours ? [[hourOf(time), data.next_6_hours.details.precipitation_amount] as const] : [],
    ),
  )
}

const hourOf = (time: string): number => epochHoursOf(Temporal.Instant.from(time))

/** The same temperatures in deg F, the same winds in km/h or mph (NIST SP 811: 0.44704 m/s to a mile per hour). */
export function otherUnits(body: unknown): unknown {
  const copy = structuredClone(body) as Body
  const fahrenheit = (celsius: number) => celsius * 1.8 + 32
  if ('hourly' in copy) {
    for (const [name, unit] of Object.entries(copy.hourly_units)) {
      const values = copy.hourly[name] as (number | null)[]
      const into = (other: string, convert: (value: number) => number) => {
        copy.hourly_units[name] = other
        copy.hourly[name] = values.map((value) => (value === null ? null : convert(value)))
      }
      if (unit === '°C') into('°F', fahrenheit)
      if (unit === 'm/s') into('mp/h', (ms) => ms / 0.44704)
    }
  } else if ('parameters' in copy) {
    const into = (name: string, units: string, convert: (value: number) => number) => {
      copy.parameters[name]!.units = units
      const values = copy.properties.parameter[name]!
      for (const stamp of Object.keys(values)) values[stamp] = convert(values[stamp]!)
    }
    into('T2M', 'K', (celsius) => celsius + 273.15)
    into('WS10M', 'mph', (ms) => ms / 0.44704)
  } else if (isSteps(copy.properties)) {
    const { meta, timeseries } = copy.properties
    meta.units.air_temperature = 'fahrenheit'
    meta.units.wind_speed = 'km/h'
    for (const { data } of timeseries) {
      const { details } = data.instant
      details.air_temperature = fahrenheit(details.air_temperature!)
      details.wind_speed = details.wind_speed! * 3.6
    }
  } else {
    for (const layer of Object.values(copy.properties)) {
      const into = (other: string, convert: (value: number) => number) => {
        layer!.uom = other
        for (const one of layer!.values) if (one.value !== null) one.value = convert(one.value)
      }
      if (layer?.uom === 'wmoUnit:degC') into('wmoUnit:degF', fahrenheit)
      else if (layer?.uom === 'wmoUnit:km_h-1') into('wmoUnit:m_s-1', (kmh) => kmh / 3.6)
    }
  }
  return copy
}

const isSteps = (properties: Layers | Steps): properties is Steps => 'timeseries' in properties
