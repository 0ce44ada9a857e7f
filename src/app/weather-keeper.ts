/**
 * Keeps the weather of each cell: asks each source once however many fields share it, keeps what came, blends what is at
 * hand, grows members, joins the hours seen to the hours ahead, and serves the last good weather when nobody answers.
 *
 * It hands itself out as a forecast source and an observation source, so that whoever asks need not know it is there.
 */

import { middleOf } from '#core/science/blend/blend.ts'
import { emptySkill, learn } from '#core/science/blend/skill.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Place, Weather } from '#core/units/weather.ts'
import { sharedHours } from '#core/units/weather-hours.ts'
import { asker } from './ask-source.ts'
import { askTimes } from './ask-times.ts'
import { blendRuns, endOf, inOrder, nameOfRuns, oneEvery } from './blend-runs.ts'
import { earlierYearsFrom } from './earlier-years.ts'
import { SourceUnreachable } from './failures.ts'
import type { Suppliers } from './find-weather.ts'
import { gate } from './gate.ts'
import { keepWarnings } from './keep-warnings.ts'
import type { Log } from './log.ts'
import type {
  ForecastSource,
  ObservationRequest,
  ObservationSource,
  SourceForecast,
  SourceObservations,
  WeatherRequest,
} from './ports.ts'
import { type Lack, lacksOf, type SourceState, statesOf } from './source-states.ts'
import { cellOf } from './weather-cell.ts'
import { keepHistory } from './weather-history.ts'
import { joinPast, lastKnownEpochH } from './weather-past.ts'
import type { KeptRun, WeatherStore } from './weather-store.ts'

export interface KeeperParts {
  /** The real sources, in the farm's order. */
  readonly suppliers: Suppliers
  readonly store: WeatherStore
  /** 0-1; spreads the asking. */
  readonly random: () => number
  readonly log: Log
}

export interface WeatherKeeper {
  /** To be asked in place of the real sources. */
  readonly suppliers: Suppliers
  /** Asks every source that is due, for a look at how they are doing; failures are noted, not thrown. */
  askAll(request: WeatherRequest): Promise<void>
  /** What is kept of the past of a place, earlier seasons too; undefined where nothing is. */
  seen(place: Place, fromEpochH: number, toEpochH: number): Promise<Weather | undefined>
  /** How each source is doing, for people. */
  states(nowEpochH: number): Promise<readonly SourceState[]>
  /** What no source of the farm gives. */
  readonly lacks: readonly Lack[]
  /** Drops what is too old to be of use; once a day is enough. */
  tidy(nowEpochH: number): Promise<void>
}

const MOST_CONNECTIONS = 4
/** How long after its fetching a forecast's hours still stand in for measured ones [h]. */
const ANALYSIS_REACH_H = 48
/** Stations report late: so much of what is known already is asked for again [h]. */
const OVERLAP_H = 6
/** Station hours older than this no service has any more, once they were asked for [h]. */
const STATION_REACH_H = 7 * HOURS_PER_DAY
/** Runs held against what was seen: one in so many hours, and not older than so many days. */
const LEARNT_EVERY_H = 6
const LEARNT_DAYS = 11
const KEPT_RUN_DAYS = 12
const KEPT_SEEN_DAYS = 5 * 366
const KEPT_CALL_DAYS = 30
const KEPT_WARNING_DAYS = 30
const LAST_SEEN_H = 3

