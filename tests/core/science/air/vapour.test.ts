import fc from 'fast-check'
import psychrolib from 'psychrolib'
import { describe, expect, it } from 'vitest'
import {
  airPressureKPa,
  dewPointC,
  psychrometricConstantKPaPerC,
  relHumidityFromDewPoint,
  saturationSlopeKPaPerC,
  saturationVapourPressureKPa,
  vapourPressureDeficitKPa,
  vapourPressureKPa,
  wetBulbC,
} from '#core/science/air/vapour.ts'
import {
  ASHRAE_DEW_POINT,
  ASHRAE_EXAMPLE_1,
  ASHRAE_PRESSURE,
  ASHRAE_SATURATION,
  ASHRAE_WET_BULB,
  FAO_PRESSURE,
  FAO_PSYCHROMETER,
  FAO_PSYCHROMETRIC,
  FAO_SATURATION,
  FAO_SLOPE,
  SMITHSONIAN_SUPERCOOLED,
  STULL_ERROR,
  STULL_EXAMPLE,
} from '#tests/truth/psychrometrics.ts'

psychrolib.SetUnitSystem(psychrolib.SI)

const airTemp = fc.double({ min: -50, max: 55, noNaN: true })
const relHumidity = fc.double({ min: 0, max: 1, noNaN: true })
const pressure = fc.double({ min: 50, max: 110, noNaN: true })

/** Every `step` from `from` to `to`, both included. */
const grid = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => Math.min(to, from + i * step))

describe('saturation vapour pressure', () => {
  it.each(FAO_SATURATION)('FAO-56 prints $pressureKPa kPa at $airTempC deg C', ({ airTempC, pressureKPa, digits }) => {
    expect(saturationVapourPressureKPa(airTempC)).toBeCloseTo(pressureKPa, digits)
  })

  it.each(ASHRAE_SATURATION.filter((row) => row.over === 'water'))(
    'ASHRAE table 3 at $airTempC deg C within 0.12 %, the distance of the two published forms',
    ({ airTempC, pressurePa }) => {
      expect(Math.abs((saturationVapourPressureKPa(airTempC) * 1000) / pressurePa - 1)).toBeLessThan(0.0012)
    },
  )

  it.each(ASHRAE_SATURATION.filter((row) => row.over === 'ice'))(
    'lies above ASHRAE table 3 at $airTempC deg C, which is over ice',
    ({ airTempC, pressurePa }) => {
      expect(saturationVapourPressureKPa(airTempC) * 1000).toBeGreaterThan(pressurePa)
    },
  )

  it('is 0.65 % low at -20, 2.7 % at -40 and 4.5 % at -50 deg C against the Smithsonian table over water', () => {
    const limits: Record<number, number> = { [-10]: 0.0025, [-20]: 0.0065, [-30]: 0.0145, [-40]: 0.027, [-50]: 0.045 }
    for (const { airTempC, pressurePa } of SMITHSONIAN_SUPERCOOLED) {
      const error = (saturationVapourPressureKPa(airTempC) * 1000) / pressurePa - 1
      expect(Math.abs(error), `${airTempC} deg C`).toBeLessThan(limits[airTempC]!)
    }
  })

  it('differs from psychrolib by at most 0.12 % from 0.5 to 55 deg C', () => {
    for (const airTempC of grid(0.5, 55, 0.5)) {
      const ratio = (saturationVapourPressureKPa(airTempC) * 1000) / psychrolib.GetSatVapPres(airTempC)
      expect(Math.abs(ratio - 1), `${airTempC} deg C`).toBeLessThan(0.0012)
    }
  })

  it('rises with temperature', () => {
    fc.assert(
      fc.property(airTemp, fc.double({ min: 0.01, max: 5, noNaN: true }), (t, more) => {
        expect(saturationVapourPressureKPa(t + more)).toBeGreaterThan(saturationVapourPressureKPa(t))
      }),
    )
  })

  it.each(FAO_SLOPE)('has the slope $slope kPa/deg C that FAO-56 prints at $airTempC deg C', ({ airTempC, slope }) => {
    expect(saturationSlopeKPaPerC(airTempC)).toBeCloseTo(slope, 3)
  })

  it('has the slope of its own curve', () => {
    fc.assert(
      fc.property(airTemp, (t) => {
        const chord = (saturationVapourPressureKPa(t + 0.01) - saturationVapourPressureKPa(t - 0.01)) / 0.02
        expect(saturationSlopeKPaPerC(t) / chord).toBeCloseTo(1, 4)
      }),
    )
  })
})

describe('vapour pressure and deficit', () => {
  it('FAO-56 example 5: 18 deg C at 82 % and 25 deg C at 54 % make 1.70 kPa', () => {
    expect((vapourPressureKPa(18, 0.82) + vapourPressureKPa(25, 0.54)) / 2).toBeCloseTo(1.7, 2)
  })

  it('FAO-56 example 19: deficits of 0.378 and 3.180 kPa', () => {
    expect(vapourPressureDeficitKPa(28, 0.9)).toBeCloseTo(0.378, 3)
    expect(vapourPressureDeficitKPa(38, 0.52)).toBeCloseTo(3.18, 3)
  })

  it('add up to saturation', () => {
    fc.assert(
      fc.property(airTemp, relHumidity, (t, rh) => {
        const sum = vapourPressureKPa(t, rh) + vapourPressureDeficitKPa(t, rh)
        expect(sum).toBeCloseTo(saturationVapourPressureKPa(t), 10)
        expect(vapourPressureDeficitKPa(t, rh)).toBeGreaterThanOrEqual(0)
      }),
    )
  })
})

