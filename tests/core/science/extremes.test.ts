/**
 * The chain from weather to moisture, soil, fire and dust over the whole range of weather on earth. No outside value is
 * needed: physical bounds, and that what is not known stays so.
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { hourlyReferenceEtMm } from '#core/science/air/evapotranspiration.ts'
import { CROPS, type CropName } from '#core/science/crop.ts'
import { passAdvice } from '#core/science/dust/sight.ts'
import { emptySeries, runCourses } from '#core/science/engine/courses.ts'
import { DEFAULT_FIRE_THRESHOLDS, LEVEL_UNKNOWN } from '#core/science/fire/care.ts'
import { fireCareHours } from '#core/science/fire/care-hours.ts'
import { grainDrivers } from '#core/science/grain/exchange.ts'
import { SOIL_TEXTURES } from '#core/science/soil/textures.ts'
import { topsoilOf } from '#core/science/soil/topsoil.ts'
import { canopyWater, capacityMm } from '#core/science/wetness/canopy-water.ts'
import { strawToughness } from '#core/science/wetness/cutting.ts'
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'

const HOURS = 36

/** Coldest and hottest air, dust-dry to fog, calm to storm, polar night to the sun overhead. */
const hour = fc.record({
  airTempC: fc.double({ min: -50, max: 55, noNaN: true }),
  relHumidity: fc.double({ min: 0, max: 1, noNaN: true }),
  rainMm: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 150, noNaN: true })),
  windMs: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 60, noNaN: true })),
  solarWm2: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 1200, noNaN: true })),
})

const place = fc.record({
  latDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
  elevationM: fc.double({ min: -400, max: 5000, noNaN: true }),
})

const weatherArbitrary = fc
  .tuple(place, fc.integer({ min: 0, max: 8760 }), fc.array(hour, { minLength: HOURS, maxLength: HOURS }))
  .map(([where, startEpochH, hours]): Weather => {
    const arrays = unknownWeatherArrays(1, HOURS)
    hours.forEach((values, h) => {
      arrays.airTempC[h] = values.airTempC
      arrays.relHumidity[h] = values.relHumidity
      arrays.rainMm[h] = values.rainMm
      arrays.windMs[h] = values.windMs
      arrays.gustMs[h] = 1.5 * values.windMs
      arrays.windFromDeg[h] = (h * 37) % 360
      arrays.solarWm2[h] = values.solarWm2
    })
    const provenance = {
      source: 'test',
      attribution: '',
      licence: '',
      issuedAtEpochH: 0,
      spread: 'single' as const,
      remarks: [],
    }
    return { place: where, startEpochH: 350_000 + startEpochH, hours: HOURS, members: 1, ...arrays, provenance }
  })

const cropArbitrary = fc.constantFrom<CropName>(...CROPS)

function runAll(weather: Weather, crop: CropName, texture: (typeof SOIL_TEXTURES)[number]) {
  const { waterMm, dewMm } = canopyWater(weather, crop, 0)
  const grain = grainDrivers(crop, weather, waterMm)
  const etMm = hourlyReferenceEtMm(weather)
  const soil = topsoilOf(texture, 'poor')
  const out = emptySeries(1, HOURS)
  const particle = {
    matureEpochH: weather.startEpochH - 700,
    moistureAtMaturityWb: 40,
    dryingFactor: 1,
    exchangeHours: 14,
    equilibriumOffsetWb: 0,
  }
  runCourses(
    grain,
    { infiltrationMm: weather.rainMm, etMm },
    soil,
    [{ particle, member: 0, startMoistureWb: 15, startDepletionMm: 5 }],
    out,
  )
  return { waterMm, dewMm, grain, etMm, soil, out, toughness: strawToughness(weather, crop, waterMm) }
}

const within = (values: Float32Array, low: number, high: number) =>
  values.every((value) => value >= low && value <= high)

describe('any weather on earth', () => {
  it('gives numbers inside physical bounds, none unknown', () => {
    fc.assert(
      fc.property(weatherArbitrary, cropArbitrary, fc.constantFrom(...SOIL_TEXTURES), (weather, crop, texture) => {
        const { waterMm, dewMm, grain, etMm, soil, out, toughness } = runAll(weather, crop, texture)
        expect(within(waterMm, 0, capacityMm(crop) + 1e-5)).toBe(true)
        // Dew beyond 1 mm an hour would need more heat lost than any sky takes (100-150 W/m2 = 0.2 mm/h).
        expect(within(dewMm, 0, 1)).toBe(true)
        expect(within(grain.dryTargetWb, 0, 45)).toBe(true)
        expect(within(grain.wetTargetWb, 0, 45)).toBe(true)
        expect(within(grain.dryRate, 0, 40)).toBe(true)
        expect(within(etMm, -1, 10)).toBe(true)
        expect(within(out.moistureWb, 0, 45)).toBe(true)
        expect(within(out.depletionMm, Math.fround(soil.floodedMm) - 1e-4, Math.fround(soil.tewMm) + 1e-4)).toBe(true)
        expect(within(toughness, 0, 1)).toBe(true)
        const { level } = fireCareHours(weather, 0, DEFAULT_FIRE_THRESHOLDS)
        expect(level.every((code) => code < LEVEL_UNKNOWN)).toBe(true)
      }),
      { numRuns: 150 },
    )
  })

  it('gives dust advice with a finite gap, or says that it is calm', () => {
    fc.assert(
      fc.property(hour, fc.double({ min: 0, max: 360, noNaN: true }), ({ windMs, solarWm2 }, windFromDeg) => {
        const advice = passAdvice(
          { windMs, windFromDeg, solarWm2 },
          { travelMs: 1.8, swathM: 10, dustClass: 'heavy', straw: true },
        )
        expect(advice).not.toBeNull()
        expect(Number.isFinite(advice!.staggerM)).toBe(true)
        expect(advice!.calm || (advice!.preferBearingDeg >= 0 && advice!.preferBearingDeg < 180)).toBe(true)
      }),
      { numRuns: 60 },
    )
  })

  it('keeps an unknown hour unknown: temperature or humidity missing never gives a moisture', () => {
    fc.assert(
      fc.property(
        weatherArbitrary,
        cropArbitrary,
        fc.integer({ min: 0, max: HOURS - 1 }),
        fc.boolean(),
        (weather, crop, h, temperature) => {
          ;(temperature ? weather.airTempC : weather.relHumidity)[h] = Number.NaN
          const { grain, out, etMm } = runAll(weather, crop, 'silt-loam')
          expect(Number.isNaN(etMm[h])).toBe(true)
          expect(Number.isNaN(grain.dryRate[h]! + grain.dryTargetWb[h]!)).toBe(true)
          expect(out.moistureWb.subarray(h).every(Number.isNaN)).toBe(true)
          expect(fireCareHours(weather, 0, DEFAULT_FIRE_THRESHOLDS).level[h]).toBe(LEVEL_UNKNOWN)
        },
      ),
      { numRuns: 60 },
    )
  })
})
