import { describe, expect, it } from 'vitest'
import { SourceTooOld, SourceUnitUnknown, SourceUnreadable } from '#app/failures.ts'
import { relHumidityFromDewPoint } from '#core/science/air/vapour.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { gridpointSchema, type NwsGridpoint } from '#edges/sources/nws/schema.ts'
import { weatherFromGridpoint } from '#edges/sources/nws/to-weather.ts'
import { bodyOf, resolved, resolvedNebraska } from '#tests/edges/sources/support/bodies.ts'

const TOLD = { source: 'NWS', where: 'https://api.weather.gov/gridpoints/TAE/58,65' }
const at = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const FLORIDA = { latDeg: 30.02, lonDeg: -84.98, elevationM: 4 }
const NEBRASKA = { latDeg: 41.212, lonDeg: -96.623, elevationM: 368 }

describe('the gridded forecast of Tallahassee, recorded 2022-02-03', () => {
  const body = gridpointSchema.parse(bodyOf('nws/gridpoint_TAE_2022.json'))
  const now = at('2022-02-04T03:20:00Z')
  const { weather, chances } = weatherFromGridpoint(body, FLORIDA, now, TOLD)
  const hour = (text: string) => at(text) - weather.startEpochH

  it('starts with the hour of now, ends with its temperatures, keeps the time of issue', () => {
    expect(weather.startEpochH).toBe(at('2022-02-04T03:00Z'))
    // validTimes 2022-02-03T21:00 + P7DT14H = 2022-02-11T11:00Z.
    expect(weather.startEpochH + weather.hours).toBe(at('2022-02-11T11:00Z'))
    expect(weather.provenance.issuedAtEpochH).toBeCloseTo(at('2022-02-04T03:15:41Z'), 9)
    expect([weather.members, weather.provenance.spread]).toEqual([1, 'single'])
  })

  // Read by eye from the body: "2022-02-04T01:00:00+00:00/PT10H" 18.888 degC, then 11:00/PT1H 18.333, 12:00 17.777.
  it('repeats a temperature through its span of ten hours', () => {
    for (let h = hour('2022-02-04T03:00Z'); h < hour('2022-02-04T11:00Z'); h++)
      expect(weather.airTempC[h]).toBeCloseTo(18.8889, 4)
    expect(weather.airTempC[hour('2022-02-04T11:00Z')]).toBeCloseTo(18.3333, 4)
    expect(weather.airTempC[hour('2022-02-04T12:00Z')]).toBeCloseTo(17.7778, 4)
  })

  it('spreads each sum of rain over its hours and loses none of it', () => {
    const values = body.properties.quantitativePrecipitation.values
    // Third value of the body: 2.032 mm in the six hours from 06:00Z.
    expect(values[2]).toEqual({ validTime: '2022-02-04T06:00:00+00:00/PT6H', value: 2.032 })
    expect(weather.rainMm[hour('2022-02-04T06:00Z')]).toBeCloseTo(2.032 / 6, 6)
    expect(weather.rainMm[hour('2022-02-04T11:00Z')]).toBeCloseTo(2.032 / 6, 6)
    expect(weather.rainMm[hour('2022-02-04T05:00Z')]).toBe(0)
    const told = values.slice(2).reduce((sum, { value }) => sum + (value ?? 0), 0)
    const spread = weather.rainMm.slice(3).reduce((sum, mm) => sum + (Number.isNaN(mm) ? 0 : mm), 0)
    expect(spread).toBeCloseTo(told, 4)
  })

  it('leaves rain unknown where its layer ends before the temperatures', () => {
    const last = body.properties.quantitativePrecipitation.values.at(-1)!
    expect(last.validTime).toBe('2022-02-10T06:00:00+00:00/PT6H')
    expect(weather.rainMm[hour('2022-02-10T11:00Z')]).not.toBeNaN()
    for (let h = hour('2022-02-10T12:00Z'); h < weather.hours; h++) expect(weather.rainMm[h]).toBeNaN()
  })

  it('turns km/h into m/s and per cent into shares', () => {
    const values = body.properties.windSpeed.values.find(({ validTime }) => validTime.startsWith('2022-02-04T04:00'))
    expect(values?.value).toBe(14.816)
    expect(weather.windMs[hour('2022-02-04T04:00Z')]).toBeCloseTo(4.11556, 4)
    expect(weather.relHumidity[hour('2022-02-04T11:00Z')]).toBeCloseTo(1, 6)
    expect(weather.windFromDeg[0]).toBe(170)
  })

  it('keeps the chance of rain with the block it belongs to', () => {
    expect(Array.from(chances.popPct!.slice(0, 7))).toEqual([1, 1, 1, 20, 20, 20, 31])
    expect(Array.from(chances.popBlockH!.slice(3, 9))).toEqual([3, 3, 3, 3, 3, 3])
    const empty = chances.thunderPct!
    expect(empty.every(Number.isNaN)).toBe(true)
  })

  it('has the sun up by day only: sunrise 7:25, sunset 18:16 local on that day (US Naval Observatory, from memory)', () => {
    // 12:25Z and 23:16Z; the hours fully outside are dark, noon is bright though clouded.
    expect(weather.solarWm2[hour('2022-02-04T11:00Z')]).toBe(0)
    expect(weather.solarWm2[hour('2022-02-05T00:00Z')]).toBe(0)
    expect(weather.solarWm2[hour('2022-02-04T18:00Z')]).toBeGreaterThan(100)
  })

  it('has a humidity and a dew point that agree', () => {
    const rows = body.properties
    const dew = rows.dewpoint!.values[0]!
    // Both layers are rounded by the service (dew point to whole deg F, humidity to whole per cent).
    expect(relHumidityFromDewPoint(22.7778, dew.value!)).toBeCloseTo(rows.relativeHumidity!.values[0]!.value! / 100, 1)
    expect(weather.provenance.remarks).toEqual(['Sunlight is estimated from cloud cover.'])
  })
})

