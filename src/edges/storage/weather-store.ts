/** Weather in a database: one row per cell, source and run, one per cell and day seen. */
import type { Insertable, Kysely, Selectable } from 'kysely'
import type { CallKind, KeptRun, SeenLayer, SourceTally, WeatherStore } from '#app/weather-store.ts'
import type { SourceSkill } from '#core/science/blend/skill.ts'
import type { SaidChances } from '#core/science/spread/chances.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import {
  type Place,
  type Provenance,
  unknownWeatherArrays,
  WEATHER_VARIABLES,
  type Weather,
  type WeatherVariable,
} from '#core/units/weather.ts'
import { type HistoryTables, historyStore } from './history-store.ts'
import { openAt } from './open.ts'
import { packFloats, unpackFloats } from './weather-bytes.ts'

export interface WeatherTables extends HistoryTables {
  weather_run: {
    cell: string
    source_id: string
    fetched_epoch_h: number
    expires_epoch_h: number | null
    start_epoch_h: number
    hours: number
    members: number
    about: string
    body: Uint8Array
  }
  weather_seen: { cell: string; layer: SeenLayer; epoch_day: number; about: string; body: Uint8Array }
  weather_skill: { cell: string; source_id: string; learnt_until_epoch_h: number; body: string }
  source_call: {
    source_id: string
    kind: CallKind
    at_epoch_h: number
    issued_epoch_h: number | null
    failure: string | null
  }
}

interface RunAbout {
  readonly place: Place
  readonly provenance: Provenance
  /** Names of the chances that follow the variables in the body. */
  readonly chances: readonly (keyof SaidChances)[]
}

/** @param where path of a file, `:memory:`, or `postgres://...`. */
export const openWeatherStore = async (where: string): Promise<WeatherStore> =>
  weatherStore(await openAt<WeatherTables>(where))

