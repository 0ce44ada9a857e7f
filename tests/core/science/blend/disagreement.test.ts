import { describe, expect, it } from 'vitest'
import { oddOnesOut } from '#core/science/blend/disagreement.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const source = (id: string, tempC: number, hours = 72) => ({
  id,
  weather: plainWeather({ startEpochH: 500, hours, set: { airTempC: tempC } }),
})

describe('sources that disagree', () => {
  it('of three, the one that stands alone goes', () => {
    expect(oddOnesOut([source('a', 30), source('b', 18), source('c', 20)], 500, [])).toEqual(['a'])
    expect(oddOnesOut([source('a', 18), source('b', 19), source('c', 20)], 500, [])).toEqual([])
  })

  it('of two, the one farther from what was measured goes; without a measurement the later in order', () => {
    const two = [source('a', 30), source('b', 18)]
    expect(oddOnesOut(two, 500, [17, 18.5])).toEqual(['a'])
    expect(oddOnesOut(two, 500, [29, Number.NaN])).toEqual(['b'])
    expect(oddOnesOut(two, 500, [])).toEqual(['b'])
  })

  it('never all of them, and never on a few hours', () => {
    const three = [source('a', 0), source('b', 20), source('c', 40)]
    expect(oddOnesOut(three, 500, []).length).toBeLessThan(3)
    expect(oddOnesOut([source('a', 30, 4), source('b', 18)], 500, [])).toEqual([])
    expect(oddOnesOut([source('a', 30)], 500, [])).toEqual([])
  })
})
