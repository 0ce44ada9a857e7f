import { describe, expect, it } from 'vitest'
import {
  SourceFailure,
  SourceRefused,
  SourceTooOld,
  SourceTooThin,
  SourceUnitUnknown,
  SourceUnreachable,
  SourceUnreadable,
} from '#app/failures.ts'

const told = { source: 'Service', where: 'https://example.org/forecast' }
const cause = new Error('socket hang up')

describe('a failure of a source', () => {
  it.each([
    [new SourceUnreachable('took too long', { ...told, cause }), 'SourceUnreachable', 'took too long'],
    [new SourceRefused(503, 'busy', { ...told, cause }), 'SourceRefused', 'answered 503, "busy"'],
    [new SourceUnreadable('its answer is empty', { ...told, cause }), 'SourceUnreadable', 'is empty'],
    [new SourceUnitUnknown('temperature', 'degR', { ...told, cause }), 'SourceUnitUnknown', 'unknown unit "degR"'],
    [new SourceTooOld(50.4, 36, { ...told, cause }), 'SourceTooOld', '50 h old, the limit is 36 h'],
    [new SourceTooThin('humidity', 0.499, { ...told, cause }), 'SourceTooThin', 'humidity is known in only 49 %'],
  ])('%s names the source, what, where and a cure, and keeps its cause', (failure, name, what) => {
    expect(failure).toBeInstanceOf(SourceFailure)
    expect(failure.name).toBe(name)
    expect(failure.message).toBe(`Service: ${failure.message.slice(9, -failure.cure.length - 2)}. ${failure.cure}`)
    for (const part of [what, told.where, failure.cure]) expect(failure.message).toContain(part)
    expect(failure.cure.length).toBeGreaterThan(10)
    expect(failure.cause).toBe(cause)
  })

  it.each([
    [429, 'wait'],
    [401, 'key'],
    [403, 'contact'],
    [404, 'coordinates'],
    [422, 'coordinates'],
    [500, 'asked again'],
    [418, 'settings'],
  ])('a refusal with %i advises: %s', (status, advice) => {
    expect(new SourceRefused(status, '', told).message).toContain(advice)
  })

  it('carries its evidence', () => {
    expect(new SourceRefused(429, '', { ...told, retryAfterS: 30 }).retryAfterS).toBe(30)
    expect(new SourceRefused(404, '', told).retryAfterS).toBeUndefined()
    expect(new SourceUnitUnknown('wind', 'furlong', told)).toMatchObject({ variable: 'wind', unit: 'furlong' })
    expect(new SourceTooThin('wind', 0.2, told)).toMatchObject({ variable: 'wind', knownShare: 0.2 })
    expect(new SourceTooOld(40, 36, told)).toMatchObject({ ageH: 40, limitH: 36 })
    expect('cause' in new SourceTooOld(40, 36, told)).toBe(false)
    expect(new SourceUnreadable('x', { ...told, cure: 'Correct the file.' }).message).toMatch(/Correct the file\.$/)
  })
})