export function weatherStore(database: Kysely<WeatherTables>): WeatherStore {
  return {
    ...historyStore(database),
    async keepRun(cell, run) {
      const row = rowOf(cell, run)
      await database
        .insertInto('weather_run')
        .values(row)
        .onConflict((conflict) => conflict.columns(['cell', 'source_id', 'fetched_epoch_h']).doUpdateSet(row))
        .execute()
    },
    async newestRuns(cell) {
      const newest = await database
        .selectFrom('weather_run')
        .select(({ fn }) => ['source_id', fn.max('fetched_epoch_h').as('fetched_epoch_h')])
        .where('cell', '=', cell)
        .groupBy('source_id')
        .execute()
      const rows = await Promise.all(
        newest.map((key) =>
          database
            .selectFrom('weather_run')
            .selectAll()
            .where('cell', '=', cell)
            .where('source_id', '=', key.source_id)
            .where('fetched_epoch_h', '=', key.fetched_epoch_h)
            .executeTakeFirstOrThrow(),
        ),
      )
      return rows.map(runOf)
    },
    async runsSince(cell, sourceId, fetchedSinceEpochH) {
      const rows = await database
        .selectFrom('weather_run')
        .selectAll()
        .where('cell', '=', cell)
        .where('source_id', '=', sourceId)
        .where('fetched_epoch_h', '>=', fetchedSinceEpochH)
        .orderBy('fetched_epoch_h')
        .execute()
      return rows.map(runOf)
    },
    async keepSeen(cell, layer, seen) {
      await database.transaction().execute(async (transaction) => {
        for (const day of daysOf(seen)) await keepDay(transaction, cell, layer, seen, day)
      })
    },
    async seen(cell, layer, place, fromEpochH, toEpochH) {
      const rows = await database
        .selectFrom('weather_seen')
        .selectAll()
        .where('cell', '=', cell)
        .where('layer', '=', layer)
        .where('epoch_day', '>=', Math.floor(fromEpochH / HOURS_PER_DAY))
        .where('epoch_day', '<', Math.ceil(toEpochH / HOURS_PER_DAY))
        .orderBy('epoch_day')
        .execute()
      const last = rows.at(-1)
      if (!last) return undefined
      const hours = Math.max(0, toEpochH - fromEpochH)
      const arrays = unknownWeatherArrays(1, hours)
      for (const row of rows) {
        const day = unpackDay(row.body)
        for (let k = 0; k < HOURS_PER_DAY; k++) {
          const h = row.epoch_day * HOURS_PER_DAY + k - fromEpochH
          if (h >= 0 && h < hours) for (const name of WEATHER_VARIABLES) arrays[name][h] = day[name][k]!
        }
      }
      return {
        place,
        startEpochH: fromEpochH,
        hours,
        members: 1,
        ...arrays,
        provenance: issuedOf(JSON.parse(last.about)),
      }
    },
    async keepSkill(cell, sourceId, { skill, learntUntilEpochH }) {
      const row = { body: JSON.stringify(skill), learnt_until_epoch_h: learntUntilEpochH }
      await database
        .insertInto('weather_skill')
        .values({ cell, source_id: sourceId, ...row })
        .onConflict((conflict) => conflict.columns(['cell', 'source_id']).doUpdateSet(row))
        .execute()
    },
    async skills(cell) {
      const rows = await database.selectFrom('weather_skill').selectAll().where('cell', '=', cell).execute()
      return new Map(
        rows.map((row) => [
          row.source_id,
          { skill: JSON.parse(row.body) as SourceSkill, learntUntilEpochH: row.learnt_until_epoch_h },
        ]),
      )
    },
    async noteCall({ sourceId, kind, atEpochH, failure, issuedAtEpochH }) {
      await database
        .insertInto('source_call')
        .values({
          source_id: sourceId,
          kind,
          at_epoch_h: atEpochH,
          issued_epoch_h: knownOr(issuedAtEpochH),
          failure: failure ?? null,
        })
        .execute()
    },
    async tallies(sinceEpochH) {
      const rows = await database
        .selectFrom('source_call')
        .selectAll()
        .where('at_epoch_h', '>=', sinceEpochH)
        .orderBy('at_epoch_h')
        .execute()
      return [...Map.groupBy(rows, (row) => `${row.source_id}/${row.kind}`).values()].map(tallyOf)
    },
    async drop({ runsBeforeEpochH, seenBeforeEpochH, callsBeforeEpochH }) {
      await database.deleteFrom('weather_run').where('fetched_epoch_h', '<', runsBeforeEpochH).execute()
      const day = Math.floor(seenBeforeEpochH / HOURS_PER_DAY)
      await database.deleteFrom('weather_seen').where('epoch_day', '<', day).execute()
      await database.deleteFrom('source_call').where('at_epoch_h', '<', callsBeforeEpochH).execute()
    },
    close: () => database.destroy(),
  }
}

const knownOr = (value: number | undefined): number | null =>
  value === undefined || Number.isNaN(value) ? null : value

function rowOf(cell: string, run: KeptRun): Insertable<WeatherTables['weather_run']> {
  const { weather, chances } = run
  const names = (Object.keys(chances) as (keyof SaidChances)[]).filter((name) => chances[name] !== undefined)
  const about: RunAbout = { place: weather.place, provenance: weather.provenance, chances: names }
  const { members, hours } = weather
  // Chances belong to all members: each takes the room of a member, so that every array has one length.
  const padded = names.map((name) => {
    const values = new Float32Array(members * hours).fill(Number.NaN)
    values.set(chances[name]!)
    return values
  })
  return {
    cell,
    source_id: run.sourceId,
    fetched_epoch_h: run.fetchedAtEpochH,
    expires_epoch_h: knownOr(run.expiresAtEpochH),
    start_epoch_h: weather.startEpochH,
    hours,
    members,
    about: JSON.stringify(about),
    body: packFloats([...WEATHER_VARIABLES.map((name) => weather[name]), ...padded]),
  }
}

