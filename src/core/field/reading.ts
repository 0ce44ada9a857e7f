/** A measured moisture: what, where, when, by which instrument and by whom. Never changed once taken in. */

/** A combine's own meter, a meter carried by hand, or a buyer's certified meter as printed on the ticket of a load. */
export type InstrumentKind = 'combine' | 'hand' | 'ticket'

export interface Instrument {
  /** Stable key on this farm: a combine's or hand meter's name, the buyer's id for tickets. */
  readonly id: string
  readonly kind: InstrumentKind
  /** Random error of one reading, standard deviation [points]; `USUAL_SD_WB` where the farm told nothing. */
  readonly sdWb: number
  /** What it is known to read too high, below 0 too low [points]; absent = not known, to be learned. */
  readonly offsetWb?: number
}

/** Part of the grain of a reading that came from another part of the field. */
export interface BlendShare {
  readonly partKey: string
  /** Share of the load's weight, 0-1. */
  readonly share: number
}

export interface Reading {
  /** Stable and unique; the same reading sent twice has the same id. Equal times are ordered by it. */
  readonly id: string
  /** Key of the part that was measured (`FieldPart.key`): field id, or field id and patch id joined by a slash. */
  readonly partKey: string
  /** When the grain was in the field as measured: for a ticket when it was cut. Hours since the epoch, with fraction. */
  readonly atEpochH: number
  /** As the instrument showed it [% wet basis]. */
  readonly moistureWb: number
  readonly instrument: Instrument
  /** Id of the person who took or entered it. */
  readonly who: string
  /** Patches cut through in the same load; what is left of the load is of `partKey`. */
  readonly blend?: readonly BlendShare[]
}

/** Readings outside are not moistures of a standing crop [% wet basis]. */
export const LOWEST_READING_WB = 3
export const HIGHEST_READING_WB = 85
