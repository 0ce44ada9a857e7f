/**
 * What the outside must supply. Weather only; each edge under `edges/sources` implements one or more of these.
 *
 * A port promises: SI units, whole hours, `NaN` for what is not known, one of the classes in `app/failures.ts`
 * when it cannot keep that promise, and never a number from an answer it could not read.
 */
import type { SaidChances } from '#core/science/spread/chances.ts'
import type { Place, Weather } from '#core/units/weather.ts'

interface SuppliesWeather {
  /** Short stable name, used in settings and storage. */
  readonly id: string
  /** Name shown to people. */
  readonly name: string
  /** The credit line that the supplier asks for. */
  readonly attribution: string
  readonly licence: string
  /** True where the supplier's terms need the farm's own decision: off until the farm switches it on. */
  readonly needsConsent?: boolean
}

export interface WeatherRequest {
  readonly place: Place
  /** Now, hours since the epoch, with fraction. */
  readonly nowEpochH: number
  readonly signal?: AbortSignal
}

/** One forecast for one place. `weather` starts with the hour that contains now. */
export interface SourceForecast {
  /** One member with spread `single`, or the supplier's own members with spread `ensemble`. */
  readonly weather: Weather
  /** What else the supplier said about the uncertainty, so that members can be grown from it. */
  readonly chances: ForecastChances
  /** The forecasts it was blended from; absent for one source's own. */
  readonly blendedFrom?: readonly ComparedForecast[]
  /** SHA-256 of the body as received, hex: the same hash means that nothing changed. */
  readonly rawHash: string
  /** Asking again before this is pointless or against the supplier's terms, hours since the epoch. */
  readonly expiresAtEpochH?: number
  /** Plain remarks for the log: what was repaired, left out or retried. What people must know is in provenance. */
  readonly notes: readonly string[]
}

/** One source's own forecast, kept beside a blend of several so that they can be held against each other. */
export interface ComparedForecast {
  readonly weather: Weather
  readonly chances: ForecastChances
}

/** All arrays have the length and the hours of the forecast they come with; `NaN` = not given. */
export interface ForecastChances extends SaidChances {
  /** Chance of thunder in the hour's block [%]. */
  readonly thunderPct?: Float32Array
}

export interface ForecastSource extends SuppliesWeather {
  fetch(request: WeatherRequest): Promise<SourceForecast>
}

export interface ObservationRequest extends WeatherRequest {
  /** How far back is asked for [h]. */
  readonly hoursBack: number
}

/** What was measured, up to the last full hour before now. */
export interface SourceObservations {
  readonly weather: Weather
  readonly station: Station
  readonly rawHash: string
  readonly notes: readonly string[]
}

export interface Station {
  readonly id: string
  readonly name: string
  readonly place: Place
  /** Great-circle distance from the place asked for [km]. */
  readonly distanceKm: number
}

export interface ObservationSource extends SuppliesWeather {
  fetch(request: ObservationRequest): Promise<SourceObservations>
}

export interface HistoryRequest extends WeatherRequest {
  /** The stretch wanted, whole hours since the epoch, the end not in it. */
  readonly fromEpochH: number
  readonly toEpochH: number
}

/** Weather long past as a service has it: of the stretch asked for, unknown where it has nothing. */
export interface SourceHistory {
  readonly weather: Weather
  readonly rawHash: string
  readonly notes: readonly string[]
}

export interface HistorySource extends SuppliesWeather {
  /** Hours nearer to now than this it does not have yet [h]. */
  readonly lagH: number
  /** First hour it has, hours since the epoch. */
  readonly sinceEpochH: number
  fetch(request: HistoryRequest): Promise<SourceHistory>
}

export interface YearsRequest extends HistoryRequest {
  /** How many years back are looked at. */
  readonly years: number
}

/**
 * The weather of a stretch of the year as it was in each earlier year, as far as it is known, with a few days on either
 * side; one weather a year, none of them of a time later than now.
 */
export type EarlierYears = (request: YearsRequest) => Promise<readonly Weather[]>

export const WARNING_SEVERITIES = ['Extreme', 'Severe', 'Moderate', 'Minor', 'Unknown'] as const
export const WARNING_CERTAINTIES = ['Observed', 'Likely', 'Possible', 'Unlikely', 'Unknown'] as const
export const WARNING_URGENCIES = ['Immediate', 'Expected', 'Future', 'Past', 'Unknown'] as const
export const WARNING_MESSAGE_TYPES = ['Alert', 'Update', 'Cancel'] as const
export const WARNING_STATUSES = ['Actual', 'Exercise', 'System', 'Test', 'Draft'] as const

/**
 * An official warning, with the fields and code values of the Common Alerting Protocol 1.2 (OASIS, 2010).
 * Its words are the issuer's and must be shown unaltered.
 */
export interface Warning {
  readonly id: string
  readonly sender: string
  readonly senderName: string
  readonly status: (typeof WARNING_STATUSES)[number]
  readonly messageType: (typeof WARNING_MESSAGE_TYPES)[number]
  /** Ids of earlier messages that this one updates or cancels. */
  readonly replaces: readonly string[]
  readonly event: string
  readonly category: string
  readonly severity: (typeof WARNING_SEVERITIES)[number]
  readonly certainty: (typeof WARNING_CERTAINTIES)[number]
  readonly urgency: (typeof WARNING_URGENCIES)[number]
  readonly response?: string
  readonly areaDesc: string
  readonly headline?: string
  readonly description?: string
  readonly instruction?: string
  /** All in hours since the epoch, with fraction. */
  readonly sentAtEpochH: number
  readonly effectiveAtEpochH: number
  /** Expected start of the event itself. */
  readonly onsetAtEpochH?: number
  /** When the message (not the event) loses its force. */
  readonly expiresAtEpochH: number
  /** Expected end of the event itself. */
  readonly endsAtEpochH?: number
}

export interface WarningSource extends SuppliesWeather {
  /** Warnings in force for the place, earlier messages that a later one replaces left out. */
  fetch(request: WeatherRequest): Promise<readonly Warning[]>
}
