import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { fahrenheitFromCelsius, HA_PER_ACRE, MM_PER_IN } from '#core/units/convert.ts'
import { distanceKm } from '#core/units/sphere.ts'
import { loadFarm } from '#edges/config/load.ts'
import { CLEAR_SKY_LIMIT_WM2, OCTOBER_2010, SEPTEMBER_2010 } from '#tests/truth/illinois-2010.ts'

describe('the example and the demo farm', () => {
  it.each(['config/farm.example.yaml', 'config/demo/farm.yaml'])('%s reads without fault or warning', async (path) => {
    expect((await loadFarm(path)).warnings).toEqual([])
  })

  it('shows what the demo is to show', async () => {
    const { farm } = await loadFarm('config/demo/farm.yaml')
    const left = farm.fields.filter(({ cutOn }) => cutOn === undefined)
    expect(farm.fields.length).toBeGreaterThanOrEqual(12)
    expect(left.filter(({ crop }) => crop === 'corn').length).toBeGreaterThanOrEqual(1)
    expect(left.filter(({ followsWheat }) => followsWheat).length).toBeGreaterThanOrEqual(2)
    expect(left.filter(({ patches }) => patches.some(({ kind }) => kind === 'green')).length).toBe(2)
    expect(farm.fields.filter(({ boundary }) => !boundary).length).toBeGreaterThanOrEqual(2)
    expect(farm.outfits.map(({ combines, carts }) => [combines.length, carts.length])).toEqual([[5, 2]])
    expect(farm.buyers.length).toBe(2)
    expect(new Set(farm.people.map(({ role }) => role))).toEqual(new Set(['owner', 'planner', 'crew']))
    for (const person of farm.people) expect(person.email).toMatch(/@example\.org$/)
    for (const field of farm.fields) {
      expect(distanceKm(field.centre, { latDeg: 40.06, lonDeg: -88.2 })).toBeLessThan(25)
      expect(field.areaHa / HA_PER_ACRE).toBeGreaterThan(30)
    }
    expect(farm.weather).toMatchObject([
      { kind: 'recorded', file: expect.stringMatching(/config\/demo\/weather-2010\.csv$/) },
    ])
  })
})

interface Hour {
  readonly time: string
  readonly month: number
  readonly localHour: number
  readonly values: readonly number[]
}

describe('the recorded weather', () => {
  let heading = ''
  let hours: Hour[] = []
  beforeAll(() => {
    const [first = '', ...rows] = readFileSync('config/demo/weather-2010.csv', 'utf8').trim().split('\n')
    heading = first
    hours = rows.map((row) => {
      const [time = '', ...cells] = row.split(',')
      const local = Temporal.Instant.from(time).toZonedDateTimeISO('Etc/GMT+6')
      return { time, month: local.month, localHour: local.hour, values: cells.map(Number) }
    })
  })
  const column = (index: number, month?: number) =>
    hours.filter((hour) => month === undefined || hour.month === month).map(({ values }) => values[index]!)
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length

  it('is every hour of July to November 2010, local standard time', () => {
    expect(heading).toBe('time_utc,air_temp_c,relative_humidity,rain_mm,wind_m_s,gust_m_s,wind_from_deg,solar_w_m2')
    expect(hours.length).toBe((31 + 31 + 30 + 31 + 30) * 24)
    hours.forEach(({ time }, i) => {
      expect(time).toBe(
        `${Temporal.PlainDateTime.from('2010-07-01T06:00').add({ hours: i }).toString({ smallestUnit: 'minute' })}:00Z`,
      )
    })
  })

  it('holds nothing impossible', () => {
    for (const { values, localHour } of hours) {
      const [temp, humidity, rain, wind, gust, from, solar] = values as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ]
      expect(values.length).toBe(7)
      expect(temp).toBeGreaterThan(-20)
      expect(temp).toBeLessThan(40)
      expect(humidity).toBeGreaterThan(0.1)
      expect(humidity).toBeLessThanOrEqual(1)
      expect(rain).toBeGreaterThanOrEqual(0)
      expect(wind).toBeGreaterThanOrEqual(0)
      expect(gust).toBeGreaterThanOrEqual(wind)
      expect(from).toBeGreaterThanOrEqual(0)
      expect(from).toBeLessThan(360)
      expect(solar).toBeLessThan(CLEAR_SKY_LIMIT_WM2)
      // The light sensor shows up to 10 W/m2 in two nights after thunderstorms; the demo's README says so.
      if (localHour < 4 || localHour > 20) expect(solar).toBeLessThan(11)
    }
  })

  it('is brightest around noon of local standard time', () => {
    const byHour = Array.from({ length: 24 }, (_, hour) =>
      mean(hours.filter(({ localHour }) => localHour === hour).map(({ values }) => values[6]!)),
    )
    expect([11, 12]).toContain(byHour.indexOf(Math.max(...byHour)))
  })

  it('is the autumn the state climatologist described', () => {
    expect(Math.abs(fahrenheitFromCelsius(mean(column(0, 10))) - OCTOBER_2010.meanTempF)).toBeLessThan(2)
    const inches = (month: number) => column(2, month).reduce((a, b) => a + b, 0) / MM_PER_IN
    expect(Math.abs(inches(9) - SEPTEMBER_2010.rainIn)).toBeLessThan(1.5)
    expect(Math.abs(inches(10) - OCTOBER_2010.rainIn)).toBeLessThan(0.75)
    expect(inches(10)).toBeLessThan(inches(9) / 2)
  })
})
