/**
 * The Canadian fire weather index, day after day from noon weather.
 *
 * Written from the printed equations (Van Wagner C.E., Pickett T.L. 1985, For. Tech. Rep. 33; Van Wagner C.E. 1987,
 * For. Tech. Rep. 35), constants as printed there unless `FULL_CONSTANTS` is asked for.
 */
import { droughtCode } from './drought-code.ts'
import { type DuffForm, duffCode } from './duff.ts'
import { FINE_FUEL_SCALE_1987, FINE_FUEL_SCALE_FULL, fineFuelCode } from './fine-fuel.ts'
import type { NoonDays } from './noon-weather.ts'
import { buildUp, dailySeverity, fireWeather, initialSpread } from './spread.ts'

export interface FireWeatherConstants {
  readonly fineFuelScale: number
  readonly duffForm: DuffForm
}
/** As printed in 1985 and 1987. */
export const PRINTED_CONSTANTS: FireWeatherConstants = { fineFuelScale: FINE_FUEL_SCALE_1987, duffForm: '1987' }
/** As later programs carry them (Wang Y., Anderson K.R., Suddaby R.M. 2015, NOR-X-424). */
export const FULL_CONSTANTS: FireWeatherConstants = { fineFuelScale: FINE_FUEL_SCALE_FULL, duffForm: 'full' }

/** The three codes that one day hands to the next. */
export interface MoistureCodes {
  readonly fineFuel: number
  readonly duff: number
  readonly drought: number
}
/** Where a season starts three days after snow has gone (Van Wagner 1987). */
export const START_UP: MoistureCodes = { fineFuel: 85, duff: 6, drought: 15 }

export interface FireWeatherDays {
  readonly fineFuel: Float64Array
  readonly duff: Float64Array
  readonly drought: Float64Array
  readonly initialSpread: Float64Array
  readonly buildUp: Float64Array
  readonly fireWeather: Float64Array
  readonly severity: Float64Array
}

export interface FireWeatherOptions {
  readonly start?: MoistureCodes
  readonly constants?: FireWeatherConstants
  /**
   * Unknown days in a row over which the codes may wait at their last known value [d]. The days themselves stay
   * unknown. 0 unless told: after one unknown day the rest of the season is unknown.
   */
  readonly waitDays?: number
}

/**
 * All six fire weather outputs and the daily severity over a series of days.
 * @param days noon values, one entry per consecutive day (see `noonWeather`)
 * @param latDeg latitude, north positive [deg]
 * @param options start codes (85/6/15), constants (as printed), days the codes may wait (0)
 * @returns one value per day each, no unit; NaN on unknown days and, past `waitDays`, ever after
 * Van Wagner 1987, For. Tech. Rep. 35. Checked on 24 days of the 1985 test season, see
 * tests/truth/fire-weather-index.ts. Day-length belts outside 30 N and up are from memory.
 */
export function fireWeatherDays(days: NoonDays, latDeg: number, options: FireWeatherOptions = {}): FireWeatherDays {
  const { start = START_UP, constants = PRINTED_CONSTANTS, waitDays = 0 } = options
  const count = days.dates.length
  const fresh = (): Float64Array => new Float64Array(count).fill(Number.NaN)
  const out: FireWeatherDays = {
    fineFuel: fresh(),
    duff: fresh(),
    drought: fresh(),
    initialSpread: fresh(),
    buildUp: fresh(),
    fireWeather: fresh(),
    severity: fresh(),
  }
  let codes = start
  let waited = 0
  for (let d = 0; d < count; d++) {
    const today = nextCodes(codes, days, d, latDeg, constants)
    if (Number.isNaN(today.fineFuel + today.duff + today.drought)) {
      waited += 1
      if (waited > waitDays) break
      continue
    }
    waited = 0
    codes = today
    const spread = initialSpread(today.fineFuel, days.windMs[d]!, constants.fineFuelScale)
    const build = buildUp(today.duff, today.drought)
    const index = fireWeather(spread, build)
    out.fineFuel[d] = today.fineFuel
    out.duff[d] = today.duff
    out.drought[d] = today.drought
    out.initialSpread[d] = spread
    out.buildUp[d] = build
    out.fireWeather[d] = index
    out.severity[d] = dailySeverity(index)
  }
  return out
}

function nextCodes(
  before: MoistureCodes,
  days: NoonDays,
  d: number,
  latDeg: number,
  constants: FireWeatherConstants,
): MoistureCodes {
  const month = days.dates[d]!.month
  const temp = days.airTempC[d]!
  const humidity = days.relHumidity[d]!
  const rain = days.rainMm[d]!
  return {
    fineFuel: fineFuelCode(before.fineFuel, temp, humidity, days.windMs[d]!, rain, constants.fineFuelScale),
    duff: duffCode(before.duff, temp, humidity, rain, month, latDeg, constants.duffForm),
    drought: droughtCode(before.drought, temp, rain, month, latDeg),
  }
}
