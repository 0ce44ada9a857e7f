/** What someone saw happen to a part of a field in the season. Never changed once taken in. */
interface Seen {
  readonly id: string
  /** Key of the part (`FieldPart.key`). */
  readonly partKey: string
  /** When it was seen, hours since the epoch, with fraction. */
  readonly atEpochH: number
  /** Id of the person who saw or entered it. */
  readonly who: string
}

/** Physiologically mature on that day: brown pod, black layer, hard dough. */
export interface MaturitySeen extends Seen {
  readonly kind: 'maturity-seen'
}

/** Looked at and not yet mature. */
export interface StillGreenSeen extends Seen {
  readonly kind: 'still-green-seen'
}

/** Green again after late rain: the part ripens that many days later than it would have [d]. */
export interface Regreened extends Seen {
  readonly kind: 'regreened'
  readonly laterDays: number
}

export type FieldEvent = MaturitySeen | StillGreenSeen | Regreened
