/**
 * The outside world failed. Small classes, each with its evidence; edges translate what they meet into these.
 * What is expected and about data (stale forecast, a variable missing) is data, not one of these.
 */
import type { FaultFacts, Silence } from './source-fault.ts'

interface Told {
  /** Name of the supplier as shown to people. */
  readonly source: string
  /** Where it went wrong: an address without secrets, a path inside a body, a file and line. */
  readonly where: string
  /** What a person can do about it. */
  readonly cure: string
  readonly cause?: unknown
}

export abstract class SourceFailure extends Error {
  readonly source: string
  readonly where: string
  readonly cure: string
  abstract readonly facts: FaultFacts

  constructor(what: string, told: Told) {
    super(
      `${told.source}: ${what} (${told.where}). ${told.cure}`,
      told.cause === undefined ? {} : { cause: told.cause },
    )
    this.name = new.target.name
    this.source = told.source
    this.where = told.where
    this.cure = told.cure
  }
}

/** No answer: no connection, no name, too slow, cut off on the way. */
export class SourceUnreachable extends SourceFailure {
  readonly facts: FaultFacts

  constructor(what: string, told: Omit<Told, 'cure'> & { cure?: string; silence?: Silence | undefined }) {
    super(what, {
      ...told,
      cure: told.cure ?? 'It will be asked again; if this goes on, check the network and its status page.',
    })
    this.facts = { kind: 'unreachable', silence: told.silence }
  }
}

/** An answer that says no: any status other than success. */
export class SourceRefused extends SourceFailure {
  readonly status: number
  /** When it may be asked again [s], if it said so. */
  readonly retryAfterS: number | undefined
  readonly facts: FaultFacts

  constructor(status: number, said: string, told: Omit<Told, 'cure'> & { cure?: string; retryAfterS?: number }) {
    super(`answered ${status}${said === '' ? '' : `, "${said}"`}`, { ...told, cure: told.cure ?? cureOfStatus(status) })
    this.status = status
    this.retryAfterS = told.retryAfterS
    this.facts = { kind: 'refused', status, said }
  }
}

function cureOfStatus(status: number): string {
  if (status === 429) return 'Too many questions: wait, and ask less often.'
  if (status === 401 || status === 403)
    return 'Check the contact address in the settings (it names us to the supplier) and the key, if one is needed.'
  if (status === 404 || status === 422) return 'Check the coordinates: the supplier may not cover this place.'
  if (status >= 500) return 'The supplier has trouble; it will be asked again.'
  return 'Check the settings of this source.'
}

/** An answer that is not what it should be: cut off, a web page, a missing part, an impossible series. */
export class SourceUnreadable extends SourceFailure {
  readonly facts: FaultFacts

  constructor(
    what: string,
    told: Omit<Told, 'cure'> & { cure?: string; why?: Extract<FaultFacts, { kind: 'unreadable' }>['why'] },
  ) {
    super(what, {
      ...told,
      cure:
        told.cure ?? 'Nothing of it was used; it will be asked again. If this goes on, the supplier changed its form.',
    })
    this.facts = { kind: 'unreadable', why: told.why }
  }
}

/** A value whose unit is not one we know; guessing could be off by a factor of ten. */
export class SourceUnitUnknown extends SourceFailure {
  readonly variable: string
  readonly unit: string
  readonly facts: FaultFacts

  constructor(variable: string, unit: string, told: Omit<Told, 'cure'>) {
    super(`${variable} comes in an unknown unit "${unit}"`, {
      ...told,
      cure: 'Nothing of it was used. Report this so that the unit can be added.',
    })
    this.variable = variable
    this.unit = unit
    this.facts = { kind: 'unit-unknown', variable, unit }
  }
}

/** An answer that was made too long ago. */
export class SourceTooOld extends SourceFailure {
  /** Age when it was read [h]. */
  readonly ageH: number
  readonly limitH: number
  readonly facts: FaultFacts

  constructor(ageH: number, limitH: number, told: Omit<Told, 'cure'>) {
    super(`what it has is ${Math.round(ageH)} h old, the limit is ${limitH} h`, {
      ...told,
      cure: 'Another source is used if there is one; look at the sky and at a forecast you trust.',
    })
    this.ageH = ageH
    this.limitH = limitH
    this.facts = { kind: 'too-old', ageH, limitH }
  }
}

/** A readable answer in which too much is missing or impossible to work with. */
export class SourceTooThin extends SourceFailure {
  readonly variable: string
  /** Share of the hours that is known, 0-1. */
  readonly knownShare: number
  readonly facts: FaultFacts

  constructor(variable: string, knownShare: number, told: Omit<Told, 'cure'>) {
    super(`${variable} is known in only ${Math.floor(knownShare * 100)} % of the hours`, {
      ...told,
      cure: 'Nothing of it was used; another source is used if there is one.',
    })
    this.variable = variable
    this.knownShare = knownShare
    this.facts = { kind: 'too-thin', variable, knownShare }
  }
}