describe('the gridded forecast of Nebraska, templated', () => {
  const now = at('2024-12-03T02:00Z') + 2503 / 3600
  const body = gridpointSchema.parse(resolvedNebraska(now))
  const { weather, chances } = weatherFromGridpoint(body, NEBRASKA, now, TOLD)

  it('reads spans with days and merged chances', () => {
    // The first hours by eye: 01:00/PT2H -7.22, 03:00/PT1H -6.67, 04:00/PT2H -7.22 degC.
    expect(Array.from(weather.airTempC.slice(0, 4), (c) => c.toFixed(2))).toEqual(['-7.22', '-6.67', '-7.22', '-7.22'])
    // 0 % for P2DT15H from six hours before now: all of the next two days, each block of 6 h.
    expect(Array.from(chances.popPct!.slice(0, 48)).every((pct) => pct === 0)).toBe(true)
    expect(new Set(chances.popBlockH)).toEqual(new Set([6]))
    expect(weather.hours).toBe(166)
    expect(weather.rainMm.slice(0, 160).every((mm) => mm === 0)).toBe(true)
  })

  it('takes over the later span where the plain marks overlap by an hour', () => {
    const plain = gridpointSchema.parse(resolved(bodyOf('nws/templated_gridpoint_OAX_59_58_raw.json'), now))
    const { airTempC, relHumidity } = weatherFromGridpoint(plain, NEBRASKA, now, TOLD).weather
    expect(airTempC.every((c) => c > -30 && c < 30)).toBe(true)
    expect(relHumidity.every((share) => share > 0 && share <= 1)).toBe(true)
  })
})

describe('the gridded forecast of Minnesota, templated to the second', () => {
  const hour = at('2024-11-03T06:00Z') + 2335 / 3600
  const body = gridpointSchema.parse(resolved(bodyOf('nws/templated_gridpoint_MPX_raw.json'), hour + 0.01, hour))
  const { weather, chances } = weatherFromGridpoint(
    body,
    { latDeg: 45, lonDeg: -93.16, elevationM: 290 },
    hour + 0.01,
    TOLD,
  )

  it('copes with stamps a second off the hour', () => {
    // 8.0 deg F steps by eye: 4.44, 7.22, 9.44, 10.56 degC.
    const expected = [4.444, 7.222, 9.444, 10.556]
    expected.forEach((c, h) => {
      expect(weather.airTempC[h]).toBeCloseTo(c, 1)
    })
    expect(weather.rainMm.slice(0, 24).every((mm) => mm === 0)).toBe(true)
  })

  it('tells hourly chances from six-hourly ones', () => {
    expect(chances.popBlockH![0]).toBe(1)
    expect(chances.popBlockH!.at(-1)).toBe(6)
  })
})

