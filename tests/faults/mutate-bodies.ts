/**
 * `node tests/faults/mutate-bodies.ts [RUNS [SEED]]`: breaks each real body at random, half of the time as text, half
 * of the time in its values and shape, and reads what is left. Fails on anything but a named refusal or weather within
 * all bounds, and on a reading that takes longer than a second.
 */
import fc from 'fast-check'
import { isRefused, READERS, reshaped, scribbled } from '#tests/edges/sources/support/mutations.ts'

const LONGEST_MS = 1000
const runs = Number(process.argv[2] ?? 10_000)
const seed = Number(process.argv[3] ?? Date.now() % 2 ** 31)

process.stdout.write(`seed ${seed}\n`)
for (const [name, reader] of Object.entries(READERS)) {
  const whole = JSON.stringify(reader.body)
  let tried = 0
  let refused = 0
  let slowestMs = 0
  fc.assert(
    fc.property(fc.oneof(scribbled(whole), reshaped(whole)), (text) => {
      const start = performance.now()
      if (isRefused(reader, text)) refused++
      const tookMs = performance.now() - start
      tried++
      slowestMs = Math.max(slowestMs, tookMs)
      if (tookMs > LONGEST_MS) throw new Error(`took ${Math.round(tookMs)} ms`)
    }),
    { numRuns: runs, seed, endOnFailure: true },
  )
  process.stdout.write(
    `${name}: ${tried} changed bodies of ${(whole.length / 1000).toFixed(0)} kB, ${refused} refused, ` +
      `${tried - refused} read within all bounds, slowest ${slowestMs.toFixed(0)} ms\n`,
  )
}
