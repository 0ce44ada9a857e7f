/** The morning message as data: what to say, in numbers and codes, before any word is chosen. */

import type { FireDay } from '#core/outlook/day-fire.ts'
import type { DewTimes, RainAhead } from '#core/outlook/day-weather.ts'
import type { Holdback } from '#core/outlook/holdback.ts'
import type { ChoiceReason } from '#core/planning/optimiser/explain.ts'
import type { Waiting } from '#core/planning/plan.ts'
import type { CropName } from '#core/science/crop.ts'
import type { Visibility } from '#core/science/dust/sight.ts'
import type { OfficialNotice } from '#core/science/fire/care.ts'
import type { Opening } from './opening.ts'

export interface MorningMessage extends Opening {
  readonly headline: Headline
  /** When it should have come, where it comes so late that it must say so. */
  readonly dueEpochH?: number
  /** Age of the weather where it is old enough to be told on the first line [h]. */
  readonly oldWeatherH?: number
  readonly after: readonly SaidRun[]
  readonly leave: readonly SaidLeave[]
  /** Names of fit parts that wait for machines. */
  readonly turns: readonly string[]
  /** Why the first run comes first, where there was a choice. */
  readonly why: SaidWhy | undefined
  /** Fit parts for which there is time today, but that bring more on another day. */
  readonly rest: SaidRest | undefined
  readonly dew: DewTimes
  readonly rain: RainAhead
  readonly fire: SaidFire
  /** False on a day when no crop is ripe and so nobody harvests: ordinary fire care is then not told; a stop always is. */
  readonly tellsFire: boolean
  readonly official: SaidOfficials
  readonly dust: SaidDust | undefined
  /** One for each outfit that runs. */
  readonly hauling: readonly SaidHauling[]
  /** Of the runs told, each once. */
  readonly buyers: readonly SaidBuyer[]
  readonly changes: readonly SaidChange[]
  readonly confidence: SaidConfidence | undefined
  readonly weather: SaidWeather
  readonly cautions: readonly Caution[]
}

export type Headline =
  | { readonly kind: 'run'; readonly run: SaidRun }
  | {
      readonly kind: 'wait'
      readonly nextFieldName: string | undefined
      readonly nextEpochH: number
      readonly chance: number
      readonly reason: Holdback | undefined
    }
  | { readonly kind: 'done' }
  /** `reason` is told to programs, in English; NaN `ageH` = no weather at all. */
  | { readonly kind: 'no-forecast'; readonly reason: string; readonly ageH: number; readonly limitH: number }

export interface SaidRun {
  readonly partName: string
  /** Who cuts it, where more than one outfit runs today. */
  readonly outfitName: string | undefined
  readonly crop: CropName
  readonly startEpochH: number
  readonly endEpochH: number
  readonly startMoistureWb: number
  readonly endMoistureWb: number
  readonly brittle: boolean
  readonly areaHa: number
  readonly ofAreaHa: number
  readonly massT: number
  readonly lbPerBu: number
  readonly truckLoads: number
  readonly combines: number
  readonly chance: number
  /** Names of patches cut through in the same load; its moistures are those of the blend. */
  readonly through?: readonly string[]
}

export interface SaidWhy {
  readonly partName: string
  readonly reason: ChoiceReason
  /** What it loses by each day it waits [money]. */
  readonly perDayWaiting: number
  /** The next best in its place, and what that would cost over the days in sight [money]. */
  readonly instead: { readonly partName: string; readonly costs: number } | undefined
}

export interface SaidRest {
  /** End of the last run; NaN on a day without one. */
  readonly fromEpochH: number
  /** Most to gain first. */
  readonly partNames: readonly string[]
  /** What cutting the first of them after the last run would cost [money]. */
  readonly costs: number
}

export interface SaidLeave {
  readonly partName: string
  readonly crop: CropName
  readonly reason: Waiting['reason']
  readonly moistureWb: number
  readonly nextEpochH: number | undefined
  readonly chance: number
}

