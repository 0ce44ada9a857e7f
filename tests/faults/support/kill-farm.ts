/** The farm and the readings that sender and checker of the kill test both know. */

import type { ToldReading } from '#app/records.ts'
import type { Farm } from '#core/operation/farm.ts'
import { parseFarm } from '#edges/config/load.ts'
import { BASE } from '#tests/edges/config/base-farm.ts'

/** Noon of 20 September 2010, UTC, hours since the epoch. */
export const TOLD_AT = 356_940

export const killFarm = (): Farm => parseFarm(BASE, 'farm.yaml').farm

/** @returns a reading whose moisture tells its number, so that a mix-up would show. */
export const toldReading = (n: number, by: string): ToldReading => ({
  field: 'Alpha',
  moistureWb: moistureOf(n),
  at: TOLD_AT - n / 100,
  instrument: { kind: 'hand' },
  by,
  key: `reading-${n}`,
})

export const moistureOf = (n: number): number => 10 + n / 100
