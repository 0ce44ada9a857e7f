/**
 * Reports of a weather station to observed hours. A report stamped 10:53 speaks for the hour 10-11; several reports
 * in an hour are averaged.
 */

import { SourceUnreadable } from '#app/failures.ts'
import { type Place, unknownWeatherArrays, type Weather } from '#core/units/weather.ts'
import { reconcileHumidity } from '#edges/sources/humidity.ts'
import { epochHoursOfIso } from '#edges/sources/iso-time.ts'
import type { Told } from '#edges/sources/reading.ts'
import { SUN_FROM_CLOUD, sunlightUnder } from '#edges/sources/sky.ts'
import { intoOurs, type Quantity } from '#edges/sources/units.ts'
import { NWS_CREDIT } from './credit.ts'
import type { NwsObservation, NwsQuantity } from './schema.ts'

/**
 * Marks of the MADIS quality control that are not believed: failed, questioned, rejected by hand
 * (api.weather.gov documentation of `qualityControl`).
 */
const NOT_BELIEVED = new Set(['X', 'Q', 'B'])

/** Middle of the eighths behind each word (Federal Meteorological Handbook No. 1, table 9-2, from memory). */
const CLOUD: { readonly [word: string]: number } = {
  SKC: 0,
  CLR: 0,
  FEW: 1.5 / 8,
  SCT: 3.5 / 8,
  BKN: 6 / 8,
  OVC: 1,
  VV: 1,
}

interface Hour {
  readonly airTempC: number[]
  readonly relHumidity: number[]
  readonly dewPointC: number[]
  readonly windMs: number[]
  readonly gustMs: number[]
  readonly rainMm: number[]
  readonly cloud: number[]
  east: number
  north: number
}

/** @returns observed hours from `hoursBack` before now to the last full hour, not yet screened. */
export function weatherFromObservations(
  reports: readonly NwsObservation[],
  place: Place,
  nowEpochH: number,
  hoursBack: number,
  told: Told,
): Weather {
  const endEpochH = Math.floor(nowEpochH)
  const grid = { startEpochH: endEpochH - hoursBack, hours: hoursBack }
  const byHour = Array.from({ length: hoursBack }, emptyHour)
  for (const report of reports) {
    const stamp = epochHoursOfIso(report.timestamp)
    if (Number.isNaN(stamp)) throw new SourceUnreadable(`a report is stamped "${report.timestamp.slice(0, 60)}"`, told)
    const hour = byHour[Math.floor(stamp) - grid.startEpochH]
    if (hour !== undefined) take(report, hour, told)
  }

  const arrays = unknownWeatherArrays(1, hoursBack)
  const dewPointC = new Float32Array(hoursBack)
  const cloud = new Float32Array(hoursBack)
  byHour.forEach((hour, at) => {
    arrays.airTempC[at] = mean(hour.airTempC)
    arrays.relHumidity[at] = mean(hour.relHumidity)
    arrays.windMs[at] = mean(hour.windMs)
    // A report without a gust says that there was none above the wind; settled in the screen.
    arrays.gustMs[at] = highest([...hour.gustMs, ...hour.windMs])
    // Each report within an hour holds the rain since the last hourly one: the highest is the sum.
    arrays.rainMm[at] = highest(hour.rainMm)
    arrays.windFromDeg[at] =
      Math.hypot(hour.east, hour.north) < 1e-6
        ? Number.NaN
        : ((Math.atan2(hour.east, hour.north) * 180) / Math.PI + 360) % 360
    dewPointC[at] = mean(hour.dewPointC)
    cloud[at] = mean(hour.cloud)
  })
  const remarks = [SUN_FROM_CLOUD, ...reconcileHumidity(arrays.relHumidity, dewPointC, arrays.airTempC)]
  return {
    place,
    ...grid,
    members: 1,
    ...arrays,
    solarWm2: sunlightUnder(cloud, place, grid),
    provenance: {
      source: NWS_CREDIT.name,
      attribution: NWS_CREDIT.attribution,
      licence: NWS_CREDIT.licence,
      issuedAtEpochH: endEpochH,
      spread: 'observed',
      remarks,
    },
  }
}

function emptyHour(): Hour {
  return {
    airTempC: [],
    relHumidity: [],
    dewPointC: [],
    windMs: [],
    gustMs: [],
    rainMm: [],
    cloud: [],
    east: 0,
    north: 0,
  }
}

function take(report: NwsObservation, hour: Hour, told: Told): void {
  const given = (q: NwsQuantity | null | undefined, quantity: Quantity, name: string): number =>
    q?.value === undefined || q.value === null || NOT_BELIEVED.has(q.qualityControl ?? '')
      ? Number.NaN
      : intoOurs(quantity, q.unitCode, name, told)(q.value)
  const windMs = given(report.windSpeed, 'speed', 'windSpeed')
  const windFrom = given(report.windDirection, 'direction', 'windDirection')
  keep(hour.airTempC, given(report.temperature, 'temperature', 'temperature'))
  keep(hour.relHumidity, given(report.relativeHumidity, 'share', 'relativeHumidity'))
  keep(hour.dewPointC, given(report.dewpoint, 'temperature', 'dewpoint'))
  keep(hour.windMs, windMs)
  keep(hour.gustMs, given(report.windGust, 'speed', 'windGust'))
  keep(hour.rainMm, rainOf(report, given(report.precipitationLastHour, 'rain', 'precipitationLastHour')))
  keep(hour.cloud, cloudOf(report))
  if (!Number.isNaN(windFrom) && windMs > 0) {
    hour.east += Math.sin((windFrom * Math.PI) / 180)
    hour.north += Math.cos((windFrom * Math.PI) / 180)
  }
}

/**
 * An automatic station that can tell precipitation (AO2) and whose gauge works (no PNO) leaves out the amount when
 * there was none (Federal Meteorological Handbook No. 1, chapter 12, from memory). Without that, no amount is no word.
 */
function rainOf({ rawMessage }: NwsObservation, reportedMm: number): number {
  if (!Number.isNaN(reportedMm)) return reportedMm
  const words = (rawMessage ?? '').split(/\s+/)
  const tells = words.includes('AO2') && !words.includes('PNO') && !words.includes('$')
  const wet = words.some(
    (word) => /^P\d{4}$/.test(word) || /^(?:VC|\+|-)?(?:TS|SH|FZ|BL|DR)?(?:RA|DZ|SN|SG|PL|GR|GS|UP)+$/.test(word),
  )
  return tells && !wet ? 0 : Number.NaN
}

function cloudOf({ cloudLayers }: NwsObservation): number {
  if (cloudLayers === null || cloudLayers === undefined || cloudLayers.length === 0) return Number.NaN
  return highest(cloudLayers.map(({ amount }) => CLOUD[amount] ?? Number.NaN))
}

function keep(values: number[], value: number): void {
  if (!Number.isNaN(value)) values.push(value)
}

const mean = (values: readonly number[]): number =>
  values.length === 0 ? Number.NaN : values.reduce((sum, value) => sum + value, 0) / values.length

const highest = (values: readonly number[]): number => {
  const known = values.filter((value) => !Number.isNaN(value))
  return known.length === 0 ? Number.NaN : Math.max(...known)
}
