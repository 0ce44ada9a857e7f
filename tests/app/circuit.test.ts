import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { afterFailure, afterSuccess, CLOSED, passage } from '#app/circuit.ts'

const failed = (times: number, at: number) => {
  let circuit = CLOSED
  for (let i = 0; i < times; i++) circuit = afterFailure(circuit, at)
  return circuit
}

describe('the circuit of a channel', () => {
  it('lets all pass until the third failure in a row, then urgent ones only, then one to try the way', () => {
    expect(passage(failed(2, 100), 100)).toBe('all')
    const open = failed(3, 100)
    expect(passage(open, 100.001)).toBe('urgent')
    expect(passage(open, 100 + 1 / 60)).toBe('one')
    expect(passage(afterSuccess(), 100)).toBe('all')
  })
  it('never stays open for more than a quarter of an hour, also where the clock is set back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 60 }), fc.double({ min: -48, max: 48, noNaN: true }), (times, step) => {
        const open = failed(times, 1000)
        if (step >= 0.25 || step < -1e-9) return passage(open, 1000 + step) !== 'all'
        return true
      }),
    )
    expect(passage(failed(20, 1000), 1000.26)).toBe('one')
    expect(passage(failed(20, 1000), 990)).toBe('one')
  })
})
