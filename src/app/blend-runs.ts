/** From the kept runs of a cell to the one forecast that is handed out: blended, with members, everyone in it named. */

import { fillAhead } from '#core/field/gaps.ts'
import { blend, type Candidate } from '#core/science/blend/blend.ts'
import { oddOnesOut } from '#core/science/blend/disagreement.ts'
import { emptySkill } from '#core/science/blend/skill.ts'
import { growMembers, USUAL_RAIN_DAY_SHARE } from '#core/science/spread/grow-members.ts'
import { seedFromText } from '#core/units/random.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { creditOf, distinct } from './credit.ts'
import { untilHour } from './find-weather.ts'
import type { ForecastSource, SourceForecast } from './ports.ts'
import type { KeptRun, KeptSkill } from './weather-store.ts'

const MEMBERS_GROWN = 50
/** Longest horizon grown [h]: what the outlook looks at and a day more. */
const HORIZON_H = 264
/** A run issued so much earlier than the newest is left out [h]. */
const OLDEST_BLENDED_H = 18

export interface RunsOfCell {
  readonly cell: string
  /** In the farm's order, at least one, none that has ended. */
  readonly runs: readonly KeptRun[]
  readonly skills: ReadonlyMap<string, KeptSkill>
  /** Temperatures measured in the last hours, newest last; empty where nobody measures. */
  readonly seenC: readonly number[]
  /** The hour that contains now. */
  readonly hour: number
}

export function blendRuns({ cell, runs, skills, seenC, hour }: RunsOfCell): SourceForecast {
  const issued = ({ weather }: KeptRun) => weather.provenance.issuedAtEpochH
  const newest = Math.max(...runs.map(issued))
  const young = runs.filter((run) => !(issued(run) < newest - OLDEST_BLENDED_H))
  const odd = oddOnesOut(
    young.map(({ sourceId, weather }) => ({ id: sourceId, weather })),
    hour,
    seenC,
  )
  const candidates: Candidate[] = young
    .filter(({ sourceId }) => !odd.includes(sourceId))
    .map(({ sourceId, weather, chances }) => ({
      id: sourceId,
      weather,
      chances,
      skill: skills.get(sourceId)?.skill ?? emptySkill(),
    }))
  const startEpochH = Math.min(...candidates.map(({ weather }) => Math.max(weather.startEpochH, hour - HOURS_PER_DAY)))
  const made = blend(candidates, startEpochH)
  const horizon = untilHour(made.weather, Math.min(endOf(made.weather), hour + HORIZON_H))
  const told = withSources(horizon, candidates, odd)
  const { issuedAtEpochH } = told.provenance
  const weather =
    told.members > 1
      ? told
      : growMembers(fillAhead(told), {
          members: MEMBERS_GROWN,
          seed: seedFromText(`${cell}@${Math.floor(issuedAtEpochH)}`),
          usualRainDayShare: USUAL_RAIN_DAY_SHARE,
          ageH: Math.max(0, startEpochH - issuedAtEpochH),
          chances: made.chances,
          errorScale: made.errorScale,
        })
  return { weather, chances: made.chances, rawHash: nameOfRuns(runs), notes: [] }
}

/** The same for the same runs alone: what was blended of them holds until there is another. */
export const nameOfRuns = (runs: readonly KeptRun[]): string =>
  runs.map(({ sourceId, fetchedAtEpochH }) => `${sourceId}@${fetchedAtEpochH}`).join('+')

export const endOf = ({ startEpochH, hours }: Weather): number => startEpochH + hours

/** Runs in the farm's order of sources; those of sources no longer asked are left out. */
export function inOrder(runs: readonly KeptRun[], sources: readonly ForecastSource[]): KeptRun[] {
  return sources.flatMap(({ id }) => runs.filter(({ sourceId }) => sourceId === id))
}

/** The first run of each stretch of so many hours. */
export function oneEvery(runs: readonly KeptRun[], stretchH: number): KeptRun[] {
  let last = Number.NEGATIVE_INFINITY
  return runs.filter(({ fetchedAtEpochH }) => {
    if (fetchedAtEpochH < last + stretchH) return false
    last = fetchedAtEpochH
    return true
  })
}

/** Names everyone whose weather is in it, with the credit each asks for. */
function withSources(weather: Weather, candidates: readonly Candidate[], odd: readonly string[]): Weather {
  const all = candidates.map((candidate) => candidate.weather.provenance)
  const left = odd.length > 0 ? [`Left aside, for it says something quite different: ${odd.join(', ')}.`] : []
  return {
    ...weather,
    provenance: {
      ...weather.provenance,
      source: distinct(all.map(({ source }) => source)).join(' and '),
      ...creditOf(all),
      remarks: [...distinct(all.flatMap(({ remarks }) => remarks)), ...left],
    },
  }
}
