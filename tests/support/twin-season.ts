/**
 * Hidden fields for twin experiments: simulated on a real autumn, then read with error.
 * SIMULATED TRUTH: they follow our own equations under the weather of the autumn, or under air of their own about it.
 */

import { Cell } from '#core/field/cell.ts'
import { fillGaps } from '#core/field/gaps.ts'
import { maturityOf } from '#core/field/maturity.ts'
import { PARTICLE_DIMS, particlePrior } from '#core/field/particles.ts'
import { type FieldPart, partsOf } from '#core/field/parts.ts'
import type { Field } from '#core/operation/farm.ts'
import { dewPointC, relHumidityFromDewPoint } from '#core/science/air/vapour.ts'
import { CROP_TRADE, type CropName } from '#core/science/crop.ts'
import { runGrain } from '#core/science/grain/standing.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { type Random, seededRandom, seedFromText } from '#core/units/random.ts'
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { hoursBetween } from '#core/units/weather-hours.ts'
import { champaignAutumn } from './champaign.ts'
import { type FirstLook, readOf, type WhatWasRead } from './twin-readings.ts'

export const ZONE = 'Etc/GMT+6'

export interface HiddenOptions {
  readonly seed: number
  /** `same`: hidden fields have the air of the station. `own`: air and rain of their own about it. */
  readonly air: 'same' | 'own'
  readonly firstLook: FirstLook
}

export interface Hidden {
  readonly part: FieldPart
  /** Air and rain that the field had. */
  readonly air: Weather
  /** Moisture at the end of each hour of the autumn [% wet basis]. */
  readonly truthWb: Float32Array
  /** From the first hour of the autumn [d]. */
  readonly matureDay: number
}

export interface HiddenSeason extends WhatWasRead {
  readonly year: number
  readonly station: Weather
  readonly hidden: readonly Hidden[]
}

/** The hours of a single course from `from` up to, not including, `to`. */
export function slice(weather: Weather, from: number, to: number): Weather {
  return hoursBetween(weather, weather.startEpochH + from, weather.startEpochH + to)
}

export const FIELDS: readonly { id: string; crop: CropName; planted: string; group?: number; days?: number }[] = [
  { id: 'early-beans', crop: 'soybean', planted: '05-04', group: 2.4 },
  { id: 'middle-beans', crop: 'soybean', planted: '05-14', group: 2.8 },
  { id: 'near-beans', crop: 'soybean', planted: '05-16', group: 2.8 },
  { id: 'late-beans', crop: 'soybean', planted: '05-30', group: 3.2 },
  { id: 'early-corn', crop: 'corn', planted: '04-24', days: 106 },
  { id: 'late-corn', crop: 'corn', planted: '05-08', days: 112 },
]

export function fieldOf(spec: (typeof FIELDS)[number], year: number): Field {
  return {
    id: spec.id,
    name: spec.id,
    crop: spec.crop,
    areaHa: 30,
    centre: { latDeg: 40.06, lonDeg: -88.2 },
    plantedOn: Temporal.PlainDate.from(`${year}-${spec.planted}`),
    ...(spec.group === undefined ? {} : { maturityGroup: spec.group }),
    ...(spec.days === undefined ? {} : { relativeMaturity: spec.days }),
    soil: { texture: 'silt-loam', drainage: 'tiled' },
    followsWheat: false,
    usualYieldTHa: spec.crop === 'corn' ? 12 : 4,
    band: CROP_TRADE[spec.crop].band,
    patches: [],
    buyerId: 'elevator',
    haulKm: 10,
  }
}

export const maturityIn = (field: Field, past: Weather): MaturityEstimate =>
  maturityOf({ fields: [field], home: field.centre, timeZone: ZONE }, [past]).get(field.id)!

/**
 * Air and rain of a field some kilometres from the station: no drier and no wetter on the whole, but its own. Widths are
 * choices: 0.6 deg C in air and dew point, a sixth in wind, half as much or as little rain, and one shower in ten another:
 * half of these missed by the field, half by the station.
 */
