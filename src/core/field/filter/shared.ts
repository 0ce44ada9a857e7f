/**
 * What several fields have in common and each tells something of: the offset of an instrument, the bent of a variety.
 *
 * Each field is filtered on its own against what all the OTHERS say of the shared unknown (the cavity), and answers with
 * what it adds to that. So no reading is counted twice, and a far field's ticket still sets a combine's offset right.
 * This is expectation propagation with normal messages (Minka 2001, doi:10.48550/arXiv.1301.2294).
 */

/** What one field adds, in the form in which normals multiply: precision, and precision times mean. */
export interface Told {
  readonly precision: number
  readonly pull: number
}

export interface Normal {
  readonly mean: number
  readonly sd: number
}

/** Less gain than this is within the chance of a few hundred particles: nothing was told. */
const LEAST_NARROWING = 0.9

export const NOTHING_TOLD: Told = { precision: 0, pull: 0 }

/** What a field adds: its belief divided by the cavity it started from. */
export function toldBy(belief: Normal, cavity: Normal): Told {
  const narrowing = (belief.sd / cavity.sd) ** 2
  if (!(narrowing < LEAST_NARROWING)) return NOTHING_TOLD
  // A cloud collapsed on one point would claim to know everything.
  const sd = Math.max(belief.sd, 0.02 * cavity.sd)
  return {
    precision: 1 / sd ** 2 - 1 / cavity.sd ** 2,
    pull: belief.mean / sd ** 2 - cavity.mean / cavity.sd ** 2,
  }
}

export class SharedUnknown {
  readonly #prior: Normal
  readonly #told = new Map<string, Told>()

  constructor(prior: Normal) {
    this.#prior = prior
  }

  /** @param from key of the field that speaks; what it said before is replaced. */
  tell(from: string, told: Told): void {
    this.#told.set(from, told)
  }

  /** What is believed without the field of that key; with all of them when no key is given. */
  belief(without?: string): Normal {
    let precision = 1 / this.#prior.sd ** 2
    let pull = this.#prior.mean * precision
    for (const [from, told] of this.#told) {
      if (from === without) continue
      precision += told.precision
      pull += told.pull
    }
    return { mean: pull / precision, sd: 1 / Math.sqrt(precision) }
  }
}
