import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import fc from 'fast-check'
import { afterAll, describe, expect, it } from 'vitest'
import { SourceUnreadable } from '#app/failures.ts'
import { celsiusFromFahrenheit } from '#core/units/convert.ts'
import { instantOf } from '#core/units/time.ts'
import { WEATHER_VARIABLES } from '#core/units/weather.ts'
import {
  readRecordedWeather,
  recordedForecast,
  recordedObservations,
  recordedWeather,
  recordedYears,
  splitAt,
} from '#edges/sources/recorded/index.ts'

const PLACE = { latDeg: 40.69, lonDeg: -74.17, elevationM: 3 }
const PROVENANCE = { source: 'Airport', attribution: 'US National Weather Service', licence: 'CC0', remarks: [] }
const HEADER = 'time_utc,air_temp_c,relative_humidity,rain_mm,wind_m_s,gust_m_s,wind_from_deg,solar_w_m2'
const read = (text: string) => recordedWeather(text, PLACE, PROVENANCE, 'autumn.csv')

// Newark airport, 1 August 2013, as published by the US National Weather Service (73.04 deg F, 70.68 %, 4.60 mph from
// 180 deg at 04 UTC), converted by hand: (73.04 - 32) / 1.8 = 22.8 deg C; 4.60 mph = 2.0564 m/s.
const NEWARK = `# Newark airport
${HEADER}
2013-08-01T04:00Z,22.8,0.7068,0,2.0564,,180,0
2013-08-01T05:00:00Z,22.2,0.733,0,2.0564,,170,0

2013-08-01T07:00:00+00:00,21.7,,0.25,,9.8,,-0
`

