import { expect, test } from 'vitest'
import { askTimes } from '#app/ask-times.ts'
import { SourceRefused } from '#app/failures.ts'

test('not before the source has news, and not all at the same minute', () => {
  const early = askTimes(() => 0)
  const late = askTimes(() => 1)
  for (const times of [early, late]) times.succeeded('a', 100, 101)
  expect(early.isDue('a', 100.9)).toBe(false)
  expect(early.isDue('a', 101)).toBe(true)
  expect(late.isDue('a', 101.1)).toBe(false)
  expect(late.isDue('a', 101.2)).toBe(true)
})

test('a source that asks for a pause gets it (RFC 9110, 10.2.3)', () => {
  const times = askTimes(() => 0)
  times.failed('a', 100, new SourceRefused(429, '', { source: 'a', where: 'b', retryAfterS: 7200 }))
  expect(times.isDue('a', 101.9)).toBe(false)
  expect(times.isDue('a', 102)).toBe(true)
})

test('a clock set back does not shut a source for long', () => {
  const times = askTimes(() => 0)
  times.succeeded('a', 1000, 1001)
  expect(times.isDue('a', 500)).toBe(true)
})
