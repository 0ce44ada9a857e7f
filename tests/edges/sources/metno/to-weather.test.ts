import { describe, expect, it } from 'vitest'
import { SourceTooOld, SourceTooThin, SourceUnitUnknown, SourceUnreadable } from '#app/failures.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { locationforecastSchema, type MetForecast } from '#edges/sources/metno/schema.ts'
import { weatherFromLocationforecast } from '#edges/sources/metno/to-weather.ts'
import { bodyOf } from '#tests/edges/sources/support/bodies.ts'

const TOLD = { source: 'MET Norway', where: 'https://api.met.no/weatherapi/locationforecast/2.0/compact' }
const NEW_YORK = { latDeg: 40.7, lonDeg: -74, elevationM: 10 }
const at = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const NOW = at('2020-07-20T11:44:31Z')
const recorded = (): MetForecast =>
  locationforecastSchema.parse((bodyOf('metno/compact_new_york_2020.json') as { data: unknown }).data)
const read = (change: (body: MetForecast['properties']) => void = () => undefined, now = NOW) => {
  const body = recorded()
  change(body.properties)
  return weatherFromLocationforecast(body, NEW_YORK, now, TOLD)
}

describe('Locationforecast of New York, recorded 2020-07-20', () => {
  const { weather, chances } = read()
  const hour = (text: string) => at(text) - weather.startEpochH

  it('starts with the hour of now and ends with the last step', () => {
    expect(weather.startEpochH).toBe(at('2020-07-20T11:00Z'))
    expect(weather.startEpochH + weather.hours).toBe(at('2020-07-29T06:00Z'))
    expect(weather.provenance.issuedAtEpochH).toBeCloseTo(at('2020-07-20T01:30:57Z'), 9)
    expect(weather.provenance.remarks.join()).toContain('From 55 h on the forecast comes in steps of 6 h')
  })

  // By eye: 11:00Z 26.5 degC, 81.3 %, 3.8 m/s from 243.4; 12:00Z 27.9, 74.1, 4.0 from 250.5.
  it('takes the middle of two hourly steps for the hour', () => {
    expect(weather.airTempC[0]).toBeCloseTo((26.5 + 27.9) / 2, 5)
    expect(weather.relHumidity[0]).toBeCloseTo((0.813 + 0.741) / 2, 6)
    expect(weather.windMs[0]).toBeCloseTo(3.9, 6)
    expect(weather.windFromDeg[0]).toBeCloseTo((243.4 + 250.5) / 2, 4)
  })

  // By eye: 07-22T18:00Z 30.2 degC, 07-23T00:00Z 26.7: half an hour on, one twelfth of the way.
  it('draws a line between six-hourly steps', () => {
    expect(weather.airTempC[hour('2020-07-22T18:00Z')]).toBeCloseTo(30.2 + (26.7 - 30.2) / 12, 4)
    expect(weather.airTempC[hour('2020-07-22T23:00Z')]).toBeCloseTo(30.2 + ((26.7 - 30.2) * 11) / 12, 4)
  })

  // By eye: 3.0 mm in the six hours from 07-23T00:00Z, 0.4 from 12:00Z, 0.6 from 18:00Z.
  it('spreads the rain of six hours over them', () => {
    for (let h = 0; h < 6; h++) expect(weather.rainMm[hour('2020-07-23T00:00Z') + h]).toBeCloseTo(0.5, 6)
    expect(weather.rainMm[hour('2020-07-22T23:00Z')]).toBe(0)
    expect(weather.rainMm[hour('2020-07-23T06:00Z')]).toBe(0)
    expect(weather.rainMm[hour('2020-07-23T12:00Z')]).toBeCloseTo(0.4 / 6, 6)
    expect(weather.rainMm[hour('2020-07-23T18:00Z')]).toBeCloseTo(0.1, 6)
  })

  it('counts no rain twice: the sum is that of the body', () => {
    const told = recorded().properties.timeseries.reduce(
      (sum, { data }) => sum + ((data.next_1_hours ?? data.next_6_hours)?.details?.precipitation_amount ?? 0),
      0,
    )
    expect(told).toBeGreaterThan(3)
    const spread = weather.rainMm.reduce((sum, mm) => sum + mm, 0)
    expect(spread).toBeCloseTo(told, 4)
  })

  it('leaves what compact does not carry unknown', () => {
    expect(weather.gustMs.every(Number.isNaN)).toBe(true)
    for (const values of Object.values(chances)) expect(values.every(Number.isNaN)).toBe(true)
  })

  it('makes sunlight of the cloud: none at night, less under more', () => {
    expect(weather.solarWm2[hour('2020-07-21T04:00Z')]).toBe(0)
    const clear = read((p) => {
      for (const step of p.timeseries) step.data.instant.details.cloud_area_fraction = 0
    }).weather
    expect(clear.solarWm2[hour('2020-07-20T17:00Z')]).toBeGreaterThan(800)
    expect(weather.solarWm2[hour('2020-07-20T17:00Z')]).toBeLessThan(clear.solarWm2[hour('2020-07-20T17:00Z')]!)
  })
})

