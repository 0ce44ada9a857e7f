import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type DailyEtInput,
  type HourlyEtInput,
  hargreavesMmPerDay,
  hourlyReferenceEtMm,
  referenceEtMmPerDay,
  referenceEtMmPerH,
  windAt2m,
} from '#core/science/air/evapotranspiration.ts'
import {
  clearSkyWm2,
  extraterrestrialMJPerDay,
  extraterrestrialWm2,
  MJ_PER_WM2_HOUR,
} from '#core/science/air/radiation.ts'
import { airPressureKPa, saturationVapourPressureKPa, vapourPressureKPa } from '#core/science/air/vapour.ts'
import { epochHourOf } from '#core/units/time.ts'
import { type Place, unknownWeatherArrays, type Weather } from '#core/units/weather.ts'
import { EXAMPLE_17, EXAMPLE_18, EXAMPLE_19, EXAMPLE_20, WIND_EXAMPLES } from '#tests/truth/fao56.ts'

/** Wind at 10 m that makes the given wind at 2 m by FAO-56 eq. 47. */
const windAt10m = (wind2mMs: number): number => wind2mMs / windAt2m(1, 10)

const NDIAYE: Place = { latDeg: EXAMPLE_19.latDeg, lonDeg: EXAMPLE_19.lonDeg, elevationM: EXAMPLE_19.elevationM }
const FIRST_OF_OCTOBER = epochHourOf(Temporal.Instant.from('2026-10-01T00:00Z'))

interface Hour {
  readonly airTempC: number
  readonly relHumidity: number
  readonly wind2mMs: number
  readonly solarWm2: number
}

/** A weather value of the given members and hours, as `at` says. */
function weatherOf(
  place: Place,
  startEpochH: number,
  members: number,
  hours: number,
  at: (hour: number, member: number) => Hour,
): Weather {
  const arrays = unknownWeatherArrays(members, hours)
  for (let member = 0; member < members; member++) {
    for (let hour = 0; hour < hours; hour++) {
      const value = at(hour, member)
      const index = member * hours + hour
      arrays.airTempC[index] = value.airTempC
      arrays.relHumidity[index] = value.relHumidity
      arrays.windMs[index] = windAt10m(value.wind2mMs)
      arrays.solarWm2[index] = value.solarWm2
    }
  }
  const provenance = {
    source: 'made for a test',
    attribution: '',
    licence: '',
    issuedAtEpochH: startEpochH,
    spread: 'ensemble',
    remarks: [],
  } as const
  return { place, startEpochH, hours, members, ...arrays, provenance }
}

describe('wind at 2 m', () => {
  it.each(WIND_EXAMPLES)('FAO-56 prints $wind2mMs m/s', ({ windMs, heightM, wind2mMs, digits }) => {
    expect(windAt2m(windMs, heightM)).toBeCloseTo(wind2mMs, digits)
  })

  it('leaves wind at 2 m as it is, and falls with the height of the mast', () => {
    expect(windAt2m(5, 2)).toBeCloseTo(5, 2)
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 40, noNaN: true }),
        fc.double({ min: 0.5, max: 99, noNaN: true }),
        (wind, height) => {
          expect(windAt2m(wind, height + 1)).toBeLessThan(windAt2m(wind, height))
        },
      ),
    )
  })
})

describe('reference evapotranspiration of a day', () => {
  it('FAO-56 example 17: Bangkok in April, 5.72 mm/d', () => {
    expect(referenceEtMmPerDay(EXAMPLE_17)).toBeCloseTo(EXAMPLE_17.etMm, 1)
    expect(Math.abs(referenceEtMmPerDay(EXAMPLE_17) - EXAMPLE_17.etMm)).toBeLessThan(0.006)
  })

  it('FAO-56 example 18: Uccle, 3.88 mm/d, from the extremes of humidity', () => {
    const { tempMinC, tempMaxC, relHumidityMax, relHumidityMin, etMm } = EXAMPLE_18
    const vapourKPa = (vapourPressureKPa(tempMinC, relHumidityMax) + vapourPressureKPa(tempMaxC, relHumidityMin)) / 2
    expect(vapourKPa).toBeCloseTo(EXAMPLE_18.vapourKPa, 3)
    const et = referenceEtMmPerDay({ ...EXAMPLE_18, vapourKPa })
    expect(et).toBeCloseTo(etMm, 2)
    expect(Math.abs(et - EXAMPLE_18.etOfMeanTempMm)).toBeGreaterThan(0.1)
  })

  it('FAO-56 example 20: near Lyon from temperature alone, 4.56 mm/d', () => {
    const { latDeg, dayOfYear, elevationM, tempMaxC, tempMinC, etMm } = EXAMPLE_20
    expect(referenceEtMmPerDay({ latDeg, dayOfYear, elevationM, tempMaxC, tempMinC })).toBeCloseTo(etMm, 2)
  })

  it('replaces what is left out by the FAO-56 procedures', () => {
    const { latDeg, dayOfYear, elevationM, tempMaxC, tempMinC, vapourKPa, solarMJ } = EXAMPLE_20
    const bare: DailyEtInput = { latDeg, dayOfYear, elevationM, tempMaxC, tempMinC }
    const full: DailyEtInput = { ...bare, vapourKPa, solarMJ, wind2mMs: 2, soilMJ: 0 }
    expect(referenceEtMmPerDay(full)).toBeCloseTo(referenceEtMmPerDay(bare), 2)
    for (const key of ['vapourKPa', 'solarMJ', 'wind2mMs', 'soilMJ'] as const) {
      expect(referenceEtMmPerDay({ ...full, [key]: Number.NaN }), key).toBeNaN()
    }
  })

  it('is finite for any weather and place, and grows with sunlight', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.integer({ min: 1, max: 366 }),
        fc.double({ min: -50, max: 45, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 35, noNaN: true }),
        (latDeg, dayOfYear, tempMinC, span, wind2mMs) => {
          const input = { latDeg, dayOfYear, elevationM: 200, tempMinC, tempMaxC: tempMinC + span, wind2mMs }
          const et = referenceEtMmPerDay({ ...input, solarMJ: 5 })
          expect(Math.abs(et)).toBeLessThan(200)
          expect(referenceEtMmPerDay(input)).not.toBeNaN()
          expect(referenceEtMmPerDay({ ...input, solarMJ: 35 })).toBeGreaterThan(et)
        },
      ),
    )
  })
})

