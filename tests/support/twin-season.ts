/**
 * Hidden fields for twin experiments: simulated on a real autumn, then read with error.
 * SIMULATED TRUTH: they follow our own equations under the weather of the autumn, or under air of their own about it.
 */
import type { Field } from '#core/farm/farm.ts'
import { Cell } from '#core/field/cell.ts'
import { dailyExtremes } from '#core/field/daily-temps.ts'
import { fillGaps } from '#core/field/gaps.ts'
import { PARTICLE_DIMS, particlePrior } from '#core/field/particles.ts'
import { type FieldPart, partsOf } from '#core/field/parts.ts'
import type { Instrument, Reading } from '#core/field/reading.ts'
import { dewPointC, relHumidityFromDewPoint } from '#core/science/air/vapour.ts'
import { CROP_TRADE, type CropName } from '#core/science/crop.ts'
import { runGrain } from '#core/science/grain/standing.ts'
import { estimateMaturity, type MaturityEstimate } from '#core/science/growth/maturity.ts'
import { climateNormal } from '#core/science/growth/normals.ts'
import { type Random, seededRandom, seedFromText } from '#core/units/random.ts'
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { champaignAutumn } from './champaign.ts'

export const ZONE = 'Etc/GMT+6'

export interface HiddenOptions {
  readonly seed: number
  /** `same`: hidden fields have the air of the station. `own`: air and rain of their own about it. */
  readonly air: 'same' | 'own'
}

export interface Hidden {
  readonly part: FieldPart
  /** Moisture at the end of each hour of the autumn [% wet basis]. */
  readonly truthWb: Float32Array
}

export interface HiddenSeason {
  readonly year: number
  readonly station: Weather
  readonly hidden: readonly Hidden[]
  readonly readings: readonly Reading[]
  /** Hidden offset of each instrument [points]. */
  readonly offsets: Readonly<Record<string, number>>
}

