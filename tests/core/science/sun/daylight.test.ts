import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { daylightHours } from '#core/science/air/radiation.ts'
import { daylightOf, sunPosition } from '#core/science/sun/daylight.ts'
import { epochHoursOf, localDateOf } from '#core/units/time.ts'
import { NREL_GOLDEN, POLAR_ROWS, USNO_ROWS } from '#tests/truth/almanac.ts'

const MINUTE_H = 1 / 60
const epochH = (instant: string): number => epochHoursOf(Temporal.Instant.from(instant))
const dateOf = (date: string): Temporal.PlainDate => Temporal.PlainDate.from(date)

describe('sunrise, sunset and civil twilight', () => {
  it.each(USNO_ROWS)('USNO within a minute: $place, $date', (row) => {
    const light = daylightOf(row, dateOf(row.date), row.timeZone)
    const pairs: readonly (readonly [string | undefined, number])[] = [
      [row.civilDawn, light.civilDawnEpochH],
      [row.rise, light.sunriseEpochH],
      [row.set, light.sunsetEpochH],
      [row.civilDusk, light.civilDuskEpochH],
    ]
    for (const [published, ours] of pairs) {
      if (published !== undefined) expect(Math.abs(ours - epochH(published)), published).toBeLessThan(MINUTE_H)
    }
    expect(light.always).toBe('no')
  })

  it.each(POLAR_ROWS)('USNO has no rise and no set at 70 N, $date: always $always', (row) => {
    const light = daylightOf(row, dateOf(row.date), 'Europe/Oslo')
    expect(light.always).toBe(row.always)
    expect(light.sunriseEpochH).toBeNaN()
    expect(light.sunsetEpochH).toBeNaN()
  })

  it('NREL: sunrise at Golden within 5 seconds; the quoted sunset is 88 seconds later than ours and is not used', () => {
    const light = daylightOf(NREL_GOLDEN, dateOf(NREL_GOLDEN.date), NREL_GOLDEN.timeZone)
    expect(Math.abs(light.sunriseEpochH - epochH(NREL_GOLDEN.rise))).toBeLessThan(5 / 3600)
    const apartS = (epochH(NREL_GOLDEN.doubtfulSet) - light.sunsetEpochH) * 3600
    expect(apartS).toBeGreaterThan(60)
    expect(apartS).toBeLessThan(120)
  })

  it('come in order, on the date asked for, in any zone of the grain belts', () => {
    const places = USNO_ROWS.filter((row) => Math.abs(row.latDeg) < 55)
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.integer({ min: 0, max: 365 * 30 }), (place, days) => {
        const date = dateOf('2005-01-01').add({ days })
        const light = daylightOf(place, date, place.timeZone)
        expect(light.civilDawnEpochH).toBeLessThan(light.sunriseEpochH)
        expect(light.sunriseEpochH).toBeLessThan(light.sunsetEpochH)
        expect(light.sunsetEpochH).toBeLessThan(light.civilDuskEpochH)
        expect(localDateOf(light.sunriseEpochH, place.timeZone).equals(date)).toBe(true)
        expect(localDateOf(light.sunsetEpochH, place.timeZone).equals(date)).toBe(true)
        expect(light.always).toBe('no')
      }),
    )
  })

  it('last as long as FAO-56 eq. 34 says, and up to 0.6 h longer or 0.1 h shorter (refraction, size of the sun)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.integer({ min: 1, max: 365 }),
        (latDeg, lonDeg, dayOfYear) => {
          const date = dateOf('2026-01-01').add({ days: dayOfYear - 1 })
          const light = daylightOf({ latDeg, lonDeg }, date, 'UTC')
          const longer = light.sunsetEpochH - light.sunriseEpochH - daylightHours(latDeg, dayOfYear)
          expect(longer).toBeGreaterThan(-0.1)
          expect(longer).toBeLessThan(0.6)
        },
      ),
    )
  })

  it('say whether the sun stays up or down wherever it does not rise', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.integer({ min: 0, max: 365 }),
        (latDeg, lonDeg, days) => {
          const light = daylightOf({ latDeg, lonDeg }, dateOf('2026-01-01').add({ days }), 'UTC')
          expect(Number.isNaN(light.sunriseEpochH)).toBe(light.always !== 'no')
          expect(Number.isNaN(light.sunsetEpochH)).toBe(light.always !== 'no')
        },
      ),
    )
  })

  it('hold on the days on which the clocks change', () => {
    for (const date of ['2026-03-08', '2026-11-01']) {
      const light = daylightOf({ latDeg: 40.06, lonDeg: -88.2 }, dateOf(date), 'America/Chicago')
      expect(localDateOf(light.sunriseEpochH, 'America/Chicago').toString()).toBe(date)
      expect(localDateOf(light.sunsetEpochH, 'America/Chicago').toString()).toBe(date)
    }
  })

  it('are not known for a place that is not known', () => {
    for (const place of [
      { latDeg: Number.NaN, lonDeg: 0 },
      { latDeg: 40, lonDeg: Number.NaN },
      { latDeg: 91, lonDeg: 0 },
      { latDeg: 40, lonDeg: 200 },
    ]) {
      const light = daylightOf(place, dateOf('2026-10-01'), 'UTC')
      expect(light.sunriseEpochH).toBeNaN()
      expect(light.sunsetEpochH).toBeNaN()
      expect(light.civilDawnEpochH).toBeNaN()
      expect(light.civilDuskEpochH).toBeNaN()
    }
  })
})