export function ownAir(station: Weather, random: Random): Weather {
  const arrays = unknownWeatherArrays(1, station.hours)
  for (const variable of WEATHER_VARIABLES) arrays[variable].set(station[variable])
  const keep = Math.exp(-1 / 24)
  const fresh = Math.sqrt(1 - keep * keep)
  const always = { temp: 0.3 * random.normal(), dew: 0.3 * random.normal(), wind: 0.15 * random.normal() }
  let temp = random.normal()
  let dew = random.normal()
  for (let h = 0; h < station.hours; h++) {
    const stationDewC = dewPointC(station.airTempC[h]!, station.relHumidity[h]!)
    const temperatureOff = always.temp + 0.5 * temp
    const dewOff = always.dew + 0.5 * dew
    // Air at its dew point is so all around: cut off there, the differences would make every field drier than the station.
    const depressionC = station.airTempC[h]! - stationDewC
    const depression = depressionC + (temperatureOff - dewOff) * Math.min(1, depressionC / FULLY_APART_C)
    arrays.airTempC[h] = station.airTempC[h]! + temperatureOff
    arrays.relHumidity[h] = relHumidityFromDewPoint(arrays.airTempC[h]!, arrays.airTempC[h]! - Math.max(0, depression))
    arrays.windMs[h] = station.windMs[h]! * Math.exp(always.wind)
    temp = keep * temp + fresh * random.normal()
    dew = keep * dew + fresh * random.normal()
  }
  ownRain(station.rainMm, arrays.rainMm, random)
  return { ...station, ...arrays }
}

/** Below this dew point depression the air of field and station differs less [deg C]. */
const FULLY_APART_C = 2
const MISSED_SHARE = 0.05

/** Day by day more or less than the station; a shower missed here and there, and as many that the station missed. */
function ownRain(stationMm: Float32Array, ownMm: Float32Array, random: Random): void {
  const days = Array.from({ length: Math.floor(stationMm.length / 24) }, (_, day) =>
    stationMm.subarray(24 * day, 24 * day + 24),
  )
  const wet = days.filter((hours) => hours.some((mm) => mm > 0))
  const missed = (MISSED_SHARE * wet.length) / (days.length - wet.length)
  for (const [day, hours] of days.entries()) {
    const isWet = hours.some((mm) => mm > 0)
    const chance = random.uniform()
    const factor = Math.exp(0.4 * random.normal() - 0.08)
    const from = isWet ? hours : wet[Math.floor(random.uniform() * wet.length)]!
    const falls = isWet ? chance >= MISSED_SHARE : chance < missed
    for (let h = 0; h < 24; h++) ownMm[24 * day + h] = falls ? from[h]! * factor : 0
  }
}

export function hiddenSeason(year: number, options: HiddenOptions): HiddenSeason {
  const { weather: station } = fillGaps(champaignAutumn(year))
  const random = seededRandom(seedFromText(`twin/${options.seed}/${year}`))
  // Fields of one kind differ half by what they share and half by what is their own.
  const shared = new Map<string, number[]>()
  const hidden = FIELDS.map((spec): Hidden => {
    const part = partsOf(fieldOf(spec, year))[0]!
    const air = options.air === 'own' ? ownAir(station, random) : station
    const kind = `${spec.crop}/${spec.group}/${spec.days}`
    const common = shared.get(kind) ?? Array.from({ length: PARTICLE_DIMS }, () => random.normal())
    shared.set(kind, common)
    const point = common.map((z) => Math.sqrt(0.5) * z + Math.sqrt(0.5) * random.normal())
    const particle = particlePrior(part, maturityIn(part.field, station), ZONE).particleAt(point, 0)
    const truthWb = new Float32Array(air.hours)
    runGrain(new Cell(air).crop(spec.crop).grain, 0, particle, particle.moistureAtMaturityWb, truthWb)
    return { part, air, truthWb, matureDay: (particle.matureEpochH - station.startEpochH) / 24 }
  })
  return { year, station, hidden, ...readOf(hidden, options.firstLook, station.startEpochH, random) }
}
