import { describe, expect, it } from 'vitest'
import { SourceUnitUnknown, SourceUnreadable } from '#app/failures.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { weatherFromHourly } from '#edges/sources/nws/hourly.ts'
import { hourlySchema, type NwsPeriod } from '#edges/sources/nws/schema.ts'
import { bodyOf } from '#tests/edges/sources/support/bodies.ts'

const TOLD = { source: 'NWS', where: 'here' }
const FLORIDA = { latDeg: 30, lonDeg: -85, elevationM: 8 }
const NOW = epochHoursOf(Temporal.Instant.from('2019-10-15T00:13:00Z'))
function read(change: Partial<NwsPeriod> = {}) {
  const body = hourlySchema.parse(bodyOf('nws/hourly_TAE_two_periods.json'))
  Object.assign(body.properties.periods[0]!, change)
  return weatherFromHourly(body, FLORIDA, NOW, TOLD)
}

describe('the text forecast recorded 2019-10-14, two periods', () => {
  const { weather, chances } = read()

  // By eye: 20:00-04:00 (= 00Z) 25.5 C, chance 20 %, "0 km/h" from S; then 25 C, SW.
  it('turns local stamps into UTC hours', () => {
    expect([weather.startEpochH, weather.hours]).toEqual([Math.floor(NOW), 2])
    expect(Array.from(weather.airTempC)).toEqual([25.5, 25])
    expect(Array.from(weather.windMs)).toEqual([0, 0])
    expect(Array.from(weather.windFromDeg)).toEqual([180, 225])
    expect(Array.from(chances.popPct!)).toEqual([20, 20])
  })

  it('does not know the rain where it may rain, nor a humidity that its dew point contradicts', () => {
    expect(weather.rainMm.every(Number.isNaN)).toBe(true)
    // Its authors edited the dew point to 5 deg C: at 25.5 deg C that is 27 %, the body says 63 %.
    expect(weather.relHumidity.every(Number.isNaN)).toBe(true)
  })
})

describe('a period of the text forecast', () => {
  it.each([
    ['10 mph', 4.4704],
    ['9 to 13 mph', 13 * 0.44704],
    ['18 km/h', 5],
    ['', Number.NaN],
    [null, Number.NaN],
  ])('with the wind "%s"', (windSpeed, expected) => {
    expect(read({ windSpeed }).weather.windMs[0]).toBe(Math.fround(expected))
  })

  it('with quantities instead of words', () => {
    const { weather } = read({
      windSpeed: { unitCode: 'wmoUnit:km_h-1', value: 10, maxValue: 18 },
      temperature: { unitCode: 'wmoUnit:degC', value: 21 },
    })
    expect([weather.windMs[0], weather.airTempC[0]]).toEqual([5, 21])
  })

  it('in Fahrenheit', () => {
    expect(read({ temperature: 50, temperatureUnit: 'F' }).weather.airTempC[0]).toBe(10)
  })

  it.each(['breezy', '10', '10 20 mph', '-5 mph'])('with the wind "%s" is refused', (windSpeed) => {
    expect(() => read({ windSpeed })).toThrow(SourceUnreadable)
  })

  it.each([{ windSpeed: '10 furlongs' }, { temperatureUnit: 'R' }, { temperatureUnit: null }])(
    '%j is refused',
    (change) => {
      expect(() => read(change)).toThrow(SourceUnitUnknown)
    },
  )

  it('dry for sure has no rain', () => {
    const { weather } = read({ probabilityOfPrecipitation: { unitCode: 'wmoUnit:percent', value: 0 } })
    expect(weather.rainMm[0]).toBe(0)
    expect(weather.rainMm[1]).toBeNaN()
  })

  it('gets its sunlight from the cloud word of its icon', () => {
    const noon = (icon: string | null) => {
      const body = hourlySchema.parse(bodyOf('nws/hourly_TAE_two_periods.json'))
      body.properties.updateTime = '2019-10-15T16:00:00Z'
      Object.assign(body.properties.periods[0]!, { startTime: '2019-10-15T13:00:00-04:00', icon })
      return weatherFromHourly(body, FLORIDA, NOW + 17, TOLD).weather.solarWm2[0]!
    }
    const at = (word: string) => noon(`https://api.weather.gov/icons/land/day/${word}?size=small`)
    expect(at('skc')).toBeGreaterThan(at('sct'))
    expect(at('wind_sct')).toBe(at('sct'))
    expect(at('sct')).toBeGreaterThan(at('bkn'))
    expect(at('bkn')).toBeGreaterThan(at('ovc'))
    expect(at('rain_showers,40')).toBe(at('ovc'))
    expect(at('tsra,20/sct')).toBe(at('sct'))
    expect(at('frogs')).toBeNaN()
    expect(noon(null)).toBeNaN()
  })

  it('out of every hour asked for is refused', () => {
    const body = hourlySchema.parse(bodyOf('nws/hourly_TAE_two_periods.json'))
    expect(() => weatherFromHourly(body, FLORIDA, NOW + 10, TOLD)).toThrow(/0 % of the hours/)
    expect(() => read({ startTime: 'tonight' })).toThrow(SourceUnreadable)
  })
})
