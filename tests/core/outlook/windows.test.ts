import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { HOLDBACK_BIT, type Holdback } from '#core/outlook/holdback.ts'
import { commonestHoldback, findWindows, fitMoistureWb, type WindowInput } from '#core/outlook/windows.ts'

const COURSES = 10
const START = 1000

/** An hour fit in so many of ten courses: the last ones are held back by what is named. */
function given(fit: readonly number[], by: (hour: number) => Holdback = () => 'wet-grain'): WindowInput {
  const hours = fit.length
  const holdbackBits = new Uint16Array(COURSES * hours)
  const moistureWb = new Float32Array(COURSES * hours)
  for (let c = 0; c < COURSES; c++) {
    for (let h = 0; h < hours; h++) {
      holdbackBits[c * hours + h] = c < fit[h]! ? 0 : HOLDBACK_BIT[by(h)]
      moistureWb[c * hours + h] = 15 - h + c / 10
    }
  }
  return {
    startEpochH: START,
    hours,
    courses: COURSES,
    moistureWb,
    holdbackBits,
    fitChance: Float32Array.from(fit, (n) => n / COURSES),
  }
}

const spans = (fit: readonly number[]) =>
  findWindows(given(fit)).map((w) => [w.startEpochH - START, w.endEpochH - START].map((h) => Math.round(h * 100) / 100))

describe('where a window lies', () => {
  it('is from the first likely hour to the last, on the stamps where all courses agree', () => {
    expect(spans([0, 0, 10, 10, 10, 0])).toEqual([[2, 5]])
  })

  it('opens and closes inside its hours as the courses turn: half of them, half an hour', () => {
    expect(spans([0, 5, 10, 10, 8, 0])).toEqual([[1.5, 4.8]])
  })

  it('begins and ends with the series where it is cut off by it', () => {
    expect(spans([10, 10, 0])).toEqual([[0, 2]])
    expect(spans([0, 10, 10])).toEqual([[1, 3]])
    expect(spans([5, 5])).toEqual([[0, 2]])
  })

  it('is split by an hour that is rather not fit, and half of the courses are enough', () => {
    expect(spans([0, 10, 10, 4, 10, 10, 0])).toEqual([
      [1, 3],
      [4, 6],
    ])
    expect(spans([0, 10, 5, 10, 0])).toEqual([[1, 4]])
  })

  it('is none at all when nothing is likely, when there are no hours, or when less than an hour is left of it', () => {
    expect(spans([4, 4, 4])).toEqual([])
    expect(spans([])).toEqual([])
    expect(spans([0, 5, 0])).toEqual([])
    expect(spans([0, 9, 0])).toEqual([])
    expect(spans([0, 10, 0])).toEqual([[1, 2]])
    expect(spans([0, 5, 5, 0])).toEqual([[1.5, 2.5]])
  })
})

describe('what is said of a window', () => {
  it('the chance is the share of courses that are fit in four hours of five', () => {
    const input = given([10, 10, 10, 10, 10])
    // Course 0 loses one hour of five and keeps the window, course 1 loses two.
    input.holdbackBits[1] = HOLDBACK_BIT.rain
    input.holdbackBits[input.hours] = HOLDBACK_BIT.rain
    input.holdbackBits[input.hours + 1] = HOLDBACK_BIT.rain
    expect(findWindows(input)[0]!.chance).toBeCloseTo(0.9, 12)
  })

  it('moisture is the median over the courses in its first and last hour, and 80 % of all lie between low and high', () => {
    const [window] = findWindows(given([0, 10, 10, 10, 0]))
    expect(window!.startMoistureWb).toBeCloseTo(14 + 0.45, 5)
    expect(window!.endMoistureWb).toBeCloseTo(12 + 0.45, 5)
    expect(window!.lowWb).toBeLessThan(window!.endMoistureWb)
    expect(window!.highWb).toBeGreaterThan(window!.startMoistureWb)
  })

  it('what opens and closes it is the commonest holdback beside it; none at the ends of the series', () => {
    const by = (hour: number): Holdback => (hour === 0 ? 'wet-plants' : 'dark')
    const [window] = findWindows(given([0, 10, 10, 0], by))
    expect([window!.opensAfter, window!.closesWith]).toEqual(['wet-plants', 'dark'])
    const [whole] = findWindows(given([10, 10]))
    expect([whole!.opensAfter, whole!.closesWith]).toEqual([undefined, undefined])
  })
})

describe('the commonest holdback', () => {
  it('is the one of most courses, the more pressing of two alike, and none where all are fit', () => {
    const input = given([0])
    input.holdbackBits.fill(HOLDBACK_BIT.wind | HOLDBACK_BIT.dark)
    expect(commonestHoldback(input, 0)).toBe('wind')
    input.holdbackBits.fill(HOLDBACK_BIT.dark, 0, 6)
    expect(commonestHoldback(input, 0)).toBe('dark')
    expect(commonestHoldback(given([10]), 0)).toBeUndefined()
    expect(commonestHoldback(input, -1)).toBeUndefined()
    expect(commonestHoldback(input, 1)).toBeUndefined()
  })
})

describe('whatever the chances', () => {
  it('windows are ordered, apart, inside the series, an hour or longer, and hold no unlikely hour', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: COURSES }), { maxLength: 80 }), (fit) => {
        let last = START
        for (const window of findWindows(given(fit))) {
          expect(window.startEpochH).toBeGreaterThanOrEqual(last)
          expect(window.endEpochH - window.startEpochH).toBeGreaterThanOrEqual(1)
          expect(window.endEpochH).toBeLessThanOrEqual(START + fit.length)
          expect(window.chance).toBeGreaterThanOrEqual(0)
          expect(window.chance).toBeLessThanOrEqual(1)
          const first = Math.floor(window.startEpochH - START)
          for (let h = first; h < Math.ceil(window.endEpochH - START); h++) expect(fit[h]).toBeGreaterThanOrEqual(5)
          last = window.endEpochH
        }
      }),
    )
  })
})

describe('moisture of a fit hour', () => {
  it('is the median of the courses in which it is fit, so that a field that may be green is told as it would be cut', () => {
    const wet = HOLDBACK_BIT['wet-grain']
    const input = {
      hours: 1,
      courses: 5,
      moistureWb: Float32Array.of(10, 40, 11, 45, 12),
      holdbackBits: Uint16Array.of(0, wet, 0, wet, 0),
    }
    expect(fitMoistureWb(input, 0)).toBe(11)
    expect(fitMoistureWb({ ...input, holdbackBits: new Uint16Array(5).fill(wet) }, 0)).toBe(12)
  })
})