describe('dew point', () => {
  it('25 deg C at 80 %: 21.31 deg C by ASHRAE', () => {
    const { airTempC, relHumidity, dewPointC: published } = ASHRAE_DEW_POINT
    expect(Math.abs(dewPointC(airTempC, relHumidity) - published)).toBeLessThan(0.01)
  })

  it('ASHRAE example 1: 7 deg C on the chart', () => {
    expect(Math.abs(dewPointC(40, ASHRAE_EXAMPLE_1.relHumidity) - ASHRAE_EXAMPLE_1.dewPointC)).toBeLessThan(0.5)
  })

  it('differs from psychrolib by at most 0.02 deg C where the dew point is above freezing', () => {
    let compared = 0
    for (const t of grid(2.5, 55, 2.5)) {
      for (const rh of grid(0.05, 1, 0.05)) {
        const theirs = psychrolib.GetTDewPointFromRelHum(t, rh)
        if (theirs <= 0.02) continue
        compared++
        expect(Math.abs(dewPointC(t, rh) - theirs), `${t} deg C, ${rh}`).toBeLessThan(0.02)
        expect(Math.abs(relHumidityFromDewPoint(t, theirs) - rh), `${t} deg C, ${rh}`).toBeLessThan(0.0015)
      }
    }
    expect(compared).toBeGreaterThan(300)
  })

  it('lies below the frost point of psychrolib in freezing air', () => {
    for (const t of grid(-50, -5, 5)) {
      const vapourPa = vapourPressureKPa(t, 0.5) * 1000
      expect(dewPointC(t, 0.5)).toBeLessThan(
        psychrolib.GetTDewPointFromRelHum(t, vapourPa / psychrolib.GetSatVapPres(t)),
      )
    }
  })

  it('is never above the air temperature, rises with humidity and goes back to it', () => {
    fc.assert(
      fc.property(airTemp, fc.double({ min: 0.001, max: 0.99, noNaN: true }), (t, rh) => {
        const dew = dewPointC(t, rh)
        expect(dew).toBeLessThanOrEqual(t)
        expect(dewPointC(t, rh + 0.01)).toBeGreaterThan(dew)
        expect(relHumidityFromDewPoint(t, dew)).toBeCloseTo(rh, 9)
      }),
    )
  })

  it('is finite in bone-dry air and equals the air temperature in saturated air', () => {
    expect(dewPointC(-50, 0)).toBe(dewPointC(-50, 0.001))
    expect(dewPointC(-50, 0)).toBeGreaterThan(-100)
    expect(dewPointC(12, 1)).toBeCloseTo(12, 9)
  })

  it('above the air temperature counts as saturated', () => {
    expect(relHumidityFromDewPoint(10, 10.4)).toBe(1)
  })
})

describe('air pressure', () => {
  it.each(FAO_PRESSURE)('FAO-56 prints $pressureKPa kPa at $elevationM m', ({ elevationM, pressureKPa }) => {
    expect(airPressureKPa(elevationM)).toBeCloseTo(pressureKPa, 1)
  })

  it.each(ASHRAE_PRESSURE)(
    'ASHRAE table 1 at $elevationM m within 0.85 %: FAO-56 takes 20, ASHRAE 15 deg C at sea level',
    ({ elevationM, pressurePa }) => {
      expect(Math.abs((airPressureKPa(elevationM) * 1000) / pressurePa - 1)).toBeLessThan(0.0085)
    },
  )

  it('falls with height', () => {
    fc.assert(
      fc.property(fc.double({ min: -500, max: 8900, noNaN: true }), (z) => {
        expect(airPressureKPa(z + 50)).toBeLessThan(airPressureKPa(z))
      }),
    )
  })

  it.each(FAO_PSYCHROMETRIC)(
    'FAO-56 prints the psychrometric constant $constant at $pressureKPa kPa',
    ({ pressureKPa, constant, digits }) => {
      expect(psychrometricConstantKPaPerC(pressureKPa)).toBeCloseTo(constant, digits)
    },
  )

  it('makes the psychrometric constant rise in proportion', () => {
    fc.assert(
      fc.property(pressure, (p) => {
        expect(psychrometricConstantKPaPerC(2 * p)).toBeCloseTo(2 * psychrometricConstantKPaPerC(p), 12)
      }),
    )
  })
})