describe('position of the sun', () => {
  it('NREL at Golden: zenith 50.11 and azimuth 194.34 deg within 0.01 deg', () => {
    const { latDeg, lonDeg, instant, zenithDeg, azimuthDeg } = NREL_GOLDEN
    const sun = sunPosition(latDeg, lonDeg, epochH(instant))
    expect(Math.abs(90 - sun.altitudeDeg - zenithDeg)).toBeLessThan(0.01)
    expect(Math.abs(sun.azimuthDeg - azimuthDeg)).toBeLessThan(0.01)
  })

  it('stands near the horizon at sunrise and sunset, in the east and in the west', () => {
    fc.assert(
      fc.property(fc.constantFrom(...USNO_ROWS), fc.integer({ min: 0, max: 3650 }), (row, days) => {
        const light = daylightOf(row, dateOf('2020-01-01').add({ days }), row.timeZone)
        const rise = sunPosition(row.latDeg, row.lonDeg, light.sunriseEpochH)
        const set = sunPosition(row.latDeg, row.lonDeg, light.sunsetEpochH)
        // 0.833 deg below by definition, lifted by 0.48 deg of refraction: the upper edge touches the horizon
        expect(rise.altitudeDeg).toBeCloseTo(-0.35, 1)
        expect(set.altitudeDeg).toBeCloseTo(-0.35, 1)
        expect(rise.azimuthDeg).toBeLessThan(180)
        expect(set.azimuthDeg).toBeGreaterThan(180)
      }),
    )
  })

  it('is a direction in the sky, or NaN', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: 262_968, max: 701_256, noNaN: true }),
        (lat, lon, hours) => {
          const { altitudeDeg, azimuthDeg } = sunPosition(lat, lon, hours)
          expect(Math.abs(altitudeDeg)).toBeLessThanOrEqual(90.5)
          expect(azimuthDeg).toBeGreaterThanOrEqual(0)
          expect(azimuthDeg).toBeLessThanOrEqual(360)
        },
      ),
    )
    const unknown = { altitudeDeg: Number.NaN, azimuthDeg: Number.NaN }
    expect(sunPosition(Number.NaN, 0, 500_000)).toEqual(unknown)
    expect(sunPosition(40, 181, 500_000)).toEqual(unknown)
    expect(sunPosition(40, 0, Number.NaN)).toEqual(unknown)
  })
})
