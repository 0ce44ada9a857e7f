/**
 * Single forecasts with errors of known size, made from the 28 autumns of Champaign: what a good public service could have
 * said, without seeing more of the future than its skill at that lead allows.
 *
 * With r2 = share of variance still explained at the lead (1 - grownShare), the forecast's departure from the usual is
 *   r2 * (departure of the true autumn) + sqrt(r2 * (1 - r2)) * (departure of another, drawn autumn)
 * plus, for temperature and dew point, a local error. Its error is then uncorrelated with it, as in a forecast drawn towards the usual, and has the shape
 * of real weather: through the day, and between temperature, dew point, wind and sun. It is not the shape that the members
 * are grown with. Rain: each true spell is called with the skill of its lead, early or late and off in amount; spells of the
 * other autumn are called with what is left. The usual is that of the other 27 autumns. The air of a called rain is moist
 * and dark.
 */
import { clearSkyWm2, extraterrestrialWm2 } from '#core/science/air/radiation.ts'
import { dewPointC, relHumidityFromDewPoint } from '#core/science/air/vapour.ts'
import { errorGrowth } from '#core/science/spread/error-growth.ts'
import { type Random, seededRandom } from '#core/units/random.ts'
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'
import { hoursBetween } from '#core/units/weather-hours.ts'
import { CHAMPAIGN_YEARS, champaignAutumn } from './champaign.ts'

export interface TrialForecast {
  readonly year: number
  /** Index of its first hour in the autumn. */
  readonly fromH: number
  readonly forecast: Weather
  readonly truth: Weather
}

/** How the trial's service fails, where a trial wants it worse or better than `errorGrowth` says. */
export interface TrialSkill {
  /** Days added to the lead in all skill laws. */
  readonly laterDays?: number
}

interface Departures {
  readonly temp: Float64Array
  readonly dew: Float64Array
  readonly logWind: Float64Array
  readonly clearness: Float64Array
}

const LEAST_WIND_MS = 0.3
const LOW_SUN_WM2 = 20
const USUAL_REACH_D = 10

const autumns = new Map<number, Weather>()
export function autumnOf(year: number): Weather {
  const autumn = autumns.get(year) ?? champaignAutumn(year)
  autumns.set(year, autumn)
  return autumn
}

let raw: Map<number, Departures> | undefined
function rawOf(year: number): Departures {
  raw ??= new Map(
    CHAMPAIGN_YEARS.map((each) => {
      const autumn = autumnOf(each)
      const clear = clearSkyOf(autumn)
      return [
        each,
        {
          temp: Float64Array.from(autumn.airTempC),
          dew: Float64Array.from(autumn.airTempC, (tempC, h) => dewPointC(tempC, autumn.relHumidity[h]!)),
          logWind: Float64Array.from(autumn.windMs, (ms) => Math.log(Math.max(LEAST_WIND_MS, ms))),
          clearness: Float64Array.from(autumn.solarWm2, (wm2, h) => (clear[h]! > LOW_SUN_WM2 ? wm2 / clear[h]! : 0)),
        },
      ]
    }),
  )
  return raw.get(year)!
}

const clearSkyOf = ({ place, startEpochH, hours }: Weather): Float64Array =>
  Float64Array.from({ length: hours }, (_, h) =>
    clearSkyWm2(extraterrestrialWm2(place.latDeg, place.lonDeg, startEpochH + h), place.elevationM),
  )

const usuals = new Map<number, Departures>()
/** Mean of the other autumns by hour of the day, over ten days on each side. */
export function usualWithout(year: number): Departures {
  const known = usuals.get(year)
  if (known) return known
  const others = CHAMPAIGN_YEARS.filter((each) => each !== year).map(rawOf)
  const meanOf = (name: keyof Departures): Float64Array => {
    const hours = others[0]![name].length
    const byHour = new Float64Array(hours)
    for (let h = 0; h < hours; h++) {
      let sum = 0
      let count = 0
      for (const other of others) {
        const value = other[name][h]!
        if (Number.isNaN(value)) continue
        sum += value
        count++
      }
      byHour[h] = sum / count
    }
    return byHour.map((_, h) => {
      let sum = 0
      let count = 0
      for (let day = -USUAL_REACH_D; day <= USUAL_REACH_D; day++) {
        const value = byHour[h + 24 * day]
        if (value === undefined) continue
        sum += value
        count++
      }
      return sum / count
    })
  }
  const usual = { temp: meanOf('temp'), dew: meanOf('dew'), logWind: meanOf('logWind'), clearness: meanOf('clearness') }
  usuals.set(year, usual)
  return usual
}