describe('Hargreaves', () => {
  it('FAO-56 example 20: 5.0 mm/d', () => {
    const { tempMaxC, tempMinC, latDeg, dayOfYear, hargreavesMm } = EXAMPLE_20
    const et = hargreavesMmPerDay(tempMaxC, tempMinC, extraterrestrialMJPerDay(latDeg, dayOfYear))
    expect(et).toBeCloseTo(hargreavesMm, 1)
  })

  it('is never negative and grows with the span of temperature', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 45, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        (low, span) => {
          const et = hargreavesMmPerDay(low + span, low, 30)
          expect(et).toBeGreaterThanOrEqual(0)
          expect(hargreavesMmPerDay(low + span + 1, low, 30)).toBeGreaterThanOrEqual(et)
        },
      ),
    )
  })
})

describe('reference evapotranspiration of an hour', () => {
  const { day, night, elevationM } = EXAMPLE_19
  const dayHour: HourlyEtInput = {
    airTempC: day.airTempC,
    relHumidity: day.relHumidity,
    wind2mMs: day.wind2mMs,
    solarWm2: day.solarMJ / MJ_PER_WM2_HOUR,
    clearness: day.solarMJ / day.clearSkyMJ,
    sunUp: true,
    pressureKPa: airPressureKPa(elevationM),
  }
  const nightHour: HourlyEtInput = {
    airTempC: night.airTempC,
    relHumidity: night.relHumidity,
    wind2mMs: night.wind2mMs,
    solarWm2: 0,
    clearness: night.clearness,
    sunUp: false,
    pressureKPa: airPressureKPa(elevationM),
  }

  it('FAO-56 example 19: 0.63 mm from 14 to 15 h, 0.00 mm from 2 to 3 h', () => {
    expect(referenceEtMmPerH(dayHour)).toBeCloseTo(day.etMm, 2)
    expect(referenceEtMmPerH(nightHour)).toBeCloseTo(night.etMm, 2)
  })

  it('grows with sunlight and with dryness, and is finite in any weather', () => {
    fc.assert(
      fc.property(
        fc.record({
          airTempC: fc.double({ min: -50, max: 55, noNaN: true }),
          relHumidity: fc.double({ min: 0.02, max: 1, noNaN: true }),
          wind2mMs: fc.double({ min: 0, max: 35, noNaN: true }),
          solarWm2: fc.double({ min: 0, max: 1100, noNaN: true }),
          clearness: fc.double({ min: 0, max: 1.3, noNaN: true }),
          sunUp: fc.boolean(),
          pressureKPa: fc.double({ min: 50, max: 108, noNaN: true }),
        }),
        (input) => {
          const et = referenceEtMmPerH(input)
          // grass cannot gain more than the net loss of heat, at most 0.9 MJ/m2/h, would condense
          expect(et).toBeGreaterThan(-0.9 * 0.408)
          expect(et).toBeLessThan(6)
          expect(referenceEtMmPerH({ ...input, solarWm2: input.solarWm2 + 50 })).toBeGreaterThan(et)
        },
      ),
    )
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 0.9, noNaN: true }), (rh) => {
        const damp = referenceEtMmPerH({ ...dayHour, relHumidity: rh + 0.05 })
        expect(referenceEtMmPerH({ ...dayHour, relHumidity: rh })).toBeGreaterThan(damp)
      }),
    )
  })

  it('is NaN where anything is not known or out of range', () => {
    const keys = ['airTempC', 'relHumidity', 'wind2mMs', 'solarWm2', 'clearness', 'pressureKPa'] as const
    for (const key of keys) expect(referenceEtMmPerH({ ...dayHour, [key]: Number.NaN }), key).toBeNaN()
    expect(referenceEtMmPerH({ ...dayHour, wind2mMs: -1 })).toBeNaN()
    expect(windAt2m(Number.NaN, 10)).toBeNaN()
    expect(windAt2m(-1, 10)).toBeNaN()
    expect(windAt2m(3, Number.NaN)).toBeNaN()
    expect(windAt2m(3, 0.05)).toBeNaN()
    expect(hargreavesMmPerDay(10, 12, 30)).toBeNaN()
    expect(hargreavesMmPerDay(Number.NaN, 12, 30)).toBeNaN()
    expect(hargreavesMmPerDay(20, 12, Number.NaN)).toBeNaN()
  })
})

