import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  clearSkyWm2,
  daylightHours,
  extraterrestrialMJPerDay,
  extraterrestrialWm2,
  inverseSunDistance,
  MJ_PER_WM2_HOUR,
  netRadiationMJPerDay,
  netRadiationMJPerH,
  SOLAR_CONSTANT_WM2,
  seasonalCorrectionH,
  solarDeclinationRad,
  solarFromCloudWm2,
  solarFromTempRange,
  sunsetHourAngleRad,
} from '#core/science/air/radiation.ts'
import { vapourPressureKPa } from '#core/science/air/vapour.ts'
import { sunPosition } from '#core/science/sun/daylight.ts'
import { epochHourOf } from '#core/units/time.ts'
import {
  EXAMPLE_8,
  EXAMPLE_11,
  EXAMPLE_15,
  EXAMPLE_17,
  EXAMPLE_18,
  EXAMPLE_19,
  EXAMPLE_20,
  MEEUS_1992_10_13,
  NCL_CLEAR_SKY,
} from '#tests/truth/fao56.ts'

const DEG_PER_RAD = 180 / Math.PI
const latitude = fc.double({ min: -90, max: 90, noNaN: true })
const longitude = fc.double({ min: -180, max: 180, noNaN: true })
const dayOfYear = fc.integer({ min: 1, max: 366 })
/** 2000 to 2050. */
const hour = fc.integer({ min: 262_968, max: 701_256 })
const NEW_YEAR_2026 = epochHourOf(Temporal.Instant.from('2026-01-01T00:00Z'))

/** First UTC hour of a day of the year 2026. */
const dayStart = (day: number): number => NEW_YEAR_2026 + (day - 1) * 24

describe('path of the sun', () => {
  it('FAO-56 examples 8 and 9: 3 September at 20 deg S', () => {
    expect(inverseSunDistance(EXAMPLE_8.dayOfYear)).toBeCloseTo(EXAMPLE_8.inverseDistance, 3)
    expect(solarDeclinationRad(EXAMPLE_8.dayOfYear)).toBeCloseTo(EXAMPLE_8.declinationRad, 3)
    expect(sunsetHourAngleRad(EXAMPLE_8.latDeg, EXAMPLE_8.dayOfYear)).toBeCloseTo(EXAMPLE_8.sunsetRad, 3)
    expect(daylightHours(EXAMPLE_8.latDeg, EXAMPLE_8.dayOfYear)).toBeCloseTo(EXAMPLE_8.daylightH, 1)
  })

  it('FAO-56 examples 10 and 18: 10.9 and 16.1 hours of daylight', () => {
    expect(daylightHours(EXAMPLE_11.latDeg, EXAMPLE_11.dayOfYear)).toBeCloseTo(EXAMPLE_11.daylightH, 1)
    expect(daylightHours(EXAMPLE_18.latDeg, EXAMPLE_18.dayOfYear)).toBeCloseTo(EXAMPLE_18.daylightH, 1)
  })

  it('the simple declination is 1.6 deg off the astronomical one in mid October, solar time 1.1 min', () => {
    const declinationDeg = solarDeclinationRad(MEEUS_1992_10_13.dayOfYear) * DEG_PER_RAD
    expect(Math.abs(declinationDeg - MEEUS_1992_10_13.declinationDeg)).toBeLessThan(1.6)
    const correctionMin = seasonalCorrectionH(MEEUS_1992_10_13.dayOfYear) * 60
    expect(Math.abs(correctionMin - MEEUS_1992_10_13.equationOfTimeMin)).toBeLessThan(1.1)
  })

  it('day and night of opposite latitudes make 24 hours', () => {
    fc.assert(
      fc.property(latitude, dayOfYear, (lat, day) => {
        expect(daylightHours(lat, day) + daylightHours(-lat, day)).toBeCloseTo(24, 9)
      }),
    )
  })

  it('knows polar day and polar night', () => {
    expect(daylightHours(80, 172)).toBe(24)
    expect(daylightHours(80, 355)).toBe(0)
    expect(extraterrestrialMJPerDay(80, 355)).toBe(0)
    for (let h = 0; h < 24; h++) {
      expect(extraterrestrialWm2(80, 15, dayStart(355) + h)).toBe(0)
      expect(extraterrestrialWm2(80, 15, dayStart(172) + h)).toBeGreaterThan(200)
    }
  })
})