export function keepWeather({ suppliers, store, random, log }: KeeperParts): WeatherKeeper {
  const times = askTimes(random)
  const ask = asker({ store, connections: gate(MOST_CONNECTIONS), log })
  const seenLive = (place: Place, fromEpochH: number, toEpochH: number) => seenIn(place, fromEpochH, toEpochH, [])
  const history = keepHistory({ sources: suppliers.history ?? [], store, ask, random, seen: seenLive })
  const underway = new Map<string, Promise<void>>()
  /** What was blended last, by cell. */
  const ready = new Map<string, SourceForecast>()

  /** One at a time for a key: whoever comes second waits for the first. */
  function once(key: string, work: () => Promise<void>): Promise<void> {
    const going = underway.get(key) ?? work().finally(() => underway.delete(key))
    underway.set(key, going)
    return going
  }

  const renewForecasts = (cell: string, request: WeatherRequest) =>
    once(`${cell}/forecasts`, async () => {
      const { nowEpochH } = request
      const kept = new Map((await store.newestRuns(cell)).map((run) => [run.sourceId, run]))
      for (const run of kept.values()) await keepPassedHours(cell, run, nowEpochH)
      await Promise.all(
        suppliers.forecasts.map(async (source) => {
          const key = `${cell}/${source.id}/forecast`
          const last = kept.get(source.id)
          // After a restart the store knows what is still good.
          if (last && last.expiresAtEpochH > nowEpochH && last.fetchedAtEpochH <= nowEpochH) return
          if (!times.isDue(key, nowEpochH)) return
          const answer = await ask(
            { source, kind: 'forecast', key, times, nowEpochH },
            () => source.fetch(request),
            ({ weather, expiresAtEpochH }) => ({ expiresAtEpochH, issuedAtEpochH: issuedAt(weather) }),
          )
          if ('found' in answer) await keepFound(cell, source, answer.found, last, nowEpochH)
        }),
      )
    })

  async function keepFound(
    cell: string,
    source: ForecastSource,
    found: SourceForecast,
    last: KeptRun | undefined,
    nowEpochH: number,
  ): Promise<void> {
    const expiresAtEpochH = found.expiresAtEpochH ?? Number.NaN
    const isNews = !last || !(issuedAt(found.weather) <= issuedAt(last.weather)) || endOf(last.weather) < nowEpochH
    if (!isNews) {
      // The same issue again: the kept run has all its hours, and its members stay as they were told.
      await store.keepRun(cell, { ...last, expiresAtEpochH })
      return
    }
    // Members are needed only of the newest run; for learning the middle is enough.
    if (last && last.weather.members > 1) await store.keepRun(cell, { ...last, weather: middleOf(last.weather) })
    const { weather, chances } = found
    await store.keepRun(cell, { sourceId: source.id, fetchedAtEpochH: nowEpochH, expiresAtEpochH, weather, chances })
  }

  /** The hours of a forecast that have passed stand in for measured ones where stations are silent. */
  async function keepPassedHours(
    cell: string,
    { weather, fetchedAtEpochH }: KeptRun,
    nowEpochH: number,
  ): Promise<void> {
    const until = Math.min(Math.floor(nowEpochH), Math.floor(fetchedAtEpochH) + ANALYSIS_REACH_H)
    const passed = sharedHours(middleOf(weather), weather.startEpochH, until)
    if (!passed) return
    const { startEpochH, hours, place } = passed
    const kept = await store.seen(cell, 'analysis', place, startEpochH, startEpochH + hours)
    const known = lastKnownEpochH(kept)
    const fresh = Number.isNaN(known) ? passed : sharedHours(passed, known + 1, until)
    if (fresh) await store.keepSeen(cell, 'analysis', fresh)
  }

  async function forecastFor(request: WeatherRequest): Promise<SourceForecast> {
    const cell = cellOf(request.place)
    await renewForecasts(cell, request)
    const { nowEpochH } = request
    const runs = inOrder(await store.newestRuns(cell), suppliers.forecasts).filter(
      ({ weather }) => endOf(weather) > nowEpochH,
    )
    if (runs.length === 0) {
      throw new SourceUnreachable('none of the sources answered and no weather is kept', {
        source: 'Weather',
        where: `cell ${cell}`,
      })
    }
    const known = ready.get(cell)
    if (known?.rawHash === nameOfRuns(runs)) return known
    const hour = Math.floor(nowEpochH)
    const [skills, station] = await Promise.all([
      store.skills(cell),
      store.seen(cell, 'station', request.place, hour - LAST_SEEN_H, hour),
    ])
    const forecast = blendRuns({ cell, runs, skills, seenC: station ? [...station.airTempC] : [], hour })
    ready.set(cell, forecast)
    return forecast
  }

  const renewSeen = (cell: string, request: ObservationRequest) =>
    once(`${cell}/seen`, async () => {
      const { place, nowEpochH } = request
      const hour = Math.floor(nowEpochH)
      for (const source of suppliers.observations) {
        const key = `${cell}/${source.id}/observations`
        if (!times.isDue(key, nowEpochH)) return
        const kept = await store.seen(cell, 'station', place, hour - STATION_REACH_H, hour)
        const lastKnown = lastKnownEpochH(kept)
        const hoursBack = Number.isNaN(lastKnown)
          ? request.hoursBack
          : Math.min(request.hoursBack, hour - lastKnown + OVERLAP_H)
        const answer = await ask(
          { source, kind: 'observations', key, times, nowEpochH },
          () => source.fetch({ ...request, hoursBack }),
          ({ weather }) => ({ issuedAtEpochH: issuedAt(weather) }),
        )
        if (!('found' in answer)) continue
        const { weather } = answer.found
        await store.keepSeen(cell, 'station', weather)
        await learnFrom(cell, weather, nowEpochH)
        return
      }
    })

  /** Holds the runs of each source against the hours that stations have reported since the last time. */
  async function learnFrom(cell: string, seen: Weather, nowEpochH: number): Promise<void> {
    const toEpochH = lastKnownEpochH(seen) + 1
    if (Number.isNaN(toEpochH)) return
    const skills = await store.skills(cell)
    for (const { id } of suppliers.forecasts) {
      const { skill, learntUntilEpochH } = skills.get(id) ?? {
        skill: emptySkill(),
        learntUntilEpochH: seen.startEpochH,
      }
      if (toEpochH <= learntUntilEpochH) continue
      const runs = await store.runsSince(cell, id, nowEpochH - LEARNT_DAYS * HOURS_PER_DAY)
      let learnt = skill
      for (const run of oneEvery(runs, LEARNT_EVERY_H)) {
        learnt = learn(learnt, middleOf(run.weather), seen, learntUntilEpochH, toEpochH)
      }
      await store.keepSkill(cell, id, { skill: learnt, learntUntilEpochH: toEpochH })
    }
  }

  async function seenIn(
    place: Place,
    fromEpochH: number,
    toEpochH: number,
    past: readonly Weather[],
  ): Promise<Weather | undefined> {
    const cell = cellOf(place)
    const [station, analysis] = await Promise.all([
      store.seen(cell, 'station', place, fromEpochH, toEpochH),
      store.seen(cell, 'analysis', place, fromEpochH, toEpochH),
    ])
    return joinPast({ station, analysis, history: past })
  }

  const seenBetween = async (place: Place, fromEpochH: number, toEpochH: number) =>
    seenIn(place, fromEpochH, toEpochH, await history.between(place, fromEpochH, toEpochH))

  async function pastFor(request: ObservationRequest): Promise<SourceObservations> {
    const { place, hoursBack, nowEpochH } = request
    const cell = cellOf(place)
    const hour = Math.floor(nowEpochH)
    await renewSeen(cell, request)
    await once(`${cell}/history`, async () => {
      await history.fillSeason(place, hour - hoursBack, nowEpochH)
      await history.oneEarlierYear(place, nowEpochH)
    })
    const weather = await seenBetween(place, hour - hoursBack, hour)
    if (!weather || weather.hours === 0) {
      throw new SourceUnreachable('nothing seen of the past yet', { source: 'Weather', where: `cell ${cell}` })
    }
    return {
      weather,
      station: { id: cell, name: weather.provenance.source, place, distanceKm: 0 },
      rawHash: `${cell}@${hour}`,
      notes: [],
    }
  }

  const credit = { id: 'kept', name: 'Weather', attribution: '', licence: '' }
  const forecast: ForecastSource = { ...credit, fetch: forecastFor }
  const observations: ObservationSource = { ...credit, fetch: pastFor }
  const warningSources = suppliers.warningSources ?? []
  const warnings = warningSources.length > 0 ? keepWarnings({ sources: warningSources, store, ask, random }) : undefined
  return {
    suppliers: {
      ...suppliers,
      forecasts: [forecast],
      observations: [observations],
      earlierYears: earlierYearsFrom(seenBetween),
      ...(warnings && { warnings }),
    },
    async askAll(request) {
      const cell = cellOf(request.place)
      await renewForecasts(cell, request)
      await renewSeen(cell, { ...request, hoursBack: STATION_REACH_H })
      await once(`${cell}/history`, () => history.oneEarlierYear(request.place, request.nowEpochH))
      await warnings?.({ ...request, places: [request.place] })
    },
    seen: seenBetween,
    states: (nowEpochH) => statesOf(suppliers, store, nowEpochH),
    lacks: lacksOf(suppliers),
    async tidy(nowEpochH) {
      await store.drop({
        runsBeforeEpochH: nowEpochH - KEPT_RUN_DAYS * HOURS_PER_DAY,
        seenBeforeEpochH: nowEpochH - KEPT_SEEN_DAYS * HOURS_PER_DAY,
        callsBeforeEpochH: nowEpochH - KEPT_CALL_DAYS * HOURS_PER_DAY,
      })
      await store.dropWarnings(nowEpochH - KEPT_WARNING_DAYS * HOURS_PER_DAY)
    },
  }
}

const issuedAt = (weather: Weather): number => weather.provenance.issuedAtEpochH
