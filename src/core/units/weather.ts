/**
 * The one weather value that every supplier makes and everything else reads.
 *
 * One per place (cell), shared by all fields in it. Arrays are laid out member by member:
 * index = member * hours + hour. Hour `h` covers [startEpochH + h, startEpochH + h + 1): temperature, humidity,
 * wind and sunlight are means over the hour, rain is the sum that falls in it, the gust is its maximum.
 * `NaN` marks "not known" and never becomes a number that looks known.
 */
export interface Weather {
  readonly place: Place
  /** Whole hours since the Unix epoch of the first hour. */
  readonly startEpochH: number
  readonly hours: number
  /** 1 for what was observed; the number of equally likely courses for a forecast. */
  readonly members: number
  /** Air temperature at 2 m [deg C]. */
  readonly airTempC: Float32Array
  /** Relative humidity at 2 m over liquid water [0-1]. */
  readonly relHumidity: Float32Array
  /** Rain in the hour [mm]. */
  readonly rainMm: Float32Array
  /** Mean wind at 10 m [m/s]. */
  readonly windMs: Float32Array
  /** Highest gust at 10 m [m/s]; NaN where the source has none. */
  readonly gustMs: Float32Array
  /** Direction the wind comes from, clockwise from north [deg]; NaN where the source has none. */
  readonly windFromDeg: Float32Array
  /** Global solar radiation on level ground [W/m2]. */
  readonly solarWm2: Float32Array
  readonly provenance: Provenance
}

export interface Place {
  readonly latDeg: number
  readonly lonDeg: number
  readonly elevationM: number
}

/** Name of weather that comes from a file and from no service. */
export const RECORDED = 'recorded weather'

export interface Provenance {
  /** Name of the supplier as shown to people. */
  readonly source: string
  /** The credit line that the supplier asks for. */
  readonly attribution: string
  readonly licence: string
  /** When the supplier issued it, hours since the epoch, with fraction. */
  readonly issuedAtEpochH: number
  /** `observed`: measured. `ensemble`: the supplier's own members. `grown`: members built here from error growth. */
  readonly spread: 'observed' | 'ensemble' | 'grown' | 'single'
  /** Plain remarks on what was assumed, filled or left out, shown to people. */
  readonly remarks: readonly string[]
}

/** What was seen up to now and what is expected from now on: `ahead.startEpochH === past.startEpochH + past.hours`. */
export interface WeatherToNow {
  readonly past: Weather
  readonly ahead: Weather
}

export const WEATHER_VARIABLES = [
  'airTempC',
  'relHumidity',
  'rainMm',
  'windMs',
  'gustMs',
  'windFromDeg',
  'solarWm2',
] as const
export type WeatherVariable = (typeof WEATHER_VARIABLES)[number]
export type WeatherArrays = { readonly [V in WeatherVariable]: Float32Array }

/** @returns each variable's values as made from those given. */
export const mapArrays = (arrays: WeatherArrays, of: (values: Float32Array) => Float32Array): WeatherArrays => ({
  airTempC: of(arrays.airTempC),
  relHumidity: of(arrays.relHumidity),
  rainMm: of(arrays.rainMm),
  windMs: of(arrays.windMs),
  gustMs: of(arrays.gustMs),
  windFromDeg: of(arrays.windFromDeg),
  solarWm2: of(arrays.solarWm2),
})

/** @returns arrays of `members * hours` values, all "not known". */
export function unknownWeatherArrays(members: number, hours: number): WeatherArrays {
  const fresh = () => new Float32Array(members * hours).fill(Number.NaN)
  return {
    airTempC: fresh(),
    relHumidity: fresh(),
    rainMm: fresh(),
    windMs: fresh(),
    gustMs: fresh(),
    windFromDeg: fresh(),
    solarWm2: fresh(),
  }
}
