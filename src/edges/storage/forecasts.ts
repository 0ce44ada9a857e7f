/** Kept forecasts in a database: hundredths of a percent, two bytes each, as Base64 text. */
import type { Kysely } from 'kysely'
import { type ForecastStore, KEPT_SHARES, type KeptForecast } from '#app/forecasts-port.ts'
import type { CropName } from '#core/science/crop.ts'

export interface ForecastTables {
  kept_forecast: {
    farm_id: string
    part_key: string
    made_on: string
    made_at_epoch_h: number
    crop: string
    start_epoch_h: number
    hours: number
    quantiles: string
  }
}

/** Rows in one statement, so that a large farm stays below the limits on parameters. */
const ROWS_AT_ONCE = 100

/** @param shared a database brought up to date, that others use as well. Closing it is the owner's. */
export function forecastStore<Tables extends ForecastTables>(shared: Kysely<Tables>): ForecastStore {
  const database = shared as unknown as Kysely<ForecastTables>
  return {
    async keepForecasts(forecasts) {
      for (let i = 0; i < forecasts.length; i += ROWS_AT_ONCE) {
        await database
          .insertInto('kept_forecast')
          .values(forecasts.slice(i, i + ROWS_AT_ONCE).map(rowOf))
          .onConflict((conflict) => conflict.doNothing())
          .execute()
      }
    },
    async forecasts(farmId, sinceEpochH, partKeys) {
      if (partKeys?.length === 0) return []
      const all = database.selectFrom('kept_forecast').selectAll().where('farm_id', '=', farmId)
      const since = sinceEpochH === undefined ? all : all.where('made_at_epoch_h', '>=', sinceEpochH)
      const rows = await (partKeys === undefined ? since : since.where('part_key', 'in', partKeys)).execute()
      return rows.map(forecastOf).sort(byDayAndPart)
    },
  }
}

const byDayAndPart = (a: KeptForecast, b: KeptForecast): number =>
  Temporal.PlainDate.compare(a.madeOn, b.madeOn) || (a.partKey < b.partKey ? -1 : 1)

function rowOf(forecast: KeptForecast): ForecastTables['kept_forecast'] {
  return {
    farm_id: forecast.farmId,
    part_key: forecast.partKey,
    made_on: forecast.madeOn.toString(),
    made_at_epoch_h: forecast.madeAtEpochH,
    crop: forecast.crop,
    start_epoch_h: forecast.startEpochH,
    hours: forecast.hours,
    quantiles: packed(forecast.moistureWb),
  }
}

function forecastOf(row: ForecastTables['kept_forecast']): KeptForecast {
  return {
    farmId: row.farm_id,
    partKey: row.part_key,
    crop: row.crop as CropName,
    madeOn: Temporal.PlainDate.from(row.made_on),
    madeAtEpochH: row.made_at_epoch_h,
    startEpochH: row.start_epoch_h,
    hours: row.hours,
    moistureWb: unpacked(row.quantiles, row.hours * KEPT_SHARES.length),
  }
}

const STEPS_PER_PERCENT = 100
/** Stands for "not known": no moisture comes near 655 %. */
const UNKNOWN = 0xffff

function packed(values: Float32Array): string {
  const bytes = Buffer.alloc(2 * values.length)
  for (const [i, value] of values.entries()) {
    bytes.writeUInt16LE(Number.isNaN(value) ? UNKNOWN : Math.round(value * STEPS_PER_PERCENT), 2 * i)
  }
  return bytes.toString('base64')
}

function unpacked(text: string, count: number): Float32Array {
  const bytes = Buffer.from(text, 'base64')
  return Float32Array.from({ length: count }, (_, i) => {
    const step = bytes.readUInt16LE(2 * i)
    return step === UNKNOWN ? Number.NaN : step / STEPS_PER_PERCENT
  })
}
