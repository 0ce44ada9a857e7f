/**
 * Fields alike lend each other strength: same crop, variety class and planting.
 *
 * Each coordinate of a particle is split in two, z = sqrt(share) x bent + sqrt(1 - share) x own, both standard normal; the
 * bent is common to the group (a hierarchical prior: Gelman et al., Bayesian Data Analysis, ch. 5). A field never measured
 * thus moves towards its measured neighbours, and stays wider than they are.
 */

import { PARTICLE_DIMS } from '#core/field/particles.ts'
import type { FieldPart } from '#core/field/parts.ts'
import { NOTHING_TOLD, type Normal, SharedUnknown, type Told, toldBy } from './shared.ts'

/** Share of the variance that is common to the group, for each coordinate of a particle; choice, no source. */
export const BENT_SHARE = 0.5
/** Fields planted with no longer break between one and the next belong together [d]; choice. */
const LONGEST_BREAK_D = 5

/** @returns the parts in groups that lend each other strength, in an order that depends on their keys alone. */
export function alikeGroups(parts: readonly FieldPart[]): FieldPart[][] {
  const inOrder = parts.toSorted(
    (a, b) =>
      compareText(kindOf(a), kindOf(b)) ||
      Temporal.PlainDate.compare(a.field.plantedOn, b.field.plantedOn) ||
      compareText(a.key, b.key),
  )
  const groups: FieldPart[][] = []
  for (const part of inOrder) {
    const group = groups.at(-1)
    const last = group?.at(-1)
    const alike =
      last !== undefined &&
      kindOf(last) === kindOf(part) &&
      last.field.plantedOn.until(part.field.plantedOn).days <= LONGEST_BREAK_D
    if (alike) group!.push(part)
    else groups.push([part])
  }
  return groups
}

const kindOf = ({ field }: FieldPart): string =>
  [field.crop, field.maturityGroup, field.relativeMaturity, field.followsWheat].join('|')

/** By code units, so that no locale changes the order. */
export const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** Prior of the coordinates of a part that hears nothing of its neighbours. */
export const UNBENT: readonly Normal[] = Array.from({ length: PARTICLE_DIMS }, () => ({ mean: 0, sd: 1 }))

/** The bent of one group. */
export class Bent {
  readonly #unknowns = Array.from({ length: PARTICLE_DIMS }, () => new SharedUnknown({ mean: 0, sd: 1 }))
  #heard = false

  /** Prior of the coordinates of a part, from what all others of the group have told. */
  priorFor(key: string): readonly Normal[] {
    if (!this.#heard) return UNBENT
    return this.#unknowns.map((unknown) => {
      const { mean, sd } = unknown.belief(key)
      return { mean: Math.sqrt(BENT_SHARE) * mean, sd: Math.sqrt(BENT_SHARE * sd * sd + 1 - BENT_SHARE) }
    })
  }

  /** @param belief of the coordinates of a part after its readings. @param prior from which it started. */
  tell(key: string, belief: readonly Normal[], prior: readonly Normal[]): void {
    for (let d = 0; d < PARTICLE_DIMS; d++) {
      const told = throughOwn(toldBy(belief[d]!, prior[d]!))
      if (told.precision > 0) this.#heard = true
      this.#unknowns[d]!.tell(key, told)
    }
  }
}

/** What is told of a coordinate says less of the bent: the part's own share blurs it. */
function throughOwn({ precision, pull }: Told): Told {
  if (precision <= 0) return NOTHING_TOLD
  const blurred = 1 / (1 / precision + 1 - BENT_SHARE)
  return { precision: BENT_SHARE * blurred, pull: Math.sqrt(BENT_SHARE) * (pull / precision) * blurred }
}
