import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { WEATHER_VARIABLES } from '#core/units/weather.ts'
import { POSSIBLE } from '#edges/sources/screen.ts'
import { packFloats } from '#edges/storage/weather-bytes.ts'
import { packShorts, unpackShorts } from '#edges/storage/weather-shorts.ts'
import { champaignAutumn } from '#tests/support/champaign.ts'

/** Half of a step of each variable, in its unit. */
const HALF_STEP = {
  airTempC: 0.005,
  relHumidity: 0.00005,
  rainMm: 0.005,
  windMs: 0.005,
  gustMs: 0.005,
  windFromDeg: 0.05,
  solarWm2: 0.05,
}

describe('a year in 16 bits', () => {
  it('comes back within half a step, whatever is possible, and not known as not known', () => {
    const hour = fc.record(
      Object.fromEntries(
        WEATHER_VARIABLES.map((name) => {
          const { low, high } = POSSIBLE[name]
          return [
            name,
            fc.oneof(
              { weight: 4, arbitrary: fc.double({ min: low, max: high, noNaN: true }) },
              fc.constant(Number.NaN),
            ),
          ]
        }),
      ),
    )
    fc.assert(
      fc.property(fc.array(hour, { minLength: 1, maxLength: 60 }), (hours) => {
        const arrays = Object.fromEntries(
          WEATHER_VARIABLES.map((name) => [name, Float32Array.from(hours, (one) => one[name]!)]),
        ) as Parameters<typeof packShorts>[0]
        const back = unpackShorts(packShorts(arrays), hours.length)
        for (const name of WEATHER_VARIABLES)
          for (let h = 0; h < hours.length; h++) {
            const value = arrays[name][h]!
            if (Number.isNaN(value)) expect(back[name][h]).toBeNaN()
            else expect(Math.abs(back[name][h]! - value)).toBeLessThanOrEqual(HALF_STEP[name] * 1.01 + 1e-5)
          }
      }),
    )
  })

  it('keeps what is too large for any weather as not known, never as another number', () => {
    const arrays = Object.fromEntries(
      WEATHER_VARIABLES.map((name) => [name, Float32Array.of(1e9, Number.POSITIVE_INFINITY, -1e9, 1)]),
    ) as Parameters<typeof packShorts>[0]
    for (const name of WEATHER_VARIABLES)
      expect([...unpackShorts(packShorts(arrays), 4)[name]]).toEqual([Number.NaN, Number.NaN, Number.NaN, 1])
  })

  it('takes a fifth of the room of plain floats, and less than those deflated, on a real autumn', () => {
    const autumn = champaignAutumn(2009)
    const floats = WEATHER_VARIABLES.map((name) => autumn[name])
    const small = packShorts(autumn).length
    expect(small).toBeLessThan(0.2 * autumn.hours * floats.length * Float32Array.BYTES_PER_ELEMENT)
    expect(small).toBeLessThan(0.65 * packFloats(floats).length)
  })

  it('refuses a row that is not of that many hours', () => {
    const packed = packShorts(champaignAutumn(2009))
    expect(() => unpackShorts(packed, 10)).toThrow(RangeError)
    expect(() => unpackShorts(packed, 4000)).toThrow(RangeError)
  })
})
