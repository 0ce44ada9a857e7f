import { describe, expect, it } from 'vitest'
import { reconcileHumidity } from '#edges/sources/humidity.ts'

describe('humidity and dew point', () => {
  it('fill, agree, or cancel each other', () => {
    // FAO-56 (Allen and others 1998), table 2.3: e(15) = 1.705, e(20) = 2.338, e(30) = 4.243 kPa.
    const relHumidity = Float32Array.of(Number.NaN, 0.73, 0.2, Number.NaN, 0.5)
    const dewPointC = Float32Array.of(15, 15, 20, Number.NaN, Number.NaN)
    const airTempC = Float32Array.of(20, 20, 30, 20, 20)
    const remarks = reconcileHumidity(relHumidity, dewPointC, airTempC)
    expect(relHumidity[0]).toBeCloseTo(1.705 / 2.338, 3)
    expect(Array.from(relHumidity.slice(1))).toEqual([Math.fround(0.73), Number.NaN, Number.NaN, 0.5])
    expect(remarks).toEqual([
      '1 h of humidity worked out from the dew point.',
      '1 h of humidity left out: the dew point contradicts it.',
    ])
  })
})