describe('what only the complete product carries', () => {
  it('is read where it is given', () => {
    const { weather, chances } = read((p) => {
      Object.assign(p.meta.units, {
        wind_speed_of_gust: 'm/s',
        probability_of_precipitation: '%',
        air_temperature_percentile_10: 'celsius',
        precipitation_amount_max: 'mm',
      })
      p.timeseries.forEach(({ data }, step) => {
        Object.assign(data.instant.details, { wind_speed_of_gust: 8 + (step % 2), air_temperature_percentile_10: 20 })
        for (const period of [data.next_1_hours, data.next_6_hours])
          Object.assign(period?.details ?? {}, { probability_of_precipitation: 30, precipitation_amount_max: 6 })
      })
    })
    expect(Array.from(weather.gustMs.slice(0, 3))).toEqual([9, 9, 9])
    expect([chances.popPct![0], chances.popBlockH![0], chances.popBlockH![60]]).toEqual([30, 1, 6])
    expect([chances.airTempP10C![0], chances.rainMaxMm![0], chances.rainMaxMm![60]]).toEqual([20, 6, 1])
    expect(chances.airTempP90C!.every(Number.isNaN)).toBe(true)
  })
})

describe('a Locationforecast that is wrong', () => {
  it.each(['air_temperature', 'relative_humidity', 'wind_speed', 'precipitation_amount', 'cloud_area_fraction'])(
    'in the unit of %s is refused by name',
    (name) => {
      for (const unit of ['furlong', '', 'toString', undefined]) {
        const run = () =>
          read((p) => {
            if (unit === undefined) delete p.meta.units[name]
            else p.meta.units[name] = unit
          })
        expect(run).toThrow(SourceUnitUnknown)
        expect(run).toThrow(name)
      }
    },
  )

  it('out of order, off the hour, old, over, or from the future is refused', () => {
    expect(() => read((p) => p.timeseries.reverse())).toThrow(SourceUnreadable)
    expect(() => read((p) => Object.assign(p.timeseries[3]!, { time: '2020-07-20T14:30:00Z' }))).toThrow(
      SourceUnreadable,
    )
    expect(() => read((p) => Object.assign(p.timeseries[3]!, { time: '2020-07-20T14:00:00' }))).toThrow(
      SourceUnreadable,
    )
    expect(() => read(undefined, NOW + 48)).toThrow(SourceTooOld)
    expect(() => read(undefined, NOW - 24)).toThrow(/future/)
    expect(() => read((p) => Object.assign(p.meta, { updated_at: '' }))).toThrow(SourceUnreadable)
    expect(() => read((p) => p.timeseries.splice(1))).toThrow(SourceTooThin)
  })

  it('keeps a gap longer than six hours unknown, and bridges a shorter one', () => {
    const { weather } = read((p) => p.timeseries.splice(10, 9))
    expect(Array.from(weather.airTempC.slice(9, 19)).every(Number.isNaN)).toBe(true)
    expect(weather.rainMm[12]).toBeNaN()
    const short = read((p) => p.timeseries.splice(10, 3)).weather
    expect(short.airTempC[10]).not.toBeNaN()
  })

  it('keeps nulls unknown', () => {
    const { weather } = read((p) => {
      for (const { data } of p.timeseries) data.instant.details.relative_humidity = null
    })
    expect(weather.relHumidity.every(Number.isNaN)).toBe(true)
    expect(weather.airTempC[0]).not.toBeNaN()
  })
})
