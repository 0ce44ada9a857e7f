/** Trials of the standing-grain model on real autumns, shared by the checks and the printed trial table. */
import type { CropName } from '#core/science/crop.ts'
import { type GrainDrivers, grainDrivers } from '#core/science/grain/exchange.ts'
import { GRAIN_PRIORS } from '#core/science/grain/priors.ts'
import { type GrainParticle, runGrain, stepGrain } from '#core/science/grain/standing.ts'
import { GRAIN_TRAITS } from '#core/science/grain/traits.ts'
import { canopyWater } from '#core/science/wetness/canopy-water.ts'
import { celsiusFromFahrenheit, MM_PER_IN } from '#core/units/convert.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { unknownWeatherArrays } from '#core/units/weather.ts'
import { CHAMPAIGN_YEARS, champaignAutumn } from '#tests/support/champaign.ts'
import { NORTH_DAKOTA } from '#tests/truth/dry-down.ts'
import { SOYBEAN_NIGHT_WITHOUT_DEW } from '#tests/truth/grain-swing.ts'

/** Days since 1 July. */
export const DAY = { '1 Sep': 62, '10 Sep': 71, '20 Sep': 81, '1 Oct': 92, '20 Oct': 111, '1 Nov': 123 } as const
const DAYS_RAIN_FREE = 2
const SOAKING_MM = 5
/** The hours from 16:00 and from 06:00, local standard time. */
const AFTERNOON = 16
const DAWN = 6
const EVENING_HOURS = [13, 20] as const
const MORNING_HOURS = [3, 10] as const

export interface Quantiles {
  readonly p10: number
  readonly median: number
  readonly p90: number
  readonly count: number
}

export function quantilesOf(values: readonly number[]): Quantiles {
  const sorted = values.filter((value) => !Number.isNaN(value)).toSorted((a, b) => a - b)
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))] ?? Number.NaN
  return { p10: at(0.1), median: at(0.5), p90: at(0.9), count: sorted.length }
}

/** The usual field of a crop that matures at the given hour. */
export function usualParticle(crop: CropName, matureEpochH: number, moistureAtMaturityWb?: number): GrainParticle {
  const prior = GRAIN_PRIORS[crop]
  return {
    matureEpochH,
    moistureAtMaturityWb: moistureAtMaturityWb ?? prior.moistureAtMaturityWb.mean,
    dryingFactor: prior.dryingFactor.mean,
    exchangeHours: prior.exchangeHours.mean,
    equilibriumOffsetWb: prior.equilibriumOffsetWb.mean,
  }
}

const autumns = new Map<CropName, { weather: Weather; drivers: GrainDrivers }[]>()
export function autumnsOf(crop: CropName): { weather: Weather; drivers: GrainDrivers }[] {
  const known = autumns.get(crop)
  if (known) return known
  const made = CHAMPAIGN_YEARS.map((year) => {
    const weather = champaignAutumn(year)
    return { weather, drivers: grainDrivers(crop, weather, canopyWater(weather, crop).waterMm) }
  })
  autumns.set(crop, made)
  return made
}

const rainOf = (weather: Weather, day: number, days: number): number =>
  weather.rainMm.subarray(day * HOURS_PER_DAY, (day + days) * HOURS_PER_DAY).reduce((sum, mm) => sum + mm, 0)

export interface RipeTrial {
  /** Moisture at 16:00 on rain-free days followed by a rain-free day. */
  readonly afternoonWb: Quantiles
  readonly dawnWb: Quantiles
  /** Next dawn less afternoon. */
  readonly swing: Quantiles
  /** Highest of the next morning less lowest of the afternoon and evening. */
  readonly range: Quantiles
  /** Dawn less the afternoon after it. */
  readonly dayDrop: Quantiles
  readonly largestDayDrop: number
  /** Highest moisture until next morning less the afternoon before, on a day of 5 mm rain and more after a dry one. */
  readonly rainRise: Quantiles
  /** Afternoon moisture of the second dry day after such rain less that of the afternoon before it. */
  readonly left2DaysAfterRain: Quantiles
}

/** Ripe soybeans standing from 25 August, judged over September and October of 28 autumns. */
export function ripeSoybeanTrial(): RipeTrial {
  const afternoon: number[] = []
  const dawn: number[] = []
  const swing: number[] = []
  const range: number[] = []
  const dayDrop: number[] = []
  const rainRise: number[] = []
  const left: number[] = []
  for (const { weather, drivers } of autumnsOf('soybean')) {
    const out = new Float32Array(drivers.hours)
    runGrain(drivers, 0, usualParticle('soybean', drivers.startEpochH - 1), 12, out)
    const at = (day: number, hour: number) => out[day * HOURS_PER_DAY + hour]!
    for (let day = DAY['1 Sep']; day < DAY['1 Nov']; day++) {
      const before = at(day - 1, AFTERNOON)
      if (rainOf(weather, day, 1) >= SOAKING_MM && rainOf(weather, day - 1, 1) === 0) {
        const until = out.subarray(day * HOURS_PER_DAY, (day + 1) * HOURS_PER_DAY + DAWN + 2)
        rainRise.push(Math.max(...until) - before)
        if (rainOf(weather, day + 1, DAYS_RAIN_FREE) === 0) left.push(at(day + 2, AFTERNOON) - before)
      }
      if (rainOf(weather, day, DAYS_RAIN_FREE) > 0) continue
      afternoon.push(at(day, AFTERNOON))
      dawn.push(at(day + 1, DAWN))
      swing.push(at(day + 1, DAWN) - at(day, AFTERNOON))
      const evening = out.subarray(day * HOURS_PER_DAY + EVENING_HOURS[0], day * HOURS_PER_DAY + EVENING_HOURS[1])
      const next = (day + 1) * HOURS_PER_DAY
      range.push(Math.max(...out.subarray(next + MORNING_HOURS[0], next + MORNING_HOURS[1])) - Math.min(...evening))
      dayDrop.push(at(day + 1, DAWN) - at(day + 1, AFTERNOON))
    }
  }
  return {
    afternoonWb: quantilesOf(afternoon),
    dawnWb: quantilesOf(dawn),
    swing: quantilesOf(swing),
    range: quantilesOf(range),
    dayDrop: quantilesOf(dayDrop),
    largestDayDrop: Math.max(...dayDrop),
    rainRise: quantilesOf(rainRise),
    left2DaysAfterRain: quantilesOf(left),
  }
}

