/**
 * The farm file holds bare numbers; `units: us | metric` decides how each is read. This table is the only place
 * where a unit of the farm file is named, limited and converted.
 *
 * Limits are there to catch a slip of the pen or of the unit, not to judge a farm: common practice, no source.
 */

import { z } from 'zod'
import type { UnitSystem } from '#core/operation/farm.ts'
import { HA_PER_ACRE, KM_PER_MI, L_PER_BUSHEL, M_PER_FT, MS_PER_KMH, MS_PER_MPH } from '#core/units/convert.ts'

/** The unit system of a file, or `either` for the editor's schema, which cannot know it. */
export type UnitsOfFile = UnitSystem | 'either'

interface UnitOf {
  readonly unit: string
  readonly min: number
  readonly max: number
  /** SI value of one unit; NaN where the crop decides (see to-farm). */
  readonly si: number
}

const BY_CROP = Number.NaN

const QUANTITY = {
  elevation: { us: unit('ft', -1000, 15000, M_PER_FT), metric: unit('m', -300, 4600, 1) },
  area: { us: unit('acres', 0.1, 20000, HA_PER_ACRE), metric: unit('ha', 0.04, 8000, 1) },
  haul: { us: unit('mi', 0, 500, KM_PER_MI), metric: unit('km', 0, 800, 1) },
  headWidth: { us: unit('ft', 4, 80, M_PER_FT), metric: unit('m', 1.2, 25, 1) },
  fieldSpeed: { us: unit('mph', 0.5, 10, MS_PER_MPH), metric: unit('km/h', 0.8, 16, MS_PER_KMH) },
  roadSpeed: { us: unit('mph', 5, 75, MS_PER_MPH), metric: unit('km/h', 8, 120, MS_PER_KMH) },
  tank: { us: unit('bu', 50, 800, L_PER_BUSHEL), metric: unit('L', 1500, 28000, 1) },
  load: { us: unit('bu', 50, 3000, L_PER_BUSHEL), metric: unit('L', 1500, 105000, 1) },
  unload: { us: unit('bu/s', 0.3, 30, L_PER_BUSHEL), metric: unit('L/s', 10, 1000, 1) },
  windSpeed: { us: unit('mph', 5, 100, MS_PER_MPH), metric: unit('km/h', 8, 160, MS_PER_KMH) },
  usualYield: { us: unit('bu/acre', 1, 500, BY_CROP), metric: unit('t/ha', 0.1, 30, 1) },
  price: { us: unit('per bu', 0.1, 200, BY_CROP), metric: unit('per t', 5, 8000, 1) },
  drying: { us: unit('per bu and point', 0, 1, BY_CROP), metric: unit('per t and point', 0, 40, 1) },
  hourlyLimit: { us: unit('bu/h', 50, 200_000, BY_CROP), metric: unit('t/h', 1, 5000, BY_CROP) },
  wetBin: { us: unit('bu', 0, 500_000, BY_CROP), metric: unit('t', 0, 15_000, BY_CROP) },
  dailyLimit: { us: unit('bu', 50, 5_000_000, BY_CROP), metric: unit('t', 1, 150_000, 1) },
} as const satisfies { readonly [name: string]: { readonly [U in UnitSystem]: UnitOf } }
export type Quantity = keyof typeof QUANTITY

function unit(name: string, min: number, max: number, si: number): UnitOf {
  return { unit: name, min, max, si }
}

export const unitOf = (quantity: Quantity, units: UnitSystem): string => QUANTITY[quantity][units].unit

/** @returns the value in SI. Quantities in bushels by weight need the crop: see to-farm. */
export const toSi = (value: number, quantity: Quantity, units: UnitSystem): number =>
  value * QUANTITY[quantity][units].si

/** @returns the SI value in the farm's unit. */
export const fromSi = (value: number, quantity: Quantity, units: UnitSystem): number =>
  value / QUANTITY[quantity][units].si

/** A bare number of the farm file with its limits, documented in both systems. */
export function quantity(units: UnitsOfFile, name: Quantity, meaning: string) {
  const { us, metric } = QUANTITY[name]
  if (units !== 'either') {
    const own = QUANTITY[name][units]
    return z
      .number()
      .min(own.min)
      .max(own.max)
      .describe(`${meaning} A number in ${own.unit}, ${own.min} to ${own.max}.`)
  }
  return z
    .number()
    .min(Math.min(us.min, metric.min))
    .max(Math.max(us.max, metric.max))
    .describe(
      `${meaning} A number in ${us.unit} (units: us), ${us.min} to ${us.max}, ` +
        `or in ${metric.unit} (units: metric), ${metric.min} to ${metric.max}.`,
    )
}
