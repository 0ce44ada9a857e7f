import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { SourceTooOld, SourceUnreadable } from '#app/failures.ts'
import { checked, checkIssued } from '#edges/sources/reading.ts'

const TOLD = { source: 'S', where: 'https://example.org/' }

describe('reading a body', () => {
  const schema = z.object({ a: z.array(z.object({ b: z.number() })) })
  it('names the place inside it that is wrong', () => {
    expect(checked(schema, { a: [{ b: 1 }], c: 2 }, TOLD)).toEqual({ a: [{ b: 1 }] })
    const run = () => checked(schema, { a: [{ b: 1 }, { b: 'x' }] }, TOLD)
    expect(run).toThrow(SourceUnreadable)
    expect(run).toThrow('at "a.1.b"')
  })

  it.each([Number.NaN, Number.POSITIVE_INFINITY, null, undefined])('takes no %s for a number', (b) => {
    expect(() => checked(schema, { a: [{ b }] }, TOLD)).toThrow(SourceUnreadable)
  })

  it('refuses what is older than 36 h, or of tomorrow', () => {
    expect(checkIssued(64, 100, TOLD)).toBe(64)
    expect(checkIssued(101, 100, TOLD)).toBe(101)
    expect(() => checkIssued(63.9, 100, TOLD)).toThrow(SourceTooOld)
    expect(() => checkIssued(101.1, 100, TOLD)).toThrow(/clock of this machine/)
    expect(() => checkIssued(Number.NaN, 100, TOLD)).toThrow(SourceUnreadable)
  })
})
