/** Alerts as data: what happened, in numbers and codes, before any word is chosen. */
import type { CropName } from '#core/science/crop.ts'
import type { Visibility } from '#core/science/dust/sight.ts'

/** In the order in which a person wants to hear them. */
export const ALERT_KINDS = [
  'fire-stop',
  'official-warning',
  'rain',
  'fire-care',
  'dust',
  'too-wet',
  'dew',
  'soft-ground',
  'plan-changed',
  'over-dry',
  'meter-disagrees',
  'sources-down',
] as const
export type AlertKind = (typeof ALERT_KINDS)[number]

export type SaidAlert =
  | SaidFireAlert
  | SaidOfficial
  | SaidRainAlert
  | SaidDustAlert
  | SaidTooWet
  | SaidDewEarly
  | SaidSoftGround
  | SaidPlanChanged
  | SaidOverDry
  | SaidMeter
  | SaidSources

export interface SaidFireAlert {
  readonly kind: 'fire-stop' | 'fire-care'
  readonly fromEpochH: number
  readonly untilEpochH: number
  readonly relHumidity: number
  readonly gustMs: number
  /** The words of a ban in force, as the farm was told them. */
  readonly banText: string | undefined
}

export interface SaidOfficial {
  readonly kind: 'official-warning'
  /** The issuer's own words. */
  readonly headline: string
  readonly issuer: string
  readonly untilEpochH: number
}

export interface SaidRainAlert {
  readonly kind: 'rain'
  readonly partNames: readonly string[]
  readonly arrivesEpochH: number
  readonly endsEpochH: number
  readonly chance: number
  readonly amountMm: number
}

export interface SaidDustAlert {
  readonly kind: 'dust'
  readonly partName: string
  readonly windFromDeg: number
  readonly windMs: number
  readonly sight: Visibility
  /** Across the wind [deg, 0-180). */
  readonly preferBearingDeg: number
  readonly rowsFixed: boolean
  readonly untilEpochH: number
}

export interface SaidTooWet {
  readonly kind: 'too-wet'
  readonly partNames: readonly string[]
  readonly crop: CropName
  readonly moistureWb: number
  readonly limitWb: number
  /** When it is likely fit again; NaN = not in sight. */
  readonly fitAgainEpochH: number
}

export interface SaidDewEarly {
  readonly kind: 'dew'
  readonly partNames: readonly string[]
  readonly closesEpochH: number
  readonly toldEpochH: number
}

export interface SaidSoftGround {
  readonly kind: 'soft-ground'
  readonly partNames: readonly string[]
  readonly carriesAgainEpochH: number
}

export interface SaidPlanChanged {
  readonly kind: 'plan-changed'
  /** Whose plan, where the farm has more than one outfit. */
  readonly outfitName?: string
  /** What is run now; undefined = nothing any more. */
  readonly now: { readonly partName: string; readonly startEpochH: number; readonly endEpochH: number } | undefined
  readonly was: string
}

export interface SaidOverDry {
  readonly kind: 'over-dry'
  readonly partNames: readonly string[]
  readonly crop: CropName
  readonly lowWb: number
  /** When the first of them leaves its band downwards. */
  readonly leavesEpochH: number
}

export interface SaidMeter {
  readonly kind: 'meter-disagrees'
  readonly partName: string
  readonly readWb: number
  readonly expectedWb: number
}

export interface SaidSources {
  readonly kind: 'sources-down'
  readonly ageH: number
  readonly limitH: number
}

/** How bad it looks now: what a state machine is fed with. */
export interface AlertReading {
  readonly kind: AlertKind
  /** What it is about within its kind: a part, a notice; empty for the farm as a whole. */
  readonly subject: string
  /** Higher is worse; NaN = not known, which changes nothing; -Infinity = no longer of interest. */
  readonly evidence: number
  /** Whether it may start an alert now; one that is on already goes on and ends either way. */
  readonly mayStart: boolean
  readonly said: SaidAlert
}

export interface Alert {
  readonly phase: 'start' | 'end'
  /** The same for start and end of one alert. */
  readonly id: string
  readonly sinceEpochH: number
  readonly atEpochH: number
  readonly said: SaidAlert
}

export const isUrgent = (alert: Pick<Alert, 'said'>): boolean =>
  alert.said.kind === 'fire-stop' || alert.said.kind === 'official-warning'
