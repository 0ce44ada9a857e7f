/**
 * Real bodies, broken at random: whatever comes out is either one of our failures or weather within all bounds.
 * `node tests/faults/mutate-bodies.ts` does the same 10,000 times for each body.
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isRefused, READERS, reshaped, scribbled } from './support/mutations.ts'

const RUNS = 300

describe.each(Object.entries(READERS))('%s', (_, reader) => {
  const whole = JSON.stringify(reader.body)

  it('is read when it is whole', () => {
    expect(isRefused(reader, whole)).toBe(false)
  })

  it.each([
    ['cut and scribbled on as text', scribbled(whole)],
    ['changed in its values and its shape', reshaped(whole)],
  ])('survives being %s', (_, mutated) => {
    fc.assert(
      fc.property(mutated, (text) => {
        isRefused(reader, text)
      }),
      { numRuns: RUNS },
    )
  })
})
