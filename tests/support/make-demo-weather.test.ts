import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { demoWeatherCsv, readSource, type SourceHour } from '#tests/support/make-demo-weather.ts'

/** Days of plain weather: warm afternoons, damp nights, sun from six to eighteen; day `i` has `rainMm[i]` in all. */
function sourceOf(rainMm: readonly number[], damp: (day: number, hour: number) => number = () => 0): SourceHour[] {
  const start = Temporal.PlainDateTime.from('2010-07-01T00:00')
  return rainMm.flatMap((total, day) =>
    Array.from({ length: 24 }, (_, hour) => ({
      localTime: start.add({ hours: day * 24 + hour }).toString({ smallestUnit: 'minute' }),
      airTempC: 20 + 6 * Math.sin(((hour - 9) / 24) * 2 * Math.PI),
      relHumidity: Math.min(1, 0.6 - 0.2 * Math.sin(((hour - 9) / 24) * 2 * Math.PI) + damp(day, hour)),
      windMs: 3,
      photonFlux: Math.max(0, 1800 * Math.sin(((hour - 6) / 12) * Math.PI)),
      dayRainOver24Mm: total / 24,
    })),
  )
}

interface Row {
  readonly time: string
  readonly rain: number
  readonly wind: number
  readonly gust: number
  readonly from: number
  readonly solar: number
}

const rowsOf = (source: readonly SourceHour[]): Row[] =>
  demoWeatherCsv(source)
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => {
      const [time, , , rain, wind, gust, from, solar] = line.split(',')
      return { time: time!, rain: +rain!, wind: +wind!, gust: +gust!, from: +from!, solar: +solar! }
    })

const dayOf = (rows: readonly Row[], day: number) => rows.slice(day * 24, day * 24 + 24)
const sum = (rows: readonly Row[]) => rows.reduce((total, { rain }) => total + rain, 0)

describe('hours of the rain', () => {
  it('add up to the observed total of each day', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 120, noNaN: true }), { minLength: 1, maxLength: 8 }), (totals) => {
        const rows = rowsOf(sourceOf(totals))
        totals.forEach((total, day) => {
          // Each of at most 12 hours is rounded to a hundredth of a millimetre.
          expect(Math.abs(sum(dayOf(rows, day)) - total)).toBeLessThanOrEqual(12 * 0.005 + 1e-9)
        })
      }),
    )
  })

  it('are one to a square root of the total, at most twelve and in two bursts from 10 mm on', () => {
    const wetHours = (total: number) => dayOf(rowsOf(sourceOf([0, total, 0])), 1).filter(({ rain }) => rain > 0).length
    expect(wetHours(0.3)).toBe(1)
    expect(wetHours(4)).toBe(2)
    expect(wetHours(9)).toBe(3)
    expect(wetHours(36)).toBe(6)
    expect(wetHours(400)).toBe(12)
  })

  it('fall where the air is damper than usual for the hour, not where nights are damp anyway', () => {
    const rows = rowsOf(sourceOf([0, 0, 4, 0, 0], (day, hour) => (day === 2 && (hour === 15 || hour === 16) ? 0.3 : 0)))
    const wet = rows.flatMap(({ rain }, i) => (rain > 0 ? [i - 48] : []))
    expect(wet).toEqual([15, 16])
  })
})

describe('what is invented beside it', () => {
  const rows = rowsOf(sourceOf([0, 0, 0, 0]))

  it('keeps gusts between 1.5 and 1.75 times the wind', () => {
    for (const { wind, gust } of rows) {
      expect(gust).toBeGreaterThanOrEqual(1.5 * wind - 0.005)
      expect(gust).toBeLessThanOrEqual(1.75 * wind + 0.005)
    }
  })

  it('turns warmth into southerly and cold into north-westerly wind', () => {
    const warming = sourceOf([0, 0, 0, 0, 0, 0, 0]).map((hour, i) => ({
      ...hour,
      airTempC: hour.airTempC + (i >= 60 && i < 108 ? 10 : 0),
    }))
    const cooling = warming.map((hour, i) => ({ ...hour, airTempC: hour.airTempC - (i >= 60 && i < 108 ? 20 : 0) }))
    expect(rowsOf(warming)[84]!.from).toBeLessThan(225)
    expect(rowsOf(warming)[84]!.from).toBeGreaterThan(185)
    expect(rowsOf(cooling)[84]!.from).toBeGreaterThan(285)
    expect(rowsOf(cooling)[84]!.from).toBeLessThan(325)
  })

  it('turns photons into watts by 0.473 (common practice)', () => {
    expect(Math.max(...rows.map(({ solar }) => solar))).toBeCloseTo(1800 * 0.473, 1)
  })

  it('moves local standard time to UTC', () => {
    expect(rows[0]!.time).toBe('2010-07-01T06:00:00Z')
    expect(rows.at(-1)!.time).toBe('2010-07-05T05:00:00Z')
  })
})

describe('what the source does not know', () => {
  it('stays unknown', () => {
    const csv = 'heading\n2010-07-01T00:00,,0.9,,0,\n2011-07-01T00:00,1,1,1,1,1\n'
    const [hour, ...rest] = readSource(csv, 2010)
    expect(rest).toEqual([])
    expect(hour!.airTempC).toBeNaN()
    const day = sourceOf([0]).map((known, i) =>
      i === 3 ? { ...known, windMs: Number.NaN, airTempC: Number.NaN } : known,
    )
    expect(demoWeatherCsv(day).split('\n')[4]).toMatch(/^2010-07-01T09:00:00Z,,[\d.]+,0\.00,,,\d+,0\.0$/)
    const rainless = sourceOf([5]).map((known, i) => (i === 3 ? { ...known, dayRainOver24Mm: Number.NaN } : known))
    expect(rowsOf(rainless).every(({ rain }) => rain === 0)).toBe(true)
    expect(demoWeatherCsv(rainless).split('\n')[9]!.split(',')[3]).toBe('')
  })
})
