import { describe, expect, it } from 'vitest'
import { SourceUnitUnknown, SourceUnreadable } from '#app/failures.ts'
import { instantOf } from '#core/units/time.ts'
import { weatherFromObservations } from '#edges/sources/nws/observations.ts'
import { type NwsObservation, observationsSchema } from '#edges/sources/nws/schema.ts'
import { bodyOf } from '#tests/edges/sources/support/bodies.ts'

const TOLD = { source: 'NWS', where: 'here' }
const PLACE = { latDeg: 41.2, lonDeg: -96.6, elevationM: 368 }
const NOW = 481_000.7
const AUTO = 'KAHQ 030255Z AUTO 32005KT 10SM CLR M08/M11 A3059 RMK AO2 T10851110'

/** A report so many hours before the full hour of now. */
function report(backH: number, parts: Partial<NwsObservation> = {}): NwsObservation {
  return {
    timestamp: instantOf(Math.floor(NOW) - backH).toString(),
    rawMessage: AUTO,
    temperature: { unitCode: 'wmoUnit:degC', value: 10, qualityControl: 'V' },
    relativeHumidity: { unitCode: 'wmoUnit:percent', value: 60, qualityControl: 'V' },
    windSpeed: { unitCode: 'wmoUnit:km_h-1', value: 18, qualityControl: 'V' },
    ...parts,
  }
}
const read = (...reports: NwsObservation[]) => weatherFromObservations(reports, PLACE, NOW, 4, TOLD)
const c = (value: number | null, qualityControl = 'V') => ({ unitCode: 'wmoUnit:degC', value, qualityControl })
const mm = (value: number | null) => ({ unitCode: 'wmoUnit:mm', value, qualityControl: 'C' })

describe('reports of a station', () => {
  it('fall into the hour of their stamp; several are averaged; hours without one stay unknown', () => {
    const { airTempC, windMs, startEpochH, hours } = read(
      report(0.1, { temperature: c(12) }),
      report(0.6, { temperature: c(10) }),
      report(2.05),
      report(9),
    )
    expect([startEpochH, hours]).toEqual([Math.floor(NOW) - 4, 4])
    expect(Array.from(airTempC)).toEqual([Number.NaN, 10, Number.NaN, 11])
    expect(windMs[3]).toBeCloseTo(5, 6)
  })

  it('of the hour that still runs are left out', () => {
    expect(read(report(-0.3)).airTempC.every(Number.isNaN)).toBe(true)
  })

  it.each(['X', 'Q', 'B'])('marked %s are not believed', (mark) => {
    expect(read(report(0.1, { temperature: c(12, mark) })).airTempC[3]).toBeNaN()
  })

  it.each(['V', 'C', 'S', 'Z', 'G', 'T'])('marked %s are believed', (mark) => {
    expect(read(report(0.1, { temperature: c(12, mark) })).airTempC[3]).toBe(12)
  })

  it.each([
    ['an amount', AUTO, 1.2, 1.2],
    ['none from a station that tells rain', AUTO, null, 0],
    ['none from one that cannot', AUTO.replace('AO2', 'AO1'), null, Number.NaN],
    ['none from a gauge out of order', `${AUTO} PNO`, null, Number.NaN],
    ['none from a station in need of care', `${AUTO} $`, null, Number.NaN],
    ['rain seen but no amount', AUTO.replace('10SM', '10SM -RA'), null, Number.NaN],
    ['a thunderstorm seen but no amount', AUTO.replace('10SM', '10SM +TSRA'), null, Number.NaN],
    ['no message', null, null, Number.NaN],
  ])('with %s', (_, rawMessage, value, expected) => {
    expect(read(report(0.1, { rawMessage, precipitationLastHour: mm(value) })).rainMm[3]).toBe(Math.fround(expected))
  })

  it('within an hour give the rain of the highest of them, not the sum', () => {
    const { rainMm } = read(
      report(0.1, { precipitationLastHour: mm(3) }),
      report(0.4, { precipitationLastHour: mm(2) }),
    )
    expect(rainMm[3]).toBe(3)
  })

  it('average directions the short way round, none in a calm', () => {
    const from = (value: number) => ({ windDirection: { unitCode: 'wmoUnit:degree_(angle)', value } })
    const { windFromDeg } = read(report(0.1, from(350)), report(0.2, from(10)))
    expect(Math.min(windFromDeg[3]!, 360 - windFromDeg[3]!)).toBeLessThan(1e-3)
    const calm = { windSpeed: { unitCode: 'wmoUnit:km_h-1', value: 0 } }
    expect(read(report(0.1, { ...from(0), ...calm })).windFromDeg[3]).toBeNaN()
  })

  it('have the strongest gust, at least the wind', () => {
    const gust = { windGust: { unitCode: 'wmoUnit:km_h-1', value: 36 } }
    expect(read(report(0.1, gust), report(0.2)).gustMs[3]).toBeCloseTo(10, 6)
    expect(read(report(0.1)).gustMs[3]).toBeCloseTo(5, 6)
  })

  it('give sunlight from the thickest layer of cloud', () => {
    const noon = (amount: string) => {
      const now = Math.floor(NOW / 24) * 24 + 19.5
      const seen = {
        ...report(0),
        timestamp: instantOf(now - 1).toString(),
        cloudLayers: [{ amount: 'FEW' }, { amount }],
      }
      return weatherFromObservations([seen], PLACE, now, 2, TOLD).solarWm2[1]!
    }
    expect(noon('OVC')).toBeLessThan(noon('SCT'))
    expect(noon('???')).toBeGreaterThan(noon('SCT'))
  })

  it('with a wrong stamp or unit are refused', () => {
    expect(() => read(report(0.1, { timestamp: 'today' }))).toThrow(SourceUnreadable)
    expect(() => read(report(0.1, { temperature: { unitCode: 'wmoUnit:furlong', value: 1 } }))).toThrow(
      SourceUnitUnknown,
    )
  })

  it('without a stamp are not taken for a body', () => {
    expect(observationsSchema.safeParse(bodyOf('nws/observations_missing_value.json')).success).toBe(false)
  })
})