describe('reference evapotranspiration of a weather series', () => {
  const { day, night } = EXAMPLE_19
  const exampleHour = (hour: number): Hour =>
    hour === night.utcHour
      ? { airTempC: night.airTempC, relHumidity: night.relHumidity, wind2mMs: night.wind2mMs, solarWm2: 0 }
      : { ...day, solarWm2: day.solarMJ / MJ_PER_WM2_HOUR }

  it('FAO-56 example 19 in its hours, after an afternoon with the 0.8 of clear-sky sunlight that it takes', () => {
    const lead = 12
    const start = FIRST_OF_OCTOBER - lead
    const weather = weatherOf(NDIAYE, start, 1, lead + 24, (hour) => {
      if (hour >= lead) return exampleHour(hour - lead)
      const above = extraterrestrialWm2(NDIAYE.latDeg, NDIAYE.lonDeg, start + hour)
      return { ...exampleHour(0), solarWm2: night.clearness * clearSkyWm2(above, NDIAYE.elevationM) }
    })
    const et = hourlyReferenceEtMm(weather)
    expect(et).toHaveLength(36)
    expect(et[lead + day.utcHour]).toBeCloseTo(day.etMm, 2)
    expect(et[lead + night.utcHour]).toBeCloseTo(night.etMm, 2)
  })

  it('keeps the clearness of the last high sun through the night', () => {
    const series = (share: number): number => {
      const hours = weatherOf(NDIAYE, FIRST_OF_OCTOBER + 12, 1, 12, (hour) => ({
        airTempC: 28,
        relHumidity: 0.6,
        wind2mMs: 1,
        solarWm2: share * extraterrestrialWm2(NDIAYE.latDeg, NDIAYE.lonDeg, FIRST_OF_OCTOBER + 12 + hour),
      }))
      return hourlyReferenceEtMm(hours)[11]!
    }
    expect(series(0.2)).toBeGreaterThan(series(0.7))
  })

  it('hours of FAO-56 example 18 add up to its day within 5 %', () => {
    const { latDeg, elevationM, tempMaxC, tempMinC, vapourKPa, wind2mMs, solarMJ, extraterrestrialMJ, etMm } =
      EXAMPLE_18
    const place: Place = { latDeg, lonDeg: 0, elevationM }
    const midnight = epochHourOf(Temporal.Instant.from('2026-07-06T00:00Z'))
    const amplitude = (tempMaxC - tempMinC) / 2
    // a smooth course of temperature, lowest at 3 h and highest at 15 h: not part of the example
    const weather = weatherOf(place, midnight, 1, 24, (hour) => {
      const airTempC = tempMinC + amplitude * (1 - Math.cos(((hour - 3) / 12) * Math.PI))
      return {
        airTempC,
        relHumidity: Math.min(1, vapourKPa / saturationVapourPressureKPa(airTempC)),
        wind2mMs,
        solarWm2: (solarMJ / extraterrestrialMJ) * extraterrestrialWm2(latDeg, 0, midnight + hour),
      }
    })
    const sum = hourlyReferenceEtMm(weather).reduce((total, et) => total + et, 0)
    expect(Math.abs(sum / etMm - 1)).toBeLessThan(0.05)
  })

  it('is NaN in the hours and members that are not known, and only there', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 }),
        fc.integer({ min: 0, max: 23 }),
        fc.constantFrom('airTempC', 'relHumidity', 'wind2mMs', 'solarWm2'),
        (member, hour, key) => {
          const et = hourlyReferenceEtMm(
            weatherOf(NDIAYE, FIRST_OF_OCTOBER, 3, 24, (h, m) =>
              m === member && h === hour ? { ...exampleHour(h), [key]: Number.NaN } : exampleHour(h),
            ),
          )
          expect(et).toHaveLength(72)
          et.forEach((value, index) => {
            if (index === member * 24 + hour) expect(value).toBeNaN()
            else expect(value).not.toBeNaN()
          })
        },
      ),
      { numRuns: 40 },
    )
  })
})
