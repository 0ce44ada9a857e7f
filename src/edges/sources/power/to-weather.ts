/**
 * Hourly answers of NASA POWER to weather: means over the hour that starts at the stamp, in UTC. That the stamp is the
 * start shows in its sunlight: see tests/edges/sources/power/to-weather.test.ts.
 */
import { HOURS_PER_DAY, instantOf } from '#core/units/time.ts'
import { type Place, unknownWeatherArrays, type Weather, type WeatherVariable } from '#core/units/weather.ts'
import type { Told } from '#edges/sources/reading.ts'
import type { Grid } from '#edges/sources/spans.ts'
import { intoOurs, type Quantity } from '#edges/sources/units.ts'
import { POWER_CREDIT } from './credit.ts'
import type { PowerAnswer } from './schema.ts'

interface Series {
  readonly variable: WeatherVariable
  readonly quantity: Quantity
}

/** There are no gusts. */
const SERIES: { readonly [name: string]: Series } = {
  T2M: { variable: 'airTempC', quantity: 'temperature' },
  RH2M: { variable: 'relHumidity', quantity: 'share' },
  PRECTOTCORR: { variable: 'rainMm', quantity: 'rain' },
  WS10M: { variable: 'windMs', quantity: 'speed' },
  WD10M: { variable: 'windFromDeg', quantity: 'direction' },
  ALLSKY_SFC_SW_DWN: { variable: 'solarWm2', quantity: 'irradiance' },
}
export const POWER_PARAMETERS = Object.keys(SERIES)

/** @returns the hours of the grid, not yet screened, unknown where the answer has none. */
export function weatherFromPower(answer: PowerAnswer, place: Place, grid: Grid, told: Told): Weather {
  const { parameter } = answer.properties
  const fill = answer.header.fill_value
  const stamps = stampsOf(grid)
  const arrays = unknownWeatherArrays(1, grid.hours)
  for (const [name, { variable, quantity }] of Object.entries(SERIES)) {
    const values = Object.hasOwn(parameter, name) ? parameter[name]! : undefined
    if (values === undefined) continue
    const unit = Object.hasOwn(answer.parameters, name) ? answer.parameters[name]!.units : undefined
    const convert = intoOurs(quantity, unit, name, told)
    for (let hour = 0; hour < grid.hours; hour++) {
      const value = Object.hasOwn(values, stamps[hour]!) ? values[stamps[hour]!]! : null
      if (value !== null && value !== fill) arrays[variable][hour] = convert(value)
    }
  }
  return {
    place,
    ...grid,
    members: 1,
    ...arrays,
    provenance: {
      source: POWER_CREDIT.name,
      attribution: POWER_CREDIT.attribution,
      licence: POWER_CREDIT.licence,
      issuedAtEpochH: grid.startEpochH + grid.hours,
      spread: 'observed',
      remarks: [],
    },
  }
}

/** Such as `2025020207` for each hour. */
function stampsOf({ startEpochH, hours }: Grid): readonly string[] {
  let day = Number.NaN
  let date = ''
  return Array.from({ length: hours }, (_, h) => {
    const epochH = startEpochH + h
    const epochDay = Math.floor(epochH / HOURS_PER_DAY)
    if (epochDay !== day) {
      day = epochDay
      date = instantOf(epochH).toString().slice(0, 10).replaceAll('-', '')
    }
    return `${date}${String(epochH - epochDay * HOURS_PER_DAY).padStart(2, '0')}`
  })
}