describe('a gridded forecast that is wrong', () => {
  const now = at('2022-02-04T03:20:00Z')
  const read = (change: (properties: NwsGridpoint['properties']) => void, nowEpochH = now) => {
    const body = gridpointSchema.parse(bodyOf('nws/gridpoint_TAE_2022.json'))
    change(body.properties)
    return () => weatherFromGridpoint(body, FLORIDA, nowEpochH, TOLD)
  }

  it.each(['temperature', 'windSpeed', 'quantitativePrecipitation', 'skyCover', 'relativeHumidity'] as const)(
    'in the unit of %s is refused by name',
    (name) => {
      for (const uom of ['wmoUnit:furlong', '', undefined, 'constructor', 'wmoUnit:Pa']) {
        const run = read((p) => Object.assign(p[name]!, { uom }))
        expect(run).toThrow(SourceUnitUnknown)
        expect(run).toThrow(name)
      }
    },
  )

  it('takes units it knows under other prefixes', () => {
    const fahrenheit = read((p) => {
      Object.assign(p.temperature, { uom: 'unit:degF' })
      for (const value of p.temperature.values) Object.assign(value, { value: value.value! * 1.8 + 32 })
    })()
    expect(fahrenheit.weather.airTempC[0]).toBeCloseTo(18.8889, 4)
  })

  it.each([
    ['no span', 'now'],
    ['no duration', '2022-02-04T03:00:00+00:00'],
    ['no length', '2022-02-04T03:00:00+00:00/PT0H'],
    ['a year', '2022-02-04T03:00:00+00:00/P1Y'],
    ['no offset', '2022-02-04T03:00:00/PT1H'],
    ['two spans', '2022-02-04T03:00:00+00:00/PT1H/PT1H'],
    ['a day that is none', '2022-02-31T03:00:00+00:00/PT1H'],
  ])('with %s is refused', (_, validTime) => {
    expect(read((p) => Object.assign(p.temperature.values[4]!, { validTime }))).toThrow(SourceUnreadable)
  })

  it('out of order is refused', () => {
    expect(read((p) => p.temperature.values.reverse())).toThrow(/temperature overlap or are out of order/)
    expect(read((p) => p.quantitativePrecipitation.values.push(p.quantitativePrecipitation.values[0]!))).toThrow(
      /quantitativePrecipitation overlap/,
    )
  })

  it('too old or from the future is refused', () => {
    expect(read(() => undefined, now + 40)).toThrow(SourceTooOld)
    expect(read(() => undefined, now - 3)).toThrow(/issued in the future/)
    expect(read((p) => Object.assign(p, { updateTime: 'today' }))).toThrow(SourceUnreadable)
  })

  it('keeps a gap unknown', () => {
    const { weather } = read((p) => p.windSpeed.values.splice(3, 4))()
    expect(weather.windMs.some(Number.isNaN)).toBe(true)
    const { weather: nulls } = read((p) => Object.assign(p.quantitativePrecipitation.values[2]!, { value: null }))()
    expect(Array.from(nulls.rainMm.slice(3, 9)).every(Number.isNaN)).toBe(true)
    expect(nulls.rainMm[9]).not.toBeNaN()
  })

  it('fills humidity from the dew point, and believes neither when they differ', () => {
    const filled = read((p) => Object.assign(p, { relativeHumidity: undefined }))().weather
    expect(filled.relHumidity[0]).toBeGreaterThan(0.9)
    expect(filled.provenance.remarks.join()).toContain('worked out from the dew point')
    const apart = read((p) => {
      for (const value of p.dewpoint!.values) Object.assign(value, { value: value.value! - 25 })
    })().weather
    expect(Array.from(apart.relHumidity.slice(0, 20)).every(Number.isNaN)).toBe(true)
    expect(apart.provenance.remarks.join()).toContain('contradicts')
  })
})
