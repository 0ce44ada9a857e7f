import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { editDistance, FarmFileError, faultText, MISSING, nearest } from '#edges/config/faults.ts'

describe('distance between words', () => {
  it.each([
    // Textbook pair for Levenshtein 1966: three changes.
    ['kitten', 'sitting', 3],
    // Optimal string alignment of CA and ABC is 3 where the unrestricted distance is 2 (Boytsov 2011, J. Exp. Alg. 16).
    ['CA', 'ABC', 3],
    ['tank', 'tnak', 1],
    ['centre', 'center', 1],
    ['', 'abc', 3],
  ])('%s to %s is %i', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance)
  })

  it('is symmetric, zero only for the same word, and at most the longer word', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 12 }), fc.string({ maxLength: 12 }), (a, b) => {
        const distance = editDistance(a, b)
        expect(distance).toBe(editDistance(b, a))
        expect(distance === 0).toBe(a === b)
        expect(distance).toBeLessThanOrEqual(Math.max(a.length, b.length))
        expect(distance).toBeGreaterThanOrEqual(Math.abs(a.length - b.length))
      }),
    )
  })
})

describe('nearest word', () => {
  it('suggests a slip and keeps silent on another word', () => {
    expect(nearest('Rivr Huose', ['Hill House', 'River House'])).toBe('River House')
    expect(nearest('speed', ['name', 'width', 'tank'])).toBeUndefined()
    expect(nearest('x', [])).toBeUndefined()
  })
})

describe('the words of a fault', () => {
  const fault = { file: 'a.yaml', line: 3, column: 5, path: 'units', value: 'si', problem: 'is odd', cure: 'Mend it.' }

  it('name file, line, path, value, problem and cure', () => {
    expect(faultText(fault)).toBe('a.yaml:3:5  units: si is odd. Mend it.')
    expect(faultText({ ...fault, value: MISSING, problem: 'is missing' })).toBe(
      'a.yaml:3:5  units: is missing. Mend it.',
    )
    expect(faultText({ ...fault, path: '' })).toBe('a.yaml:3:5  si is odd. Mend it.')
  })

  it('count themselves', () => {
    expect(new FarmFileError([fault]).message).toMatch(/^1 fault in/)
    expect(new FarmFileError([fault, fault]).message).toMatch(/^2 faults in/)
  })
})
