/** How a buyer pays for a load by its moisture, per tonne. */
import { pencilShrink } from './shrink.ts'

/**
 * One step of a buyer's printed table. It holds from `fromWb` up to the next step of the list:
 * `base` at once, and `add` more for every full `every` points above `fromWb`.
 */
export interface Tier {
  /** Lowest moisture of the step [% wet basis]. */
  readonly fromWb: number
  readonly base: number
  /** [points, above 0] */
  readonly every: number
  readonly add: number
}

/**
 * Terms for one crop. The linear rates alone describe many buyers; a table given for one deduction takes the place of
 * its linear rate. Tables are listed by rising `fromWb`; below the first step the deduction is nil.
 */
export interface PaymentTerms {
  /** Price of a tonne of paid weight [money/t]. */
  readonly pricePerT: number
  /** [% wet basis] */
  readonly standardMoistureWb: number
  /** Weight deducted per point above standard [% of wet weight per point]. */
  readonly shrinkPerPoint: number
  /** Price deducted per point above standard [% of the price per point]. */
  readonly dockPerPoint: number
  /** Drying charge per wet tonne and point above standard [money/(t point)]. */
  readonly dryingPerTPoint: number
  /** Wetter loads are refused [% wet basis]. */
  readonly refuseAboveWb?: number
  /** Weight deducted [% of wet weight]. */
  readonly shrinkTable?: readonly Tier[]
  /** Price deducted [% of the price]. */
  readonly dockTable?: readonly Tier[]
  /** Drying charge [money per wet tonne]. */
  readonly dryingTable?: readonly Tier[]
}

export interface Delivery {
  readonly terms: PaymentTerms
  /** Moisture of the load [% wet basis]. */
  readonly moistureWb: number
  /** What crosses the scale [t]. */
  readonly wetMassT: number
}

export interface Payment {
  readonly refused: boolean
  /** Weight he pays for [t]. */
  readonly paidT: number
  /** Paid weight times the full price, for each delivered tonne [money/t]. */
  readonly grossPerT: number
  /** Deduction from the price for moisture, whole load [money]. */
  readonly dock: number
  /** Drying charge, whole load [money]. */
  readonly drying: number
  /** What comes home for the load, before hauling [money]. */
  readonly net: number
}

const REFUSED: Payment = { refused: true, paidT: 0, grossPerT: 0, dock: 0, drying: 0, net: 0 }
/** Moisture is read to a tenth or a hundredth; this keeps 22.0 - 17.6 from falling short of 4.4 [points]. */
const READING_SLACK = 1e-6

/**
 * Deduction by a printed table.
 *
 * @param table steps by rising `fromWb`.
 * @param moistureWb moisture of the load [% wet basis, 0-100).
 * @returns deduction [unit of the table]; 0 below the first step; NaN when not known.
 * Form: base + add x whole steps. Checked: tests/truth/losses.ts (a northern elevator's public schedule of 2023, five rows).
 */
export function tableDeduction(table: readonly Tier[], moistureWb: number): number {
  if (!(moistureWb >= 0 && moistureWb < 100)) return Number.NaN
  const step = table.findLast((tier) => moistureWb + READING_SLACK >= tier.fromWb)
  if (step === undefined) return 0
  return step.base + step.add * Math.floor((moistureWb - step.fromWb + READING_SLACK) / step.every)
}

/**
 * What a buyer pays for a load.
 *
 * @param delivery terms, moisture [% wet basis, 0-100) and wet mass [t, 0 or more] of the load.
 * @returns the reckoning; every number NaN when an input is not known or out of range. A refused load pays nothing.
 * Form: net = paid x price x (1 - dock) - wet x drying, paid = wet x (1 - shrink); nothing is added for dry grain.
 * Checked: tests/truth/losses.ts (Michigan State soybean 15-18 %; Iowa State A2-32 corn; elevator schedule 2023).
 * Left out: test weight, damage, foreign matter, hauling.
 */
export function payment({ terms, moistureWb, wetMassT }: Delivery): Payment {
  if (terms.refuseAboveWb !== undefined && moistureWb > terms.refuseAboveWb && moistureWb < 100) return REFUSED
  const mass = wetMassT >= 0 ? wetMassT : Number.NaN
  const linearShrink = pencilShrink(moistureWb, terms.standardMoistureWb, terms.shrinkPerPoint)
  const pointsOver = Number.isNaN(linearShrink) ? Number.NaN : Math.max(0, moistureWb - terms.standardMoistureWb)
  const shrink = terms.shrinkTable ? Math.min(1, tableDeduction(terms.shrinkTable, moistureWb) / 100) : linearShrink
  const dockShare =
    (terms.dockTable ? tableDeduction(terms.dockTable, moistureWb) : terms.dockPerPoint * pointsOver) / 100
  const dryingPerT = terms.dryingTable
    ? tableDeduction(terms.dryingTable, moistureWb)
    : terms.dryingPerTPoint * pointsOver

  const paidT = mass * (1 - shrink)
  const gross = paidT * terms.pricePerT
  const dock = gross * Math.min(1, dockShare)
  const drying = mass * dryingPerT
  return {
    refused: false,
    paidT,
    grossPerT: (1 - shrink) * terms.pricePerT,
    dock,
    drying,
    net: gross - dock - drying,
  }
}