describe('recorded weather', () => {
  it('reads hours, keeps gaps and empty cells unknown', () => {
    const weather = read(NEWARK)
    // 2013-08-01T04:00Z = 15918 days and 4 hours after the epoch (43 years of 365 days + 11 leap days + 212 days).
    expect(weather.startEpochH).toBe((43 * 365 + 11 + 212) * 24 + 4)
    expect([weather.hours, weather.members, weather.provenance.spread]).toEqual([4, 1, 'observed'])
    expect(weather.provenance.issuedAtEpochH).toBe(weather.startEpochH + 4)
    expect(weather.airTempC[0]).toBeCloseTo(celsiusFromFahrenheit(73.04), 5)
    expect(Array.from(weather.airTempC)).toEqual([22.8, 22.2, Number.NaN, 21.7].map(Math.fround))
    expect(Array.from(weather.relHumidity)).toEqual([0.7068, 0.733, Number.NaN, Number.NaN].map(Math.fround))
    expect(Array.from(weather.rainMm)).toEqual([0, 0, Number.NaN, 0.25])
    expect(Array.from(weather.gustMs)).toEqual([Number.NaN, Number.NaN, Number.NaN, 9.8].map(Math.fround))
    expect(Array.from(weather.windFromDeg)).toEqual([180, 170, Number.NaN, Number.NaN])
  })

  it('takes columns in any order and leaves optional ones unknown', () => {
    const weather = read(
      'solar_w_m2,wind_m_s,time_utc,rain_mm,relative_humidity,air_temp_c\n500,3,2013-08-01T16:00Z,1,0.5,25\n',
    )
    expect([
      weather.solarWm2[0],
      weather.windMs[0],
      weather.rainMm[0],
      weather.relHumidity[0],
      weather.airTempC[0],
    ]).toEqual([500, 3, 1, 0.5, 25])
    expect([weather.gustMs[0], weather.windFromDeg[0]]).toEqual([Number.NaN, Number.NaN])
  })

  const row = (cells: string) => `${HEADER}\n2013-08-01T04:00Z,22,0.7,0,2,3,180,0\n${cells}\n`
  it.each([
    ['an empty file', '', 1, 'empty'],
    ['a header alone', `${HEADER}\n`, 1, 'no hours'],
    ['a web page', '<!doctype html>\n<title>Sign in</title>', 1, 'not a column'],
    ['an unknown column', `${HEADER},snow_mm\n`, 1, '"snow_mm" is not a column'],
    ['a column twice', `${HEADER},rain_mm\n`, 1, 'twice'],
    ['a missing column', HEADER.replace(',rain_mm', ''), 1, '"rain_mm" is missing'],
    ['percent instead of a share', row('2013-08-01T05:00Z,22,70,0,2,3,180,0'), 3, 'relative_humidity "70"'],
    ['kelvin', row('2013-08-01T05:00Z,295.1,0.7,0,2,3,180,0'), 3, 'air_temp_c "295.1"'],
    ['negative rain', row('2013-08-01T05:00Z,22,0.7,-1,2,3,180,0'), 3, 'rain_mm "-1"'],
    ['a word for unknown', row('2013-08-01T05:00Z,NaN,0.7,0,2,3,180,0'), 3, 'air_temp_c "NaN"'],
    ['infinity', row('2013-08-01T05:00Z,22,0.7,1e999,2,3,180,0'), 3, 'rain_mm "1e999"'],
    ['a decimal comma', row('2013-08-01T05:00Z,"22,5",0.7,0,2,3,180,0'), 3, 'air_temp_c "22,5"'],
    ['a row too short', row('2013-08-01T05:00Z,22,0.7'), 3, 'has 3 cells'],
    ['a time without offset', row('2013-08-01T05:00,22,0.7,0,2,3,180,0'), 3, 'not a full hour in UTC'],
    ['a half hour', row('2013-08-01T05:30Z,22,0.7,0,2,3,180,0'), 3, 'not a full hour'],
    ['a date that is none', row('2013-02-30T05:00Z,22,0.7,0,2,3,180,0'), 3, 'not a full hour'],
    ['an hour twice', row('2013-08-01T04:00Z,22,0.7,0,2,3,180,0'), 3, 'does not follow'],
    ['an hour back', row('2013-08-01T03:00Z,22,0.7,0,2,3,180,0'), 3, 'does not follow'],
    ['a year mistyped', row('2103-08-01T05:00Z,22,0.7,0,2,3,180,0'), 3, '40 years'],
  ])('refuses %s with its line', (_, text, line, what) => {
    const failure = failureOf(() => read(text))
    expect(failure.message).toContain(what)
    expect(failure.where).toBe(`autumn.csv, line ${line}`)
    expect(failure.cure).not.toBe('')
  })

  it('refuses a broken quote', () => {
    expect(failureOf(() => read(`${HEADER}\n"2013-08-01T05:00Z,22`)).message).toContain('not a readable CSV')
  })

  it('reads 5,000 hours in less than 50 ms', () => {
    const rows = Array.from({ length: 5000 }, (_, h) => `${instantOf(380_000 + h)},20.5,0.71,0.2,3.4,5.5,180,250`)
    const text = `${HEADER}\n${rows.join('\n')}\n`
    read(text)
    const tookMs = Array.from({ length: 10 }, () => {
      const before = process.threadCpuUsage()
      expect(read(text).hours).toBe(5000)
      const { user, system } = process.threadCpuUsage(before)
      return (user + system) / 1000
    })
    // The best of ten, of this thread's own time at work: the machine may be busy with other work.
    expect(Math.min(...tookMs)).toBeLessThan(50)
  })
})

describe('the record cut at a moment', () => {
  const full = read(NEWARK)
  it('puts the hour that contains now ahead', () => {
    const { past, ahead } = splitAt(full, full.startEpochH + 1.9, 10)
    expect([past.startEpochH, past.hours]).toEqual([full.startEpochH, 1])
    expect([ahead.startEpochH, ahead.hours]).toEqual([past.startEpochH + past.hours, 3])
    expect([past.provenance.spread, ahead.provenance.spread]).toEqual(['observed', 'single'])
    expect(ahead.provenance.issuedAtEpochH).toBe(full.startEpochH + 1.9)
    expect(ahead.provenance.remarks.join()).toContain('stands in')
    expect(ahead.airTempC[0]).toBe(full.airTempC[1])
  })

  it('loses and invents nothing, wherever it is cut', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 3.999, noNaN: true }),
        fc.nat(6),
        fc.nat(6),
        (after, aheadHours, pastHours) => {
          const { past, ahead } = splitAt(full, full.startEpochH + after, aheadHours, pastHours)
          expect(ahead.startEpochH).toBe(past.startEpochH + past.hours)
          expect(ahead.hours).toBe(Math.min(aheadHours, 4 - Math.floor(after)))
          expect(past.hours).toBe(Math.min(pastHours, Math.floor(after)))
          for (const variable of WEATHER_VARIABLES) {
            const from = past.startEpochH - full.startEpochH
            expect([...past[variable], ...ahead[variable]]).toEqual([
              ...full[variable].slice(from, from + past.hours + ahead.hours),
            ])
          }
        },
      ),
    )
  })

  it.each([-1, 4, 1e9])('refuses a moment %d h after the start, outside the record', (after) => {
    const failure = failureOf(() => splitAt(full, full.startEpochH + after, 5))
    expect(failure.where).toContain('2013-08-01T04:00:00Z to 2013-08-01T08:00:00Z')
  })

  it('serves the ports', async () => {
    const request = { place: PLACE, nowEpochH: full.startEpochH + 2.5 }
    const forecast = await recordedForecast(full, 2).fetch(request)
    const seen = await recordedObservations(full).fetch({ ...request, hoursBack: 1 })
    expect([forecast.weather.hours, seen.weather.hours]).toEqual([2, 1])
    expect(forecast.weather.startEpochH).toBe(seen.weather.startEpochH + seen.weather.hours)
    const later = await recordedForecast(full, 2).fetch({ ...request, nowEpochH: full.startEpochH + 3 })
    expect(later.rawHash).not.toBe(forecast.rawHash)
  })
})

