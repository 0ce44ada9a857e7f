/** What has come off a field so far: area, grain, yield and moisture. */
import type { Field } from '#core/operation/farm.ts'
import type { Cut } from './cut.ts'
import { partsOf } from './parts.ts'

export interface Harvested {
  /** Area cut of all parts [ha]. */
  readonly areaHa: number
  /** Grain weighed [t]; NaN = none was. */
  readonly massT: number
  /** Yield as cut, of the loads that were weighed [t/ha]; NaN = none was. */
  readonly yieldTHa: number
  /** Mean moisture of the loads that were measured [% wet basis]; NaN = none was. */
  readonly moistureWb: number
}

/**
 * Sums the cuts of a field. A load counts by its weight where it was weighed, else by its area at the yield of the others.
 * @param cuts those that hold, of this farm; others than the field's are left aside.
 */
export function harvestedOf(field: Field, cuts: readonly Cut[]): Harvested {
  const keys = new Set(partsOf(field).map(({ key }) => key))
  const own = cuts.filter(({ partKey }) => keys.has(partKey))
  const weighed = own.filter(({ massT }) => massT !== undefined)
  const massT = weighed.length === 0 ? Number.NaN : sum(weighed, ({ massT: mass = 0 }) => mass)
  const yieldTHa = massT / sum(weighed, ({ areaHa }) => areaHa)
  const measured = own.filter(({ moistureWb }) => moistureWb !== undefined)
  // Where nothing was weighed, area stands for weight.
  const weight = (cut: Cut) => cut.massT ?? cut.areaHa * (Number.isNaN(yieldTHa) ? 1 : yieldTHa)
  return {
    areaHa: sum(own, ({ areaHa }) => areaHa),
    massT,
    yieldTHa,
    moistureWb: sum(measured, (cut) => (cut.moistureWb ?? 0) * weight(cut)) / sum(measured, weight),
  }
}

const sum = (cuts: readonly Cut[], value: (cut: Cut) => number): number =>
  cuts.reduce((total, cut) => total + value(cut), 0)
