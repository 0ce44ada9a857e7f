/**
 * Members where a source has none: equally likely courses around one forecast, built from error growth.
 *
 * Temperature, dew point and wind stray by slow red-noise errors shared through the day, so that a warm member stays
 * warm from dawn to dusk; humidity follows from the member's own temperature and dew point. Rain strays by spells: a
 * spell is kept, moved, scaled or dropped as a whole, and spells nobody forecast appear with the place's usual chance;
 * humidity and sunlight move with them, so a dry hour is dry in all its variables. Member 0 is the forecast itself.
 */
import { dewPointC, relHumidityFromDewPoint } from '#core/science/air/vapour.ts'
import { type Random, seededRandom } from '#core/units/random.ts'
import { unknownWeatherArrays, type Weather, type WeatherArrays } from '#core/units/weather.ts'
import { errorGrowth } from './error-growth.ts'
import { findSpells, type RainSpell } from './rain-spells.ts'

export interface GrowthOptions {
  /** How many members to make, 1 or more. */
  readonly members: number
  readonly seed: number
  /** Usual share of days with rain at the place and season, 0-1. */
  readonly usualRainDayShare: number
  /** Age of the forecast at its first hour [h]: an old forecast has already strayed. */
  readonly ageH: number
}

/** Central Illinois, September-October, days with at least 0.25 mm in the 28 autumns of the trial data. */
export const USUAL_RAIN_DAY_SHARE = 0.27

const RED_NOISE_HOURS = 24
const NEW_SPELL_MEAN_MM = 6
const NEW_SPELL_MIN_H = 2
const NEW_SPELL_MAX_H = 9
const WET_HOUR_HUMIDITY = 0.94
const WET_HOUR_SUN_SHARE = 0.3
const DRIED_HOUR_HUMIDITY = 0.85

export function growMembers(single: Weather, options: GrowthOptions): Weather {
  if (single.members !== 1) throw new RangeError(`growMembers takes one member, got ${single.members}`)
  const { hours } = single
  const arrays = unknownWeatherArrays(options.members, hours)
  const spells = findSpells(single.rainMm)
  for (let member = 0; member < options.members; member++) {
    const at = member * hours
    copyMember(single, arrays, at)
    if (member === 0) continue
    const random = seededRandom(options.seed + member * 7919)
    strayAir(single, arrays, at, options, random)
    strayRain(single, arrays, at, spells, options, random)
  }
  return {
    ...single,
    ...arrays,
    members: options.members,
    provenance: { ...single.provenance, spread: options.members > 1 ? 'grown' : single.provenance.spread },
  }
}

function copyMember(single: Weather, arrays: WeatherArrays, at: number): void {
  arrays.airTempC.set(single.airTempC, at)
  arrays.relHumidity.set(single.relHumidity, at)
  arrays.rainMm.set(single.rainMm, at)
  arrays.windMs.set(single.windMs, at)
  arrays.gustMs.set(single.gustMs, at)
  arrays.windFromDeg.set(single.windFromDeg, at)
  arrays.solarWm2.set(single.solarWm2, at)
}

function strayAir(single: Weather, arrays: WeatherArrays, at: number, options: GrowthOptions, random: Random): void {
  const keep = Math.exp(-1 / RED_NOISE_HOURS)
  const fresh = Math.sqrt(1 - keep * keep)
  let temp = random.normal()
  let moisture = random.normal()
  let wind = random.normal()
  let direction = random.normal()
  let sun = random.normal()
  for (let h = 0; h < single.hours; h++) {
    const growth = errorGrowth((options.ageH + h + 0.5) / 24)
    const i = at + h
    const airTempC = single.airTempC[h]! + growth.airTempSdC * temp
    // Dew-point errors share about two fifths of the temperature error (common practice, from memory).
    const dewC =
      dewPointC(single.airTempC[h]!, single.relHumidity[h]!) + growth.dewPointSdC * (0.4 * temp + 0.917 * moisture)
    arrays.airTempC[i] = airTempC
    arrays.relHumidity[i] = Math.min(1, relHumidityFromDewPoint(airTempC, Math.min(dewC, airTempC)))
    const windFactor = Math.exp(growth.logWindSd * wind - 0.5 * growth.logWindSd ** 2)
    arrays.windMs[i] = single.windMs[h]! * windFactor
    arrays.gustMs[i] = single.gustMs[h]! * windFactor
    arrays.windFromDeg[i] = (single.windFromDeg[h]! + growth.windDirectionSdDeg * direction + 720) % 360
    arrays.solarWm2[i] = single.solarWm2[h]! * Math.min(1.15, Math.max(0.35, 1 + 0.2 * sun))
    temp = keep * temp + fresh * random.normal()
    moisture = keep * moisture + fresh * random.normal()
    wind = keep * wind + fresh * random.normal()
    direction = keep * direction + fresh * random.normal()
    sun = keep * sun + fresh * random.normal()
  }
}

function strayRain(
  single: Weather,
  arrays: WeatherArrays,
  at: number,
  spells: readonly RainSpell[],
  options: GrowthOptions,
  random: Random,
): void {
  const { hours } = single
  for (let h = 0; h < hours; h++) if (!Number.isNaN(single.rainMm[h]!)) arrays.rainMm[at + h] = 0

  for (const spell of spells) {
    const growth = errorGrowth((options.ageH + spell.startH) / 24)
    const keepChance = growth.rainSkill + options.usualRainDayShare * (1 - growth.rainSkill)
    const shift = Math.round(growth.rainShiftSdH * random.normal())
    const factor = Math.exp(0.5 * random.normal() - 0.125)
    const kept = random.uniform() < keepChance
    dryHours(arrays, at, spell, hours)
    if (!kept) continue
    for (let k = 0; k < spell.rainMm.length; k++)
      wetHour(arrays, at, spell.startH + shift + k, hours, spell.rainMm[k]! * factor)
  }

  for (let dayStart = 0; dayStart < hours; dayStart += 24) {
    const skill = errorGrowth((options.ageH + dayStart + 12) / 24).rainSkill
    const appears = random.uniform() < options.usualRainDayShare * (1 - skill)
    const startH = dayStart + Math.floor(24 * random.uniform())
    const length = NEW_SPELL_MIN_H + Math.floor((NEW_SPELL_MAX_H - NEW_SPELL_MIN_H + 1) * random.uniform())
    const totalMm = -NEW_SPELL_MEAN_MM * Math.log(1 - random.uniform())
    if (!appears) continue
    for (let k = 0; k < length; k++) wetHour(arrays, at, startH + k, hours, totalMm / length)
  }
}

/** The air of a forecast spell that this member does not have: no longer near saturation. */
function dryHours(arrays: WeatherArrays, at: number, spell: RainSpell, hours: number): void {
  for (let k = 0; k < spell.rainMm.length; k++) {
    const h = spell.startH + k
    if (h < hours) arrays.relHumidity[at + h] = Math.min(arrays.relHumidity[at + h]!, DRIED_HOUR_HUMIDITY)
  }
}

function wetHour(arrays: WeatherArrays, at: number, h: number, hours: number, rainMm: number): void {
  if (h < 0 || h >= hours || Number.isNaN(arrays.rainMm[at + h]!)) return
  arrays.rainMm[at + h]! += rainMm
  if (arrays.relHumidity[at + h]! >= WET_HOUR_HUMIDITY) return
  arrays.relHumidity[at + h] = WET_HOUR_HUMIDITY
  arrays.solarWm2[at + h]! *= WET_HOUR_SUN_SHARE
}
