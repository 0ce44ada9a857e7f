import { describe, expect, it } from 'vitest'
import { expiresAtMs, headerOf, httpDateMs, retryAfterS } from '#edges/http/headers.ts'

const NOW = Date.UTC(1994, 10, 6, 8, 49, 37)

describe('headers', () => {
  // RFC 9110, section 5.6.7: the preferred form of a date is "Sun, 06 Nov 1994 08:49:37 GMT".
  it('know the preferred form of a date and no other', () => {
    expect(httpDateMs('Sun, 06 Nov 1994 08:49:37 GMT')).toBe(NOW)
    for (const text of ['', '0', '-1', '1994-11-06', 'Sunday, 06-Nov-94 08:49:37 GMT', 'Sun, 06 Nov 1994 08:49:37 CET'])
      expect(httpDateMs(text)).toBeNaN()
  })

  // RFC 9110, section 10.2.3: "Retry-After: 120" and a date.
  it('say when to ask again', () => {
    expect(retryAfterS({ 'retry-after': '120' }, NOW)).toBe(120)
    expect(retryAfterS({ 'retry-after': 'Sun, 06 Nov 1994 08:51:37 GMT' }, NOW)).toBe(120)
    expect(retryAfterS({ 'retry-after': 'Sun, 06 Nov 1994 08:40:00 GMT' }, NOW)).toBe(0)
    for (const text of ['', 'soon', '-5', '1.5']) expect(retryAfterS({ 'retry-after': text }, NOW)).toBeUndefined()
    expect(retryAfterS({}, NOW)).toBeUndefined()
  })

  it('say how long an answer is fresh', () => {
    expect(expiresAtMs({ 'cache-control': 'public, s-maxage=9, max-age=60', age: '10' }, NOW)).toBe(NOW + 50_000)
    expect(expiresAtMs({ 'cache-control': 'max-age=60', age: '100' }, NOW)).toBe(NOW)
    expect(expiresAtMs({ 'cache-control': 'no-cache', expires: 'Sun, 06 Nov 1994 08:49:38 GMT' }, NOW)).toBe(
      NOW + 1_000,
    )
    expect(expiresAtMs({ expires: '0' }, NOW)).toBeUndefined()
  })

  it('given twice count once', () => {
    expect(headerOf({ age: ['1', '2'] }, 'age')).toBe('1')
    expect(headerOf({}, 'age')).toBe('')
  })
})