describe('sunlight above the atmosphere', () => {
  it.each([
    ['8', EXAMPLE_8, 1],
    ['10', EXAMPLE_11, 1],
    ['17', EXAMPLE_17, 2],
    ['18', EXAMPLE_18, 2],
    ['20', EXAMPLE_20, 2],
    ['10 in the NCL manual', NCL_CLEAR_SKY, 2],
  ] as const)('FAO-56 example %s: daily sum', (_name, example, digits) => {
    expect(extraterrestrialMJPerDay(example.latDeg, example.dayOfYear)).toBeCloseTo(example.extraterrestrialMJ, digits)
  })

  it('FAO-56 example 19: 3.543 MJ/m2 from 14 to 15 h, nothing from 2 to 3 h', () => {
    const { latDeg, lonDeg, day, night } = EXAMPLE_19
    const start = dayStart(274)
    expect(extraterrestrialWm2(latDeg, lonDeg, start + day.utcHour) * MJ_PER_WM2_HOUR).toBeCloseTo(
      day.extraterrestrialMJ,
      3,
    )
    expect(extraterrestrialWm2(latDeg, lonDeg, start + night.utcHour)).toBe(0)
  })

  it('lies within 40 W/m2 of the same hour integrated with the sun heights of suncalc, 3 % of full sun', () => {
    const steps = 12
    let worst = 0
    for (const lat of [-55, -35, 0, 25, 40, 50, 60]) {
      for (const lon of [-120, -88, 0, 100]) {
        for (let day = 1; day <= 365; day += 28) {
          for (let h = 0; h < 24; h += 3) {
            const start = dayStart(day) + h
            let sines = 0
            for (let step = 0; step < steps; step++) {
              const { altitudeDeg } = sunPosition(lat, lon, start + (step + 0.5) / steps)
              // suncalc lifts the sun by about 0.5 deg of refraction at the horizon
              if (altitudeDeg > 0.5) sines += Math.sin(altitudeDeg / DEG_PER_RAD)
            }
            const integrated = (SOLAR_CONSTANT_WM2 * inverseSunDistance(day) * sines) / steps
            worst = Math.max(worst, Math.abs(extraterrestrialWm2(lat, lon, start) - integrated))
          }
        }
      }
    }
    expect(worst).toBeGreaterThan(0)
    expect(worst).toBeLessThan(40)
  })

  it('hours of a day add up to the sum of the day', () => {
    fc.assert(
      fc.property(latitude, fc.integer({ min: 1, max: 365 }), (lat, day) => {
        let sum = 0
        for (let h = 0; h < 24; h++) sum += extraterrestrialWm2(lat, 0, dayStart(day) + h) * MJ_PER_WM2_HOUR
        expect(sum).toBeCloseTo(extraterrestrialMJPerDay(lat, day), 6)
      }),
    )
  })

  it('is never negative, never above the solar constant at its nearest, never NaN', () => {
    fc.assert(
      fc.property(latitude, longitude, hour, (lat, lon, h) => {
        const wm2 = extraterrestrialWm2(lat, lon, h)
        expect(wm2).toBeGreaterThanOrEqual(0)
        expect(wm2).toBeLessThanOrEqual(SOLAR_CONSTANT_WM2 * 1.034)
      }),
    )
  })
})

describe('sunlight on the ground', () => {
  it('FAO-56 examples 17, 18 and 19: clear sky', () => {
    expect(clearSkyWm2(38.06, EXAMPLE_17.elevationM)).toBeCloseTo(EXAMPLE_17.clearSkyMJ, 1)
    expect(clearSkyWm2(41.09, EXAMPLE_18.elevationM)).toBeCloseTo(EXAMPLE_18.clearSkyMJ, 2)
    expect(clearSkyWm2(3.543, EXAMPLE_19.elevationM)).toBeCloseTo(EXAMPLE_19.day.clearSkyMJ, 3)
    expect(clearSkyWm2(NCL_CLEAR_SKY.extraterrestrialMJ, 0)).toBeCloseTo(NCL_CLEAR_SKY.clearSkyMJ, 3)
  })

  it('Kasten and Czeplak 1980: a quarter under 8 oktas, 93 % under 4', () => {
    expect(solarFromCloudWm2(800, 1)).toBeCloseTo(200, 9)
    expect(solarFromCloudWm2(800, 0)).toBe(800)
    expect(solarFromCloudWm2(1, 0.5)).toBeCloseTo(0.929, 3)
  })

  it('cloud never brightens', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1100, noNaN: true }),
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        (clear, cloud) => {
          const solar = solarFromCloudWm2(clear, cloud)
          expect(solarFromCloudWm2(clear, cloud + 0.01)).toBeLessThanOrEqual(solar)
          expect(solar).toBeLessThanOrEqual(clear)
          expect(solar).toBeGreaterThanOrEqual(0.25 * clear)
        },
      ),
    )
  })

  it('FAO-56 examples 15 and 20: from the span of temperature', () => {
    for (const [example, digits] of [
      [EXAMPLE_15, 1],
      [EXAMPLE_20, 2],
    ] as const) {
      expect(solarFromTempRange(example.extraterrestrialMJ, example.tempMaxC, example.tempMinC)).toBeCloseTo(
        example.solarMJ,
        digits,
      )
    }
    expect(solarFromTempRange(40.6, 26.6, 14.8, 0.19)).toBeCloseTo((22.3 * 0.19) / 0.16, 0)
  })

  it('never exceeds what comes in, and grows with the span', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 55, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (low, span) => {
          const solar = solarFromTempRange(30, low + span, low)
          expect(solar).toBeLessThanOrEqual(30)
          expect(solarFromTempRange(30, low + span + 1, low)).toBeGreaterThanOrEqual(solar)
        },
      ),
    )
  })
})