describe('wet bulb', () => {
  it('ASHRAE example 1: 20 deg C at 40 deg C and 14 % (chart)', () => {
    const { airTempC, relHumidity, pressureKPa, wetBulbC: published } = ASHRAE_EXAMPLE_1
    expect(Math.abs(wetBulbC(airTempC, relHumidity, pressureKPa) - published)).toBeLessThan(0.05)
  })

  it('ASHRAE equations: 25 deg C at 30 deg C, W 0.0192281, 95.461 kPa', () => {
    const { airTempC, pressureKPa, humidityRatio, wetBulbC: published } = ASHRAE_WET_BULB
    const vapourKPa = (humidityRatio * pressureKPa) / (0.621945 + humidityRatio)
    const rh = vapourKPa / saturationVapourPressureKPa(airTempC)
    expect(Math.abs(wetBulbC(airTempC, rh, pressureKPa) - published)).toBeLessThan(0.01)
  })

  it('FAO-56 example 4: a ventilated psychrometer shows 19.5 deg C; the thermodynamic wet bulb is 0.05 lower', () => {
    const { airTempC, vapourKPa, pressureKPa, wetBulbC: published } = FAO_PSYCHROMETER
    const ours = wetBulbC(airTempC, vapourKPa / saturationVapourPressureKPa(airTempC), pressureKPa)
    expect(Math.abs(ours - published)).toBeLessThan(0.07)
  })

  it('lies within the error that Stull states for his approximation: 13.7 there, 13.78 here', () => {
    const error = STULL_EXAMPLE.wetBulbC - wetBulbC(STULL_EXAMPLE.airTempC, STULL_EXAMPLE.relHumidity, 101.325)
    expect(error).toBeGreaterThan(STULL_ERROR.low)
    expect(error).toBeLessThan(STULL_ERROR.high)
  })

  it('differs from psychrolib by at most 0.01 deg C above freezing', () => {
    let compared = 0
    for (const p of [70, 85, 101.325]) {
      for (const t of grid(2.5, 55, 2.5)) {
        for (const rh of grid(0, 1, 0.1)) {
          const theirs = psychrolib.GetTWetBulbFromRelHum(t, rh, p * 1000)
          if (theirs <= 0.02) continue
          compared++
          expect(Math.abs(wetBulbC(t, rh, p) - theirs), `${t} deg C, ${rh}, ${p} kPa`).toBeLessThan(0.01)
        }
      }
    }
    expect(compared).toBeGreaterThan(600)
  })

  it('stays within 0.5 deg C of the ice bulb of psychrolib below freezing, for the same water in the air', () => {
    for (const p of [70, 101.325]) {
      for (const t of grid(-50, -2.5, 2.5)) {
        for (const rh of [0.05, 0.3, 0.6]) {
          const vapourPa = vapourPressureKPa(t, rh) * 1000
          const theirs = psychrolib.GetTWetBulbFromHumRatio(
            t,
            psychrolib.GetHumRatioFromVapPres(vapourPa, p * 1000),
            p * 1000,
          )
          expect(Math.abs(wetBulbC(t, rh, p) - theirs), `${t} deg C, ${rh}, ${p} kPa`).toBeLessThan(0.5)
        }
      }
    }
  })

  it('lies between dew point and air temperature and rises with humidity', () => {
    fc.assert(
      fc.property(airTemp, fc.double({ min: 0, max: 0.99, noNaN: true }), pressure, (t, rh, p) => {
        const wet = wetBulbC(t, rh, p)
        expect(wet).toBeLessThanOrEqual(t)
        expect(wet).toBeGreaterThanOrEqual(dewPointC(t, rh) - 1e-6)
        expect(wetBulbC(t, rh + 0.01, p)).toBeGreaterThan(wet)
        expect(wetBulbC(t, 1, p)).toBeCloseTo(t, 6)
      }),
    )
  })

  it('is not known where water would boil', () => {
    expect(wetBulbC(95, 0.5, 80)).toBeNaN()
  })
})

describe('what is not known or out of range', () => {
  const bad = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]

  it('gives NaN for temperature', () => {
    for (const t of [...bad, 293.15, -237.3]) {
      for (const value of [
        saturationVapourPressureKPa(t),
        saturationSlopeKPaPerC(t),
        vapourPressureKPa(t, 0.5),
        vapourPressureDeficitKPa(t, 0.5),
        dewPointC(t, 0.5),
        relHumidityFromDewPoint(t, 5),
        relHumidityFromDewPoint(20, t),
        wetBulbC(t, 0.5, 100),
      ]) {
        expect(value, String(t)).toBeNaN()
      }
    }
  })

  it('gives NaN for humidity', () => {
    for (const rh of [...bad, -0.01, 1.01, 50]) {
      for (const value of [
        vapourPressureKPa(20, rh),
        vapourPressureDeficitKPa(20, rh),
        dewPointC(20, rh),
        wetBulbC(20, rh, 100),
      ]) {
        expect(value, String(rh)).toBeNaN()
      }
    }
  })

  it('gives NaN for height and pressure', () => {
    for (const z of [...bad, -501, 9001]) expect(airPressureKPa(z), String(z)).toBeNaN()
    for (const p of [Number.NaN, 0, -1]) {
      expect(psychrometricConstantKPaPerC(p)).toBeNaN()
      expect(wetBulbC(20, 0.5, p)).toBeNaN()
    }
  })
})
