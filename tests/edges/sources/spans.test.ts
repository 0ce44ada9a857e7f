import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { inOrder, meansOf, mostOf, type Span, sharesOf } from '#edges/sources/spans.ts'

const GRID = { startEpochH: 100, hours: 6 }
const span = (from: number, to: number, value: number): Span => ({ fromEpochH: from, toEpochH: to, value })
const list = (values: Float32Array) => Array.from(values)
const GONE = Number.NaN

describe('spans brought to hours', () => {
  it('repeat a state, average it where spans meet inside an hour, keep gaps', () => {
    const spans = [span(98, 102.5, 10), span(102.5, 104, 20), span(105, 106, 30)]
    expect(list(meansOf(spans, GRID))).toEqual([10, 10, 15, 20, GONE, 30])
  })

  it('take a state from half an hour, not from less', () => {
    expect(list(meansOf([span(100.5, 102.4, 1)], GRID))).toEqual([1, 1, GONE, GONE, GONE, GONE])
  })

  it('spread a sum by overlap; an hour not wholly covered is unknown', () => {
    // 6 mm in six hours of which the first three are over; 3 mm in an hour and a half.
    expect(list(sharesOf([span(97, 103, 6), span(103, 104.5, 3)], GRID))).toEqual([1, 1, 1, 2, GONE, GONE])
  })

  it('keep an unknown sum unknown, also where it shares an hour', () => {
    expect(list(sharesOf([span(100, 102, GONE), span(102, 103, 1)], GRID))).toEqual([GONE, GONE, 1, GONE, GONE, GONE])
  })

  it('give a direction or a chance by the larger part of the hour', () => {
    expect(list(mostOf([span(100, 101.6, 350), span(101.6, 103, 10)], GRID))).toEqual([350, 350, 10, GONE, GONE, GONE])
  })

  it('lose no rain and make none', () => {
    const lengths = fc.array(
      fc.record({ minutes: fc.integer({ min: 1, max: 600 }), mm: fc.double({ min: 0, max: 50, noNaN: true }) }),
      {
        minLength: 1,
        maxLength: 20,
      },
    )
    fc.assert(
      fc.property(lengths, (parts) => {
        let at = 100
        const spans = parts.map(({ minutes, mm }) => {
          const from = at
          at += minutes / 60
          return span(from, at, mm)
        })
        const grid = { startEpochH: 100, hours: Math.ceil(at - 100) + 1 }
        const padded = [...spans, span(at, at + 2, 0)]
        const total = parts.reduce((sum, { mm }) => sum + mm, 0)
        const known = list(sharesOf(padded, grid)).filter((mm) => !Number.isNaN(mm))
        expect(Math.abs(known.reduce((sum, mm) => sum + mm, 0) - total)).toBeLessThan(1e-3 + total * 1e-5)
      }),
    )
  })
})

describe('spans in order', () => {
  it('stay as they are, gaps and all', () => {
    const spans = [span(1, 2, 0), span(2, 3, 0), span(5, 6, 0)]
    expect(inOrder(spans)).toEqual(spans)
  })

  it('give way to a later one by up to an hour', () => {
    expect(inOrder([span(1, 4, 7), span(3, 5, 8)])).toEqual([span(1, 3, 7), span(3, 5, 8)])
    expect(inOrder([span(1, 2, 7), span(1, 2, 8)])).toEqual([span(1, 2, 8)])
  })

  it.each([
    ['an overlap of two hours', [span(1, 5, 0), span(3, 6, 0)]],
    ['a step back', [span(3, 4, 0), span(1, 2, 0)]],
    ['a long span twice', [span(1, 7, 0), span(1, 7, 0)]],
  ])('are none with %s', (_, spans) => {
    expect(inOrder(spans)).toBeUndefined()
  })
})