export interface DryDownTrial {
  /** Points lost per day over `days`. */
  readonly pointsPerDay: Quantiles
  /** Moisture on the afternoon after `days`. */
  readonly endWb: Quantiles
  /** Days until the first afternoon at or below `untilWb`. */
  readonly daysUntil: Quantiles
}

/** Dry-down from maturity at 17:00 on a given day since 1 July, afternoon to afternoon. */
export function dryDownTrial(
  crop: CropName,
  fromDay: number,
  fromWb: number,
  days: number,
  untilWb = Number.NaN,
): DryDownTrial {
  const rates: number[] = []
  const ends: number[] = []
  const until: number[] = []
  for (const { drivers } of autumnsOf(crop)) {
    const out = new Float32Array(drivers.hours)
    const mature = drivers.startEpochH + fromDay * HOURS_PER_DAY + AFTERNOON + 1
    runGrain(drivers, 0, usualParticle(crop, mature, fromWb), fromWb, out)
    const afternoonAfter = (n: number) => out[(fromDay + n) * HOURS_PER_DAY + AFTERNOON]!
    rates.push((fromWb - afternoonAfter(days)) / days)
    ends.push(afternoonAfter(days))
    const last = drivers.hours / HOURS_PER_DAY - fromDay
    let n = 0
    while (n < last && !(afternoonAfter(n) <= untilWb)) n++
    until.push(n)
  }
  return { pointsPerDay: quantilesOf(rates), endWb: quantilesOf(ends), daysUntil: quantilesOf(until) }
}

/** Hellevang's corn in North Dakota: his equilibrium, his points per month spread evenly over its hours. */
export function northDakotaTrial(): { readonly name: string; readonly publishedWb: number; readonly oursWb: number }[] {
  const particle = usualParticle('corn', -1, NORTH_DAKOTA.startWb)
  const traits = GRAIN_TRAITS.corn
  let moistureWb: number = NORTH_DAKOTA.startWb
  return NORTH_DAKOTA.months.map((month) => {
    const rate = Math.exp(-traits.activationK * (1 / (month.tempC + 273.15) - 1 / 293.15))
    const drivers: GrainDrivers = {
      startEpochH: 0,
      hours: 1,
      members: 1,
      traits,
      dryTargetWb: Float32Array.of(month.equilibriumWb),
      wetTargetWb: Float32Array.of(month.equilibriumWb - traits.hysteresisWb),
      dryRate: Float32Array.of(rate),
      wetRate: Float32Array.of(rate * traits.uptakeShare),
      greenDryingWb: Float32Array.of(month.points / (month.days * HOURS_PER_DAY)),
    }
    for (let h = 0; h < month.daysUsed * HOURS_PER_DAY; h++) moistureWb = stepGrain(moistureWb, 1, drivers, 0, particle)
    return {
      name: `1 ${month.name === 'October' ? 'November' : 'December'}`,
      publishedWb: month.endWb,
      oursWb: moistureWb,
    }
  })
}

/** Weather of one place with every hour given. */
export function weatherOf(
  hours: number,
  at: (h: number) => { airTempC: number; relHumidity: number; windMs?: number; solarWm2?: number; rainMm?: number },
): Weather {
  const arrays = unknownWeatherArrays(1, hours)
  for (let h = 0; h < hours; h++) {
    const { airTempC, relHumidity, windMs = 2, solarWm2 = 0, rainMm = 0 } = at(h)
    arrays.airTempC[h] = airTempC
    arrays.relHumidity[h] = relHumidity
    arrays.windMs[h] = windMs
    arrays.solarWm2[h] = solarWm2
    arrays.rainMm[h] = rainMm
  }
  return {
    place: { latDeg: 40, lonDeg: -88, elevationM: 220 },
    startEpochH: 444_000,
    hours,
    members: 1,
    ...arrays,
    provenance: {
      source: 'made for a check',
      attribution: '',
      licence: '',
      issuedAtEpochH: Number.NaN,
      spread: 'observed',
      remarks: [],
    },
  }
}

/** The night of 2014 without dew; its humidity is not known and is taken as even. */
export function nightWithoutDewTrial(relHumidity: number): number {
  const { eveningWb, eveningF, morningF, hours } = SOYBEAN_NIGHT_WITHOUT_DEW
  const weather = weatherOf(hours, (h) => ({
    airTempC: celsiusFromFahrenheit(eveningF + ((morningF - eveningF) * (h + 0.5)) / hours),
    relHumidity,
  }))
  const out = new Float32Array(hours)
  const drivers = grainDrivers('soybean', weather, new Float32Array(hours))
  runGrain(drivers, 0, usualParticle('soybean', weather.startEpochH - 1), eveningWb, out)
  return out[hours - 1]!
}

/** Points that an inch of potential evapotranspiration takes off green grain in the model. */
export const pointsPerInch = (crop: CropName): number => GRAIN_TRAITS[crop].dryingPointsPerMm * MM_PER_IN
