/** A book in memory on the base farm, at noon of 20 September 2010. */

import type { Book } from '#app/records.ts'
import { parseFarm } from '#edges/config/load.ts'
import { openRecordStore } from '#edges/storage/records.ts'
import { BASE } from '#tests/edges/config/base-farm.ts'

/** 2010-09-20T17:00Z, noon at the base farm, hours since the epoch. */
export const NOON = 356_945

export async function memoryBook(): Promise<Book> {
  return { farm: parseFarm(BASE, 'farm.yaml').farm, store: await openRecordStore(':memory:'), nowEpochH: NOON }
}