/** The hours of a single course from `from` up to, not including, `to`. */
export function slice(weather: Weather, from: number, to: number): Weather {
  const arrays = unknownWeatherArrays(1, to - from)
  for (const variable of WEATHER_VARIABLES) arrays[variable].set(weather[variable].subarray(from, to))
  return { ...weather, ...arrays, startEpochH: weather.startEpochH + from, hours: to - from }
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

export function maturityIn(field: Field, past: Weather): MaturityEstimate {
  return estimateMaturity({
    ...dailyExtremes([past], ZONE),
    normalC: climateNormal(field.centre.latDeg),
    crop: field.crop,
    plantedOn: field.plantedOn,
    latDeg: field.centre.latDeg,
    followsWheat: false,
    ...(field.maturityGroup === undefined ? {} : { maturityGroup: field.maturityGroup }),
    ...(field.relativeMaturity === undefined ? {} : { relativeMaturity: field.relativeMaturity }),
  })
}

/** Air and rain of a field some kilometres from the station; widths are choices: 0.6 deg C, rain within half as much. */
export function ownAir(station: Weather, random: Random): Weather {
  const arrays = unknownWeatherArrays(1, station.hours)
  for (const variable of WEATHER_VARIABLES) arrays[variable].set(station[variable])
  const keep = Math.exp(-1 / 24)
  const fresh = Math.sqrt(1 - keep * keep)
  const always = { temp: 0.3 * random.normal(), dew: 0.3 * random.normal(), wind: 0.15 * random.normal() }
  let temp = random.normal()
  let dew = random.normal()
  for (let h = 0; h < station.hours; h++) {
    const airTempC = station.airTempC[h]! + always.temp + 0.5 * temp
    const dewC = dewPointC(station.airTempC[h]!, station.relHumidity[h]!) + always.dew + 0.5 * dew
    arrays.airTempC[h] = airTempC
    arrays.relHumidity[h] = Math.min(1, relHumidityFromDewPoint(airTempC, Math.min(airTempC, dewC)))
    arrays.windMs[h] = station.windMs[h]! * Math.exp(always.wind)
    temp = keep * temp + fresh * random.normal()
    dew = keep * dew + fresh * random.normal()
  }
  for (let day = 0; day < station.hours; day += 24) {
    const factor = random.uniform() < 0.1 ? 0 : Math.exp(0.4 * random.normal() - 0.08)
    for (let h = day; h < day + 24; h++) arrays.rainMm[h]! *= factor
  }
  return { ...station, ...arrays }
}

/** Readings begin below this, every second or third day [% wet basis]. */
const FIRST_READ_WB: Partial<Record<CropName, number>> = { soybean: 25, corn: 28 }
/** Readings of one field go on for this long, by then it is cut [d]. */
const READ_DAYS = 16
const WILD_SHARE = 0.01

export function hiddenSeason(year: number, options: HiddenOptions): HiddenSeason {
  const { weather: station } = fillGaps(champaignAutumn(year))
  const random = seededRandom(seedFromText(`twin/${options.seed}/${year}`))
  const instruments = {
    hand: { truth: 0.7 * random.normal(), instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 } },
    combine: { truth: 0.8 * random.normal(), instrument: { id: 'combine', kind: 'combine', sdWb: 0.5 } },
    ticket: { truth: 0.15 * random.normal(), instrument: { id: 'elevator', kind: 'ticket', sdWb: 0.3 } },
  } satisfies Record<string, { truth: number; instrument: Instrument }>
  // Fields of one kind differ half by what they share and half by what is their own.
  const shared = new Map<string, number[]>()
  const hidden: Hidden[] = []
  const readings: Reading[] = []
  for (const spec of FIELDS) {
    const part = partsOf(fieldOf(spec, year))[0]!
    const air = options.air === 'own' ? ownAir(station, random) : station
    const kind = `${spec.crop}/${spec.group}/${spec.days}`
    const common = shared.get(kind) ?? Array.from({ length: PARTICLE_DIMS }, () => random.normal())
    shared.set(kind, common)
    const point = common.map((z) => Math.sqrt(0.5) * z + Math.sqrt(0.5) * random.normal())
    const particle = particlePrior(part, maturityIn(part.field, station), ZONE).particleAt(point, 0)
    const truthWb = new Float32Array(air.hours)
    runGrain(new Cell(air).crop(spec.crop).grain, 0, particle, particle.moistureAtMaturityWb, truthWb)
    hidden.push({ part, truthWb })

    const ripe = truthWb.findIndex((wb, h) => h > 24 * 31 && wb < FIRST_READ_WB[spec.crop]!)
    if (ripe < 0) continue
    for (let day = Math.ceil(ripe / 24); day < ripe / 24 + READ_DAYS; day += random.uniform() < 0.5 ? 2 : 3) {
      const hour = day * 24 + 10 + 8 * random.uniform()
      const chance = random.uniform()
      const { truth, instrument } =
        chance < 0.6 ? instruments.hand : chance < 0.85 ? instruments.combine : instruments.ticket
      const wb = truthWb[Math.floor(hour) - 1]
      if (wb === undefined) break
      const field = instrument.kind === 'hand' ? Math.max(0.4, 0.03 * wb) : Math.max(0.2, 0.02 * wb)
      const noise = Math.hypot(instrument.sdWb, field) * random.normal()
      const wild = random.uniform() < WILD_SHARE
      const wildWb = 8 + 50 * random.uniform()
      readings.push({
        id: `${spec.id}/${day}`,
        partKey: part.key,
        atEpochH: station.startEpochH + hour,
        moistureWb: wild ? wildWb : wb + truth + noise,
        instrument,
        who: 'crew',
      })
    }
  }
  const offsets = Object.fromEntries(Object.values(instruments).map((i) => [i.instrument.id, i.truth]))
  return { year, station, hidden, readings, offsets }
}
