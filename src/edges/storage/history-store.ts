/** The past of a place in a database, one row per cell, source and year; and the warnings last read. */
import type { Kysely, Selectable } from 'kysely'
import type { Warning } from '#app/ports.ts'
import type { KeptWarnings, KeptYear, SettledYear, WeatherStore } from '#app/weather-store.ts'
import { hoursOfYear } from '#core/units/time.ts'
import type { Place, Provenance, Weather } from '#core/units/weather.ts'
import { packShorts, unpackShorts } from './weather-shorts.ts'

export interface HistoryTables {
  weather_year: {
    cell: string
    source_id: string
    year: number
    settled_until_epoch_h: number
    about: string
    body: Uint8Array
  }
  warning_read: { source_id: string; cell: string; read_epoch_h: number; body: string }
}

type HistoryStore = Pick<
  WeatherStore,
  'keepYear' | 'years' | 'settledYears' | 'keepWarnings' | 'keptWarnings' | 'dropWarnings'
>

export function historyStore(database: Kysely<HistoryTables>): HistoryStore {
  return {
    async keepYear(cell, { sourceId, year, settledUntilEpochH, weather }) {
      const { startEpochH, endEpochH } = hoursOfYear(year)
      if (weather.startEpochH !== startEpochH || weather.hours !== endEpochH - startEpochH || weather.members !== 1)
        throw new RangeError(`the weather of ${year} is not that of one whole year`)
      const about = JSON.stringify(weather.provenance)
      const row = { settled_until_epoch_h: settledUntilEpochH, about, body: packShorts(weather) }
      await database
        .insertInto('weather_year')
        .values({ cell, source_id: sourceId, year, ...row })
        .onConflict((conflict) => conflict.columns(['cell', 'source_id', 'year']).doUpdateSet(row))
        .execute()
    },
    async years(cell, place, fromYear, toYear) {
      const rows = await database
        .selectFrom('weather_year')
        .selectAll()
        .where('cell', '=', cell)
        .where('year', '>=', fromYear)
        .where('year', '<=', toYear)
        .orderBy('year')
        .orderBy('source_id')
        .execute()
      return rows.map((row) => keptYearOf(row, place))
    },
    async settledYears(cell) {
      const rows = await database
        .selectFrom('weather_year')
        .select(['source_id', 'year', 'settled_until_epoch_h'])
        .where('cell', '=', cell)
        .orderBy('year')
        .orderBy('source_id')
        .execute()
      return rows.map(
        (row): SettledYear => ({
          sourceId: row.source_id,
          year: row.year,
          settledUntilEpochH: row.settled_until_epoch_h,
        }),
      )
    },
    async keepWarnings(cell, { sourceId, readAtEpochH, warnings }) {
      const row = { read_epoch_h: readAtEpochH, body: JSON.stringify(warnings) }
      await database
        .insertInto('warning_read')
        .values({ cell, source_id: sourceId, ...row })
        .onConflict((conflict) => conflict.columns(['source_id', 'cell']).doUpdateSet(row))
        .execute()
    },
    async keptWarnings(cell) {
      const rows = await database.selectFrom('warning_read').selectAll().where('cell', '=', cell).execute()
      return rows.map(
        (row): KeptWarnings => ({
          sourceId: row.source_id,
          readAtEpochH: row.read_epoch_h,
          warnings: JSON.parse(row.body) as readonly Warning[],
        }),
      )
    },
    async dropWarnings(readBeforeEpochH) {
      await database.deleteFrom('warning_read').where('read_epoch_h', '<', readBeforeEpochH).execute()
    },
  }
}

function keptYearOf(row: Selectable<HistoryTables['weather_year']>, place: Place): KeptYear {
  const { startEpochH, endEpochH } = hoursOfYear(row.year)
  const hours = endEpochH - startEpochH
  const weather: Weather = {
    place,
    startEpochH,
    hours,
    members: 1,
    ...unpackShorts(row.body, hours),
    provenance: JSON.parse(row.about) as Provenance,
  }
  return { sourceId: row.source_id, year: row.year, settledUntilEpochH: row.settled_until_epoch_h, weather }
}