function runOf(row: Selectable<WeatherTables['weather_run']>): KeptRun {
  const about = JSON.parse(row.about) as RunAbout
  const count = WEATHER_VARIABLES.length + about.chances.length
  const arrays = unpackFloats(row.body, count, row.members * row.hours)
  const chances: { -readonly [C in keyof SaidChances]: SaidChances[C] } = {}
  for (const [k, name] of about.chances.entries())
    chances[name] = arrays[WEATHER_VARIABLES.length + k]!.slice(0, row.hours)
  return {
    sourceId: row.source_id,
    fetchedAtEpochH: row.fetched_epoch_h,
    expiresAtEpochH: row.expires_epoch_h ?? Number.NaN,
    weather: {
      place: about.place,
      startEpochH: row.start_epoch_h,
      hours: row.hours,
      members: row.members,
      ...namedArrays(arrays),
      provenance: issuedOf(about.provenance),
    },
    chances,
  }
}

const namedArrays = (arrays: readonly Float32Array[]) =>
  Object.fromEntries(WEATHER_VARIABLES.map((name, k) => [name, arrays[k]!])) as Record<WeatherVariable, Float32Array>

/** JSON knows no NaN: a time of issue that is not known comes back from null. */
const issuedOf = (read: Provenance): Provenance => ({ ...read, issuedAtEpochH: read.issuedAtEpochH ?? Number.NaN })

const unpackDay = (body: Uint8Array) => namedArrays(unpackFloats(body, WEATHER_VARIABLES.length, HOURS_PER_DAY))

/** Days of the epoch that the weather touches. */
function daysOf({ startEpochH, hours }: Weather): number[] {
  const first = Math.floor(startEpochH / HOURS_PER_DAY)
  const last = Math.floor((startEpochH + hours - 1) / HOURS_PER_DAY)
  return hours === 0 ? [] : Array.from({ length: last - first + 1 }, (_, k) => first + k)
}

async function keepDay(
  database: Kysely<WeatherTables>,
  cell: string,
  layer: SeenLayer,
  seen: Weather,
  epochDay: number,
): Promise<void> {
  const kept = await database
    .selectFrom('weather_seen')
    .select('body')
    .where('cell', '=', cell)
    .where('layer', '=', layer)
    .where('epoch_day', '=', epochDay)
    .executeTakeFirst()
  const day = kept ? unpackDay(kept.body) : unknownWeatherArrays(1, HOURS_PER_DAY)
  let changed = false
  for (const name of WEATHER_VARIABLES) {
    for (let k = 0; k < HOURS_PER_DAY; k++) {
      const value = seen[name][epochDay * HOURS_PER_DAY + k - seen.startEpochH] ?? Number.NaN
      if (Number.isNaN(value) || Object.is(day[name][k], value)) continue
      day[name][k] = value
      changed = true
    }
  }
  if (!changed) return
  const row = {
    about: JSON.stringify(seen.provenance),
    body: packFloats(WEATHER_VARIABLES.map((name) => day[name])),
  }
  await database
    .insertInto('weather_seen')
    .values({ cell, layer, epoch_day: epochDay, ...row })
    .onConflict((conflict) => conflict.columns(['cell', 'layer', 'epoch_day']).doUpdateSet(row))
    .execute()
}

function tallyOf(rows: readonly Selectable<WeatherTables['source_call']>[]): SourceTally {
  const last = rows.at(-1)!
  const good = rows.filter(({ failure }) => failure === null)
  const bad = rows.findLast(({ failure }) => failure !== null)
  const issued = good.map((row) => row.issued_epoch_h).filter((value) => value !== null)
  return {
    sourceId: last.source_id,
    kind: last.kind,
    calls: rows.length,
    failed: rows.length - good.length,
    lastAskedEpochH: last.at_epoch_h,
    lastGoodEpochH: good.at(-1)?.at_epoch_h ?? Number.NaN,
    lastIssuedEpochH: issued.length > 0 ? Math.max(...issued) : Number.NaN,
    lastFailure: bad?.failure ?? undefined,
    lastFailureEpochH: bad?.at_epoch_h ?? Number.NaN,
  }
}
