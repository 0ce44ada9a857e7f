import { expect, test } from 'vitest'
import { memberErrors } from '#core/science/spread/member-errors.ts'
import { redNoise } from '#core/science/spread/red-noise.ts'
import { seededRandom } from '#core/units/random.ts'
import { airportAutumn } from '#tests/support/newark.ts'
import { autumnOf, usualWithout } from '#tests/support/trial-forecasts.ts'

function correlation(a: readonly number[], b: readonly number[]): number {
  const known = a.map((_, i) => i).filter((i) => !Number.isNaN(a[i]! + b[i]!))
  const mean = (values: readonly number[]) => known.reduce((sum, i) => sum + values[i]!, 0) / known.length
  const [ma, mb] = [mean(a), mean(b)]
  let [ab, aa, bb] = [0, 0, 0]
  for (const i of known) {
    ab += (a[i]! - ma) * (b[i]! - mb)
    aa += (a[i]! - ma) ** 2
    bb += (b[i]! - mb) ** 2
  }
  return ab / Math.sqrt(aa * bb)
}

const lagged = (values: readonly number[], lag: number) => correlation(values.slice(0, -lag), values.slice(lag))

test('red noise has mean 0, variance 1 and the memory asked for', () => {
  const noise = redNoise(10, seededRandom(1))
  const values = Array.from({ length: 60_000 }, () => {
    noise.next()
    return noise.value
  })
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  expect(Math.abs(mean)).toBeLessThan(0.08)
  expect(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length).toBeCloseTo(1, 1)
  expect(lagged(values, 10)).toBeCloseTo(Math.exp(-1), 1)
})

function seriesOf(pick: (errors: ReturnType<typeof memberErrors>) => number, hours = 60_000): number[] {
  const errors = memberErrors(seededRandom(7))
  return Array.from({ length: hours }, () => {
    errors.next()
    return pick(errors)
  })
}

test('grown temperature errors last as long as departures from the usual at Champaign', () => {
  const years = [1998, 2003, 2008, 2013, 2018]
  const ofLag = (lag: number) => {
    const departures = years.map((year) => {
      const usual = usualWithout(year)
      return Array.from(autumnOf(year).airTempC, (tempC, h) => tempC - usual.temp[h]!).slice(62 * 24, 138 * 24)
    })
    return departures.reduce((sum, values) => sum + lagged(values, lag), 0) / years.length
  }
  const ours = seriesOf((errors) => errors.temp.grown)
  for (const lag of [24, 48]) expect(Math.abs(lagged(ours, lag) - ofLag(lag)), `${lag} h`).toBeLessThan(0.12)
})

test('local temperature errors last as long as differences between neighbouring airports', () => {
  const [a, b] = [airportAutumn('EWR').weather.airTempC, airportAutumn('JFK').weather.airTempC]
  const difference = Array.from(a, (tempC, h) => tempC - b[h]!)
  const byHour = difference.map((_, h) => {
    const same = difference.filter((value, k) => k % 24 === h % 24 && !Number.isNaN(value))
    return same.reduce((sum, value) => sum + value, 0) / same.length
  })
  const departures = difference.map((value, h) => value - byHour[h]!)
  const ours = seriesOf((errors) => errors.temp.local)
  // Stations: 0.80 after one hour, 0.60 after three, 0.41 after six; a part of it is the reading itself.
  for (const lag of [1, 3, 6])
    expect(Math.abs(lagged(ours, lag) - lagged(departures, lag)), `${lag} h`).toBeLessThan(0.17)
})

test('grown errors of temperature and dew point go together as their departures do at Champaign', () => {
  const temps: number[] = []
  const dews: number[] = []
  for (const year of [1997, 2004, 2011, 2019]) {
    const usual = usualWithout(year)
    const { airTempC, relHumidity } = autumnOf(year)
    for (let h = 62 * 24; h < 138 * 24; h++) {
      const gamma = Math.log(Math.max(0.02, relHumidity[h]!)) + (17.27 * airTempC[h]!) / (airTempC[h]! + 237.3)
      temps.push(airTempC[h]! - usual.temp[h]!)
      dews.push((237.3 * gamma) / (17.27 - gamma) - usual.dew[h]!)
    }
  }
  const errors = memberErrors(seededRandom(3))
  const drawn = Array.from({ length: 60_000 }, () => {
    errors.next()
    return [errors.temp.grown, errors.dew.grown] as const
  })
  const ours = correlation(
    drawn.map(([temp]) => temp),
    drawn.map(([, dew]) => dew),
  )
  expect(Math.abs(ours - correlation(temps, dews))).toBeLessThan(0.08)
})
