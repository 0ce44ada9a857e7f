/** Weather for a farm: ask the suppliers in the farm's order, join what was seen to what is expected, keep the last good. */
import { HOURS_PER_DAY, instantOf } from '#core/units/time.ts'
import { type Place, unknownWeatherArrays, type Weather, type WeatherToNow } from '#core/units/weather.ts'
import { hoursBetween } from '#core/units/weather-hours.ts'
import { SourceFailure } from './failures.ts'
import type {
  ComparedForecast,
  EarlierYears,
  ForecastSource,
  HistorySource,
  ObservationSource,
  SourceForecast,
  WarningSource,
} from './ports.ts'
import type { WarningWatch } from './warnings.ts'

export interface Suppliers {
  /** In the order in which they are asked; the first that answers is believed. */
  readonly forecasts: readonly ForecastSource[]
  readonly observations: readonly ObservationSource[]
  /** Who has the past of years, in the order asked; what is missing of the season comes from them. */
  readonly history?: readonly HistorySource[]
  /** Who gives official warnings. */
  readonly warningSources?: readonly WarningSource[]
  /** Reads official warnings; absent where no supplier of the farm gives any. */
  readonly warnings?: WarningWatch
  /** Weather of earlier years, for the season beyond the forecast; absent where there is none to be had. */
  readonly earlierYears?: EarlierYears
}

export interface WeatherQuestion {
  readonly place: Place
  readonly nowEpochH: number
  /** A forecast issued longer ago is not used [h]. */
  readonly ageLimitH: number
  /** How far back is asked for [h]. */
  readonly hoursBack: number
  /** The last good answer, for when everybody fails. */
  readonly lastGood?: Weather | undefined
  readonly signal?: AbortSignal
}

export type WeatherAnswer =
  | {
      readonly kind: 'found'
      readonly weather: WeatherToNow
      readonly good: Weather
      /** What the sources said each for itself, where several were asked. */
      readonly compared: readonly ComparedForecast[]
      readonly failures: readonly string[]
    }
  | { readonly kind: 'none'; readonly reason: string; readonly ageH: number; readonly failures: readonly string[] }

export async function findWeather(suppliers: Suppliers, question: WeatherQuestion): Promise<WeatherAnswer> {
  const failures: string[] = []
  const found = await firstForecast(suppliers.forecasts, question, failures)
  const forecast = found?.weather ?? question.lastGood
  if (!forecast) {
    return { kind: 'none', reason: 'no weather source answered', ageH: Number.NaN, failures }
  }
  const ageH = question.nowEpochH - forecast.provenance.issuedAtEpochH
  if (ageH > question.ageLimitH) {
    const reason = `the newest weather is ${Math.round(ageH)} h old, over the limit of ${question.ageLimitH} h`
    return { kind: 'none', reason, ageH, failures }
  }
  const ahead = fromHour(forecast, Math.floor(question.nowEpochH))
  if (ahead.hours === 0) {
    return { kind: 'none', reason: 'the forecast ends before now', ageH, failures }
  }
  const past = await observed(suppliers.observations, question, failures)
  const known = past.hours < SHORT_PAST_H ? remarked(ahead, shortPast(past.startEpochH)) : ahead
  return {
    kind: 'found',
    weather: { past, ahead: known },
    good: forecast,
    compared: found?.blendedFrom ?? [],
    failures,
  }
}

/** A shorter past than this does not tell the season [h]. */
const SHORT_PAST_H = 30 * HOURS_PER_DAY

const shortPast = (sinceEpochH: number): string =>
  `The weather before ${instantOf(sinceEpochH).toString().slice(0, 10)} is not known: ripeness, drought index and moisture ` +
  'rest on usual weather, and topsoil is taken as at field capacity then.'

async function firstForecast(
  sources: readonly ForecastSource[],
  question: WeatherQuestion,
  failures: string[],
): Promise<SourceForecast | undefined> {
  for (const source of sources) {
    try {
      const found = await source.fetch(question)
      if (failures.length === 0) return found
      return { ...found, weather: remarked(found.weather, `Second choice of source: ${failures.join(' ')}`) }
    } catch (failure) {
      failures.push(told(failure))
    }
  }
  return undefined
}

async function observed(
  sources: readonly ObservationSource[],
  question: WeatherQuestion,
  failures: string[],
): Promise<Weather> {
  const nowH = Math.floor(question.nowEpochH)
  for (const source of sources) {
    try {
      const { weather } = await source.fetch({ ...question, hoursBack: question.hoursBack })
      return untilHour(weather, nowH)
    } catch (failure) {
      failures.push(told(failure))
    }
  }
  return {
    place: question.place,
    startEpochH: nowH,
    hours: 0,
    members: 1,
    ...unknownWeatherArrays(1, 0),
    provenance: {
      source: 'nobody',
      attribution: '',
      licence: '',
      issuedAtEpochH: nowH,
      spread: 'observed',
      remarks: ['No observed weather: fields start from their usual dry-down.'],
    },
  }
}

/** A failure of the world is told; anything else is a bug and goes up. */
function told(failure: unknown): string {
  if (failure instanceof SourceFailure) return failure.message
  throw failure
}

const remarked = (weather: Weather, remark: string): Weather => ({
  ...weather,
  provenance: { ...weather.provenance, remarks: [...weather.provenance.remarks, remark] },
})

/** The series from an hour on, member by member. */
const fromHour = (weather: Weather, epochH: number): Weather =>
  epochH <= weather.startEpochH ? weather : hoursBetween(weather, epochH, weather.startEpochH + weather.hours)

/** The series up to an hour: cut if it is longer, unknown where it is shorter. */
export const untilHour = (weather: Weather, epochH: number): Weather =>
  hoursBetween(weather, weather.startEpochH, epochH)
