/**
 * A process that takes many readings at once and says so line by line, for a test that kills it at any moment.
 * Arguments: database, number of readings, name of whoever sends. Each line: `<number> <answer>`, written only once answered;
 * with `hasty` as fourth argument before, as a bad sample that the test must find out.
 */
import { writeSync } from 'node:fs'
import { takeReading } from '#app/records.ts'
import { openRecordStore } from '#edges/storage/records.ts'
import { killFarm, TOLD_AT, toldReading } from '#tests/faults/support/kill-farm.ts'

const [where = '', count = '0', by = '', manner] = process.argv.slice(2)
const store = await openRecordStore(where)
const book = { farm: killFarm(), store, nowEpochH: TOLD_AT }
writeSync(1, 'ready\n')
await Promise.all(
  Array.from({ length: Number(count) }, async (_, n) => {
    if (manner === 'hasty') writeSync(1, `${n} kept\n`)
    const answer = await takeReading(book, toldReading(n, by))
    if (manner !== 'hasty') writeSync(1, `${n} ${answer.kind}\n`)
  }),
)
await store.close()