export function trialForecast(
  year: number,
  fromH: number,
  hours: number,
  seed: number,
  { laterDays = 0 }: TrialSkill = {},
): TrialForecast {
  const random = seededRandom(seed)
  const others = CHAMPAIGN_YEARS.filter((each) => each !== year)
  const donorYear = others[Math.floor(random.uniform() * others.length)]!
  const autumn = autumnOf(year)
  const usual = usualWithout(year)
  const [own, donor] = [rawOf(year), rawOf(donorYear)]
  const clear = clearSkyOf(autumn)
  const arrays = unknownWeatherArrays(1, hours)
  const local = localErrors(random)
  const leadOf = (h: number) => h / 24 + laterDays
  for (let h = 0; h < hours; h++) {
    const s = fromH + h
    const growth = errorGrowth(leadOf(h + 0.5))
    const blend = (name: keyof Departures, lostShare: number) => {
      const r2 = 1 - lostShare
      const middle = usual[name][s]!
      return middle + r2 * (own[name][s]! - middle) + Math.sqrt(r2 * lostShare) * (donor[name][s]! - middle)
    }
    const noise = local()
    const tempC = blend('temp', growth.grownShare) + growth.airTempLocalC * noise.temp
    const dewC = blend('dew', growth.grownShare) + growth.dewPointLocalC * noise.dew
    arrays.airTempC[h] = tempC
    arrays.relHumidity[h] = Math.min(1, relHumidityFromDewPoint(tempC, Math.min(dewC, tempC)))
    const windVariance = growth.logWindGrown ** 2 + growth.logWindLocal ** 2
    const logWind = blend('logWind', Math.min(1, windVariance / USUAL_LOG_WIND_SD ** 2))
    arrays.windMs[h] = Math.exp(logWind + windVariance / 2)
    const skyVariance = growth.clearnessGrown ** 2 + growth.clearnessLocal ** 2
    const clearness = blend('clearness', Math.min(1, skyVariance / USUAL_CLEARNESS_SD ** 2))
    arrays.solarWm2[h] = clear[s]! > LOW_SUN_WM2 ? clear[s]! * Math.min(1.05, Math.max(0.05, clearness)) : 0
    arrays.rainMm[h] = 0
  }
  const donorAutumn = autumnOf(donorYear)
  const call = (spell: Spell, chanceOf: (skill: number) => number) => {
    const { rainSkill, rainShiftSdH } = errorGrowth(leadOf(spell.startH - fromH))
    const isCalled = random.uniform() < chanceOf(rainSkill)
    const shift = Math.round(rainShiftSdH * random.normal())
    const factor = Math.exp(0.5 * random.normal() - 0.125)
    if (!isCalled) return
    for (const [k, mm] of spell.rainMm.entries()) {
      const h = spell.startH - fromH + shift + k
      if (h < 0 || h >= hours) continue
      arrays.rainMm[h]! += mm * factor
      arrays.relHumidity[h] = Math.max(arrays.relHumidity[h]!, 0.85)
      arrays.solarWm2[h] = Math.min(arrays.solarWm2[h]!, 0.35 * clear[fromH + h]!)
    }
  }
  for (const spell of spellsIn(autumn.rainMm, fromH - 24, fromH + hours + 24)) call(spell, (skill) => skill)
  for (const spell of spellsIn(donorAutumn.rainMm, fromH - 24, fromH + hours + 24)) call(spell, (skill) => 1 - skill)
  return {
    year,
    fromH,
    forecast: {
      ...autumn,
      ...arrays,
      startEpochH: autumn.startEpochH + fromH,
      hours,
      provenance: {
        ...autumn.provenance,
        source: 'trial forecast',
        issuedAtEpochH: autumn.startEpochH + fromH,
        spread: 'single',
      },
    },
    truth: cut(autumn, fromH, hours),
  }
}

/** Whole spread of the departures at Champaign, wet and dry days together, September to mid November. */
const USUAL_LOG_WIND_SD = 0.51
const USUAL_CLEARNESS_SD = 0.26

/** Local errors of temperature and dew point, alike from hour to hour as between neighbouring stations. */
function localErrors(random: Random): () => { readonly temp: number; readonly dew: number } {
  const keep = Math.exp(-1 / 4.5)
  const fresh = Math.sqrt(1 - keep * keep)
  let temp = random.normal()
  let dew = random.normal()
  return () => {
    temp = keep * temp + fresh * random.normal()
    dew = keep * dew + fresh * random.normal()
    return { temp, dew }
  }
}

interface Spell {
  readonly startH: number
  readonly rainMm: readonly number[]
}

const LONGEST_BREAK_H = 3

function spellsIn(rainMm: Float32Array, fromH: number, toH: number): Spell[] {
  const spells: { startH: number; rainMm: number[] }[] = []
  let last: { startH: number; rainMm: number[] } | undefined
  for (let h = Math.max(0, fromH); h < Math.min(rainMm.length, toH); h++) {
    if (!(rainMm[h]! > 0)) continue
    const gap = last ? h - (last.startH + last.rainMm.length) : Number.POSITIVE_INFINITY
    if (last && gap <= LONGEST_BREAK_H) {
      for (let k = 0; k < gap; k++) last.rainMm.push(0)
      last.rainMm.push(rainMm[h]!)
    } else {
      last = { startH: h, rainMm: [rainMm[h]!] }
      spells.push(last)
    }
  }
  return spells
}

/** Part of an autumn. */
export function cut(weather: Weather, fromH: number, hours: number): Weather {
  return hoursBetween(weather, weather.startEpochH + fromH, weather.startEpochH + fromH + hours)
}
