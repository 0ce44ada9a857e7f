/** The outlook of one part of a field: hour by hour, course by course, and what can be said of it. */
import type { FieldPart } from '#core/field/parts.ts'
import type { Holdback } from './holdback.ts'

export interface Outlook {
  readonly part: FieldPart
  readonly startEpochH: number
  readonly hours: number
  /** A course pairs one particle of the field with one member of the weather; all equally likely. */
  readonly courses: number
  /** Grain moisture at the end of each hour, course by course [% wet basis]. */
  readonly moistureWb: Float32Array
  /** Share of the yield lost while standing at the end of each hour, course by course [0-1]. */
  readonly standingLoss: Float32Array
  /** Holdback bits, course by course; 0 = fit. */
  readonly holdbackBits: Uint16Array
  /** Share of courses in which the hour is fit, 0-1; NaN where nothing is known. */
  readonly fitChance: Float32Array
  /** Moisture across the courses: median and the ends of the middle 80 % [% wet basis]. */
  readonly medianWb: Float32Array
  readonly lowWb: Float32Array
  readonly highWb: Float32Array
  readonly windows: readonly FitWindow[]
  /** Share of the usual pace at which an outfit gets on, by hour; absent = the usual pace throughout. */
  readonly pace?: Float32Array
}

export interface FitWindow {
  /** Hours since the epoch, with fraction. */
  readonly startEpochH: number
  readonly endEpochH: number
  /** Share of courses in which the window holds: fit in at least four hours of five. */
  readonly chance: number
  /** Median over the courses in which its first and last hour is fit [% wet basis]. */
  readonly startMoistureWb: number
  readonly endMoistureWb: number
  /** Middle 80 % of the moisture over its hours and courses that are fit [% wet basis]. */
  readonly lowWb: number
  readonly highWb: number
  /** What opens it and what closes it: the commonest holdback before and after. */
  readonly opensAfter: Holdback | undefined
  readonly closesWith: Holdback | undefined
}