export interface SaidFire extends FireDay {
  readonly strawUnder: boolean
  readonly banText: string | undefined
}

export interface SaidOfficials {
  /** The gravest first, few enough to read. */
  readonly quoted: readonly SaidOfficial[]
  /** The issuer could not be asked: there may be others. */
  readonly unread: boolean
}

/** An official warning in the issuer's own words, which are never altered or translated. */
export interface SaidOfficial {
  /** What it means for fire. */
  readonly notice: OfficialNotice
  readonly event: string
  readonly headline: string
  readonly issuer: string
  readonly fromEpochH: number
  readonly untilEpochH: number
}

export interface SaidDust {
  /** Too little wind to plan by: the cloud hangs. */
  readonly calm: boolean
  readonly windFromDeg: number
  readonly windLowMs: number
  readonly windHighMs: number
  /** Bearing of passes across the wind [deg, 0-180); NaN when calm. */
  readonly preferBearingDeg: number
  readonly alongSight: Visibility
  /** Where rows fix the direction. */
  readonly rows: SaidRows | undefined
  readonly staggerM: number
  readonly staggerFails: boolean
  readonly doubled: boolean
}

export interface SaidRows {
  readonly bearingDeg: number
  /** How they lie to the wind. */
  readonly lie: 'across' | 'aslant' | 'along'
  readonly sight: Visibility
}

export interface SaidHauling {
  /** Where more than one outfit runs today. */
  readonly outfitName: string | undefined
  readonly cartsNeeded: number
  readonly cartsThere: number
  readonly trucksNeeded: number
  readonly trucksThere: number
  readonly limitedBy: 'combines' | 'carts' | 'trucks' | 'buyer'
}

export interface SaidBuyer {
  readonly name: string
  readonly closesEpochH: number
}

export type SaidChange =
  | { readonly kind: 'moisture'; readonly partName: string; readonly fromWb: number; readonly toWb: number }
  | {
      readonly kind: 'window-moved'
      readonly partName: string
      readonly edge: 'opens' | 'closes'
      readonly fromEpochH: number
      readonly toEpochH: number
    }
  | { readonly kind: 'first-field'; readonly was: string; readonly now: string }
  | { readonly kind: 'rain'; readonly wasChance: number; readonly chance: number }
  | { readonly kind: 'nothing' }
  | { readonly kind: 'no-yesterday' }

export interface SaidConfidence {
  readonly chance: number
  readonly lowWb: number
  readonly highWb: number
  readonly measured: boolean
  /** Told where the forecasts of late did not hold up against readings. */
  readonly poorRecord?: SaidPoorRecord
}

export interface SaidPoorRecord {
  /** Share of the readings inside the band meant for nine in ten, 0-1. */
  readonly inside90: number
  /** Mean of forecast less reading [points]. */
  readonly biasWb: number
}

/** How far apart the sources are in what they say of today; `NaN` = fewer than two of them know. */
export interface SaidAgreement {
  readonly sources: number
  /** In what they do not agree; empty when they do. */
  readonly differs: readonly ('temperature' | 'humidity' | 'rain')[]
  /** Afternoon temperature [deg C] and humidity [0-1], chance of rain today [0-1]. */
  readonly airTempC: number
  readonly relHumidity: number
  readonly rainChance: number
}

export interface SaidWeather {
  readonly ageH: number
  readonly source: string
  readonly attribution: string
  /** The credit and licence lines of all weather used, as their suppliers ask for them. */
  readonly credits: readonly string[]
  readonly spread: 'observed' | 'ensemble' | 'grown' | 'single'
  readonly members: number
  /** Absent where there are not two sources to compare. */
  readonly agreement?: SaidAgreement
  readonly remarks: readonly string[]
}

export type Caution =
  | 'eyes-first'
  | 'screen-lags'
  | 'fire-local-rules'
  | 'fire-clean'
  | 'fire-away'
  | 'dust-stop'
  | 'power-lines'