function failureOf(run: () => unknown): SourceUnreadable {
  try {
    run()
  } catch (error) {
    if (error instanceof SourceUnreadable) return error
    throw error
  }
  throw new Error('nothing was refused')
}

describe('a packed file', () => {
  const folder = mkdtempSync(join(tmpdir(), 'threshday-recorded-'))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  const packed = (name: string, bytes: Buffer) => {
    const path = join(folder, name)
    writeFileSync(path, bytes)
    return path
  }

  it('is read like the plain one', () => {
    const path = packed('a.csv.gz', gzipSync(NEWARK))
    expect(readRecordedWeather(path, PLACE, PROVENANCE)).toEqual(read(NEWARK))
  })

  it('cut off, or no packed file at all, is told with its path', () => {
    for (const bytes of [gzipSync(NEWARK).subarray(0, 60), Buffer.from('time_utc')]) {
      const path = packed('b.csv.gz', bytes)
      const failure = (() => {
        try {
          return readRecordedWeather(path, PLACE, PROVENANCE)
        } catch (error) {
          return error
        }
      })()
      expect(failure).toBeInstanceOf(SourceUnreadable)
      expect(String(failure)).toContain(path)
    }
  })
})

describe('earlier years of a record', () => {
  const hour = (text: string) => Temporal.Instant.from(text).epochMilliseconds / 3_600_000
  const start = hour('2005-01-01T00:00Z')
  const now = hour('2009-10-01T12:30Z')
  /** Five whole years and what came after now. */
  const record = () => {
    const hours = hour('2012-01-01T00:00Z') - start
    const same = new Float32Array(hours).fill(0.5)
    const empty = read(NEWARK)
    return {
      ...empty,
      startEpochH: start,
      hours,
      airTempC: Float32Array.from({ length: hours }, (_, h) => h % 1000),
      relHumidity: same,
      rainMm: same,
      windMs: same,
      gustMs: same,
      windFromDeg: same,
      solarWm2: same,
    }
  }
  const request = {
    place: PLACE,
    nowEpochH: now,
    fromEpochH: hour('2009-10-11T12:00Z'),
    toEpochH: hour('2009-12-01T00:00Z'),
  }

  it('are the same days with some on either side, newest first, hour by hour, none later than now', async () => {
    let reads = 0
    const years = recordedYears(() => {
      reads++
      return record()
    })
    expect(reads).toBe(0)
    const found = await years({ ...request, years: 20 })
    await years({ ...request, years: 2 })
    expect(reads).toBe(1)
    expect(found.map(({ startEpochH }) => instantOf(startEpochH).toString().slice(0, 13))).toEqual([
      '2008-10-06T12',
      '2007-10-06T12',
      '2006-10-06T12',
      '2005-10-06T12',
    ])
    for (const year of found) {
      expect(year.hours).toBe((51 + 9) * 24 + 12)
      expect(year.airTempC[7]).toBe((year.startEpochH + 7 - start) % 1000)
    }
  })

  it('of a season that runs over the new year end with what is over', async () => {
    const late = { ...request, fromEpochH: hour('2010-09-20T00:00Z'), toEpochH: hour('2010-12-01T00:00Z') }
    const [first] = await recordedYears(record)({ ...late, years: 1 })
    // A year before, only the days up to now have been.
    expect(first!.startEpochH + first!.hours).toBe(Math.floor(now))
  })
})
