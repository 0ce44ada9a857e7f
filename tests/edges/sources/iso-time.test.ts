import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { epochHoursOfIso, hoursOfIsoDuration, spanOfIso } from '#edges/sources/iso-time.ts'

describe('times as the services write them', () => {
  it.each([
    ['1970-01-01T00:00:00+00:00', 0],
    ['1970-01-02T01:30:00Z', 25.5],
    ['1970-01-01T00:00:00-06:00', 6],
    ['1970-01-01T02:00Z', 2],
    // An example of RFC 3339, section 5.8: 1985-04-12T23:20:50.52Z is 482196050.52 s after the epoch.
    ['1985-04-12T23:20:50.52Z', 482_196_050.52 / 3600],
  ])('%s is %d h', (text, hours) => {
    expect(epochHoursOfIso(text)).toBeCloseTo(hours, 9)
  })

  it.each([
    '',
    '2022-02-04',
    '2022-02-04T03:00',
    '2022-02-30T03:00Z',
    '2022-02-04T25:00Z',
    ' 2022-02-04T03:00Z',
    '2022-02-04T03:00Z[UTC]',
    '20220204T0300Z',
  ])('"%s" is no instant', (text) => {
    expect(epochHoursOfIso(text)).toBeNaN()
  })

  it.each([
    ['PT1H', 1],
    ['PT90M', 1.5],
    ['P1D', 24],
    ['P1DT6H', 30],
    ['P7DT14H', 182],
    ['P1W', 168],
    ['P6DT15H', 159],
    ['PT30S', 1 / 120],
  ])('%s is %d h', (text, hours) => {
    expect(hoursOfIsoDuration(text)).toBeCloseTo(hours, 9)
  })

  it.each(['', 'P', 'PT', 'P1DT', 'P1Y', 'P1M', '-PT1H', 'PT-1H', 'PT1.5H', '1H', 'PT1H '])(
    '"%s" is no length',
    (text) => {
      expect(hoursOfIsoDuration(text)).toBeNaN()
    },
  )

  it('never takes a span that is no span', () => {
    expect(spanOfIso('1970-01-01T01:00:00+00:00/P1DT1H')).toEqual({ fromEpochH: 1, toEpochH: 26 })
    for (const text of [
      '',
      '/',
      '1970-01-01T01:00:00Z/PT0H',
      '1970-01-01T01:00:00Z/P32D',
      'x/PT1H',
      '1970-01-01T01:00:00Z/PT1H/x',
    ])
      expect(spanOfIso(text).fromEpochH).toBeNaN()
    fc.assert(
      fc.property(fc.string(), (text) => {
        const { fromEpochH, toEpochH } = spanOfIso(text)
        expect(Number.isNaN(fromEpochH) || toEpochH > fromEpochH).toBe(true)
      }),
    )
  })
})
