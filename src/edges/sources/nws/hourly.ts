/**
 * The hourly text forecast to weather: the way out when the gridded one cannot be had. It has no amount of rain and
 * no gusts: rain is known to be none where its chance is 0, else it stays unknown.
 */

import { SourceTooThin, SourceUnreadable } from '#app/failures.ts'
import { type Place, unknownWeatherArrays } from '#core/units/weather.ts'
import { reconcileHumidity } from '#edges/sources/humidity.ts'
import { epochHoursOfIso } from '#edges/sources/iso-time.ts'
import { checkIssued, type ForecastParts, type Told } from '#edges/sources/reading.ts'
import { SUN_FROM_CLOUD, sunlightUnder } from '#edges/sources/sky.ts'
import { intoOurs, type Quantity } from '#edges/sources/units.ts'
import { NWS_CREDIT } from './credit.ts'
import type { NwsHourly, NwsPeriod, NwsQuantity } from './schema.ts'

const COMPASS = ['N', 'NNE', 'NE', 'ENE', 'E', 'ESE', 'SE', 'SSE', 'S', 'SSW', 'SW', 'WSW', 'W', 'WNW', 'NW', 'NNW']
const DEG_PER_POINT = 22.5
const MOST_HOURS = 16 * 24

/**
 * Share of sky behind the cloud words of the icons: middle of the eighths that each word stands for (few 1-2,
 * scattered 3-4, broken 5-7, overcast 8; Federal Meteorological Handbook No. 1, table 9-2, from memory).
 */
const CLOUD: { readonly [word: string]: number } = { skc: 0, few: 1.5 / 8, sct: 3.5 / 8, bkn: 6 / 8, ovc: 1 }
/** Rain, snow, thunder and fog come from a sky that is all but covered. */
const WET_ICON = /^(?:rain|snow|sleet|fzra|tsra|fog|blizzard|tropical_storm|hurricane)/

/** Stamps are whole hours but for some seconds [h]. */
const SLACK_H = 1 / 60

export function weatherFromHourly(body: NwsHourly, place: Place, nowEpochH: number, told: Told): ForecastParts {
  const { updateTime, generatedAt, periods } = body.properties
  const issuedAtEpochH = checkIssued(epochHoursOfIso(updateTime ?? generatedAt ?? ''), nowEpochH, told)
  const startEpochH = Math.floor(nowEpochH)
  const stamps = periods.map(({ startTime }) => {
    const stamp = epochHoursOfIso(startTime)
    if (Number.isNaN(stamp)) throw new SourceUnreadable(`a period starts at "${startTime.slice(0, 60)}"`, told)
    const hour = Math.round(stamp)
    if (Math.abs(stamp - hour) > SLACK_H)
      throw new SourceUnreadable(`a period starts at "${startTime.slice(0, 60)}", which is no full hour`, told)
    return hour
  })
  const hours = Math.min(
    MOST_HOURS,
    stamps.reduce((last, stamp) => Math.max(last, stamp + 1), startEpochH) - startEpochH,
  )
  if (hours < 1) throw new SourceTooThin('temperature', 0, told)

  const arrays = unknownWeatherArrays(1, hours)
  const dewPointC = new Float32Array(hours).fill(Number.NaN)
  const cloud = new Float32Array(hours).fill(Number.NaN)
  const popPct = new Float32Array(hours).fill(Number.NaN)
  periods.forEach((period, at) => {
    const hour = stamps[at]! - startEpochH
    if (hour < 0 || hour >= hours) return
    const given = (q: NwsQuantity | null | undefined, quantity: Quantity, name: string) =>
      measured(q, quantity, name, told)
    arrays.airTempC[hour] = temperatureOf(period, told)
    arrays.relHumidity[hour] = given(period.relativeHumidity, 'share', 'relativeHumidity')
    arrays.windMs[hour] = windOf(period, told)
    arrays.windFromDeg[hour] = directionOf(period.windDirection)
    dewPointC[hour] = given(period.dewpoint, 'temperature', 'dewpoint')
    cloud[hour] = cloudOf(period.icon)
    popPct[hour] = given(period.probabilityOfPrecipitation, 'percent', 'probabilityOfPrecipitation')
    if (popPct[hour] === 0) arrays.rainMm[hour] = 0
  })
  const remarks = [
    'From the hourly text forecast: gusts and amounts of rain are not known.',
    SUN_FROM_CLOUD,
    ...reconcileHumidity(arrays.relHumidity, dewPointC, arrays.airTempC),
  ]
  return {
    weather: {
      place,
      startEpochH,
      hours,
      members: 1,
      ...arrays,
      solarWm2: sunlightUnder(cloud, place, { startEpochH, hours }),
      provenance: {
        source: NWS_CREDIT.name,
        attribution: NWS_CREDIT.attribution,
        licence: NWS_CREDIT.licence,
        issuedAtEpochH,
        spread: 'single',
        remarks,
      },
    },
    chances: { popPct, popBlockH: new Float32Array(hours).fill(1) },
  }
}

/** @returns the value in our unit, `NaN` if none is given. */
export function measured(q: NwsQuantity | null | undefined, quantity: Quantity, name: string, told: Told): number {
  return q?.value === undefined || q.value === null ? Number.NaN : intoOurs(quantity, q.unitCode, name, told)(q.value)
}

function temperatureOf({ temperature, temperatureUnit }: NwsPeriod, told: Told): number {
  if (temperature === null) return Number.NaN
  if (typeof temperature !== 'number') return measured(temperature, 'temperature', 'temperature', told)
  return intoOurs('temperature', temperatureUnit ?? undefined, 'temperature', told)(temperature)
}

/** "9 to 13 mph" is read as 13 mph: the windy side. */
function windOf({ windSpeed }: NwsPeriod, told: Told): number {
  if (windSpeed === null || windSpeed === undefined || windSpeed === '') return Number.NaN
  if (typeof windSpeed !== 'string') {
    const value = windSpeed.maxValue ?? windSpeed.value
    return measured({ unitCode: windSpeed.unitCode, value }, 'speed', 'windSpeed', told)
  }
  const parts = /^(?:(\d+(?:\.\d+)?) to )?(\d+(?:\.\d+)?) (\S+)$/.exec(windSpeed.trim())
  if (parts === null) throw new SourceUnreadable(`the wind is "${windSpeed.slice(0, 40)}"`, told)
  return intoOurs('speed', parts[3], 'windSpeed', told)(Number(parts[2]))
}

function directionOf(word: string | null | undefined): number {
  const at = COMPASS.indexOf(word ?? '')
  return at < 0 ? Number.NaN : at * DEG_PER_POINT
}

/** From an icon's address such as ".../icons/land/night/rain,40/bkn?size=small": the last part speaks for the hour. */
function cloudOf(icon: string | null | undefined): number {
  const words =
    /\/icons\/[^?]*/
      .exec(icon ?? '')?.[0]
      .split('/')
      .slice(4) ?? []
  const word = words.at(-1)?.split(',')[0] ?? ''
  if (WET_ICON.test(word)) return 1
  return CLOUD[word.replace(/^wind_/, '')] ?? Number.NaN
}
