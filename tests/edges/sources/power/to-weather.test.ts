import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { SourceUnitUnknown, SourceUnreadable } from '#app/failures.ts'
import { extraterrestrialWm2 } from '#core/science/air/radiation.ts'
import { epochHourOf } from '#core/units/time.ts'
import { powerAnswerSchema } from '#edges/sources/power/schema.ts'
import { POWER_PARAMETERS, weatherFromPower } from '#edges/sources/power/to-weather.ts'
import { checked } from '#edges/sources/reading.ts'
import { FILL, type PowerBody, powerBody, stampOf } from '#tests/edges/sources/support/power.ts'
import { POWER_SUNLIGHT } from '#tests/truth/power-sunlight.ts'

const TOLD = { source: 'NASA POWER', where: 'https://example.org/' }
const PLACE = { latDeg: 41.2, lonDeg: -96.6, elevationM: 368 }
const START = epochHourOf(Temporal.Instant.from('2024-02-28T00:00Z'))
const read = (body: unknown, startEpochH = START, hours = 72) =>
  weatherFromPower(checked(powerAnswerSchema, body, TOLD), PLACE, { startEpochH, hours }, TOLD)

const middleOf = (values: ArrayLike<number>): number => {
  let [sum, moment] = [0, 0]
  for (let h = 0; h < values.length; h++) {
    sum += values[h]!
    moment += (h + 0.5) * values[h]!
  }
  return moment / sum
}

describe('NASA POWER', () => {
  it('puts each value into the hour that its stamp starts, over the leap day too', () => {
    const weather = read(powerBody(START, 72))
    for (let h = 0; h < 72; h++) {
      const at = START + h
      expect(weather.airTempC[h]).toBeCloseTo(10.25 + (at % 24) / 4, 5)
      expect(weather.relHumidity[h]).toBeCloseTo((50.5 + (at % 24)) / 100, 5)
      expect(weather.rainMm[h]).toBeCloseTo(at % 24 === 6 ? 2.25 : 0, 5)
      expect(weather.windMs[h]).toBeCloseTo(3.5 + (at % 5) / 10, 5)
      expect(weather.windFromDeg[h]).toBeCloseTo((at * 15.5) % 360, 3)
      expect(weather.solarWm2[h]).toBeCloseTo(40.5 * (at % 24), 3)
      expect(weather.gustMs[h]).toBeNaN()
    }
  })

  it('stamps the start of the hour: its own sunlight of a day fits the sun there', () => {
    const { place, from, solarWm2 } = POWER_SUNLIGHT
    const start = epochHourOf(Temporal.Instant.from(from))
    const body = powerBody(start, 24)
    for (const [h, value] of solarWm2.entries())
      body.properties.parameter.ALLSKY_SFC_SW_DWN![stampOf(start + h)] = value
    const given = read(body, start, 24).solarWm2
    const above = Array.from(given, (_, h) => extraterrestrialWm2(place.latDeg, place.lonDeg, start + h))
    for (const [h, wm2] of above.entries()) expect(given[h]!).toBeLessThanOrEqual(wm2)
    // The middle of the light of a fair day is that of the sun; were the stamp the end, it would be an hour off.
    expect(Math.abs(middleOf(given) - middleOf(above))).toBeLessThan(0.1)
  })

  it('takes its own fill value and null for "not known", and hours it does not tell of as well', () => {
    const body = powerBody(START, 48)
    body.properties.parameter.T2M![stampOf(START + 5)] = FILL
    body.properties.parameter.T2M![stampOf(START + 6)] = null
    const { airTempC } = read(body)
    expect(Array.from(airTempC).flatMap((value, h) => (Number.isNaN(value) ? [h] : []))).toEqual([
      5,
      6,
      ...Array.from({ length: 24 }, (_, h) => 48 + h),
    ])
  })

  it.each(POWER_PARAMETERS)('refuses %s in a unit that it does not know, or in none', (name) => {
    const body = powerBody(START, 24)
    body.parameters[name]!.units = 'MJ/hr'
    expect(() => read(body, START, 24)).toThrow(SourceUnitUnknown)
    delete body.parameters[name]
    expect(() => read(body, START, 24)).toThrow(SourceUnitUnknown)
  })

  it('refuses stamps in local solar time', () => {
    const body = powerBody(START, 24)
    body.header.time_standard = 'LST'
    expect(() => read(body, START, 24)).toThrow(SourceUnreadable)
  })

  it('any values by hour come back as they are, or not at all', () => {
    const value = fc.oneof(fc.constant(null), fc.constant(FILL), fc.double({ min: -60, max: 57, noNaN: true }))
    fc.assert(
      fc.property(fc.array(value, { minLength: 24, maxLength: 24 }), (values) => {
        const body: PowerBody = powerBody(START, 24)
        for (const [h, one] of values.entries()) body.properties.parameter.T2M![stampOf(START + h)] = one
        const { airTempC } = read(body, START, 24)
        for (const [h, one] of values.entries())
          if (one === null || one === FILL) expect(airTempC[h]).toBeNaN()
          else expect(airTempC[h]).toBe(Math.fround(one))
      }),
    )
  })
})