describe('net radiation', () => {
  it.each([
    ['11 and 12', EXAMPLE_11, 1],
    ['17', EXAMPLE_17, 2],
    ['18', EXAMPLE_18, 2],
  ] as const)('FAO-56 example %s: daily', (_name, example, digits) => {
    const { tempMaxC, tempMinC, vapourKPa, solarMJ, clearSkyMJ, netMJ } = example
    expect(netRadiationMJPerDay(tempMaxC, tempMinC, vapourKPa, solarMJ, clearSkyMJ)).toBeCloseTo(netMJ, digits)
  })

  it('FAO-56 example 11: 3.5 MJ/m2/d of heat rays are lost', () => {
    const { tempMaxC, tempMinC, vapourKPa, solarMJ, clearSkyMJ, netLongwaveMJ } = EXAMPLE_11
    const net = netRadiationMJPerDay(tempMaxC, tempMinC, vapourKPa, solarMJ, clearSkyMJ)
    expect(0.77 * solarMJ - net).toBeCloseTo(netLongwaveMJ, 1)
  })

  it('FAO-56 example 19: 1.749 by day, -0.100 MJ/m2/h by night', () => {
    const { day, night } = EXAMPLE_19
    const dayNet = netRadiationMJPerH(
      day.airTempC,
      vapourPressureKPa(day.airTempC, day.relHumidity),
      day.solarMJ / MJ_PER_WM2_HOUR,
      day.solarMJ / day.clearSkyMJ,
    )
    expect(dayNet).toBeCloseTo(day.netMJ, 2)
    const nightVapour = vapourPressureKPa(night.airTempC, night.relHumidity)
    expect(netRadiationMJPerH(night.airTempC, nightVapour, 0, night.clearness)).toBeCloseTo(night.netMJ, 3)
  })

  it('loses heat at night, more under a clear sky, and gains with sunlight', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 55, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (t, rh, clearness) => {
          const vapour = vapourPressureKPa(t, rh)
          const night = netRadiationMJPerH(t, vapour, 0, clearness)
          expect(night).toBeLessThanOrEqual(0)
          expect(night).toBeGreaterThan(-0.9)
          expect(netRadiationMJPerH(t, vapour, 0, 1)).toBeLessThanOrEqual(night)
          expect(netRadiationMJPerH(t, vapour, 100, clearness) - night).toBeCloseTo(0.77 * 0.36, 9)
        },
      ),
    )
  })

  it('counts a day without clear-sky light as clear', () => {
    const clear = netRadiationMJPerDay(-20, -30, 0.04, 1, 1) - 0.77
    expect(netRadiationMJPerDay(-20, -30, 0.04, 0, 0)).toBeCloseTo(clear, 9)
    expect(clear).toBeLessThan(0)
  })
})

describe('what is not known or out of range', () => {
  const nan = Number.NaN

  it('gives NaN', () => {
    for (const value of [
      daylightHours(91, 100),
      daylightHours(nan, 100),
      daylightHours(40, nan),
      sunsetHourAngleRad(-90.1, 1),
      solarDeclinationRad(nan),
      inverseSunDistance(nan),
      seasonalCorrectionH(nan),
      extraterrestrialMJPerDay(nan, 1),
      extraterrestrialMJPerDay(40, nan),
      extraterrestrialWm2(nan, 0, 500_000),
      extraterrestrialWm2(91, 0, 500_000),
      extraterrestrialWm2(40, nan, 500_000),
      extraterrestrialWm2(40, 181, 500_000),
      extraterrestrialWm2(40, 0, nan),
      extraterrestrialWm2(40, 0, Number.POSITIVE_INFINITY),
      clearSkyWm2(nan, 0),
      clearSkyWm2(-1, 0),
      clearSkyWm2(500, nan),
      clearSkyWm2(500, 20_000),
      solarFromCloudWm2(nan, 0.5),
      solarFromCloudWm2(500, nan),
      solarFromCloudWm2(500, 1.1),
      solarFromTempRange(30, 10, 12),
      solarFromTempRange(30, nan, 12),
      solarFromTempRange(nan, 20, 12),
      netRadiationMJPerH(nan, 1, 100, 0.5),
      netRadiationMJPerH(20, nan, 100, 0.5),
      netRadiationMJPerH(20, -0.1, 100, 0.5),
      netRadiationMJPerH(20, 1, nan, 0.5),
      netRadiationMJPerH(20, 1, -1, 0.5),
      netRadiationMJPerH(20, 1, 100, nan),
      netRadiationMJPerDay(10, 12, 1, 10, 20),
      netRadiationMJPerDay(20, 12, nan, 10, 20),
      netRadiationMJPerDay(20, 12, 1, nan, 20),
      netRadiationMJPerDay(20, 12, 1, 10, nan),
    ]) {
      expect(value).toBeNaN()
    }
  })
})
