/**
 * From all that was read and seen to the state of every part now.
 *
 * Rebuilt from the stored readings each time: the same readings, in whatever order they came, give the same bytes.
 */
import type { Cell } from '#core/field/cell.ts'
import type { FieldEvent } from '#core/field/event.ts'
import type { FieldPart } from '#core/field/parts.ts'
import {
  HIGHEST_READING_WB,
  type Instrument,
  type InstrumentKind,
  LOWEST_READING_WB,
  type Reading,
} from '#core/field/reading.ts'
import { type PartState, runToNow } from '#core/field/state.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { departFrom } from './depart.ts'
import { alikeGroups, Bent, compareText, UNBENT } from './neighbours.ts'
import { type PartCloud, PartFilter, spreadOf } from './part-filter.ts'
import { KNOWN_OFFSET_SD_WB, UNKNOWN_OFFSET_SD_WB } from './reading-error.ts'
import { type Normal, SharedUnknown, toldBy } from './shared.ts'
import { thin } from './thin.ts'

export interface FilterInput {
  /** Parts whose state is wanted. */
  readonly parts: readonly FieldPart[]
  /** Parts already cut: their readings still tell of instruments and neighbours. */
  readonly finished?: readonly FieldPart[]
  /** By field id. */
  readonly maturity: ReadonlyMap<string, MaturityEstimate>
  readonly timeZone: string
  /** Observed weather up to now, and what follows. */
  readonly past: Cell
  readonly ahead: Cell
  readonly readings: readonly Reading[]
  readonly events?: readonly FieldEvent[]
  /** Particles in each state. */
  readonly keep: number
  /** Particles that are weighed, at least `keep`. */
  readonly weigh?: number
}

export interface FieldBelief {
  /** In the order of `parts`. */
  readonly states: readonly PartState[]
  readonly instruments: readonly InstrumentBelief[]
  /** Readings to ask about: the part can hardly have been so. They count for next to nothing until then. */
  readonly doubtful: readonly DoubtfulReading[]
  readonly unused: readonly UnusedReading[]
}

export interface InstrumentBelief {
  readonly id: string
  readonly kind: InstrumentKind
  readonly readings: number
  /** What it reads too high, below 0 too low, and how sure [points]. */
  readonly offsetWb: number
  readonly sdWb: number
  /** Surely off by enough to set it right. */
  readonly setRight: boolean
}

export interface DoubtfulReading {
  readonly reading: Reading
  /** Chance that it is wild, 0-1. */
  readonly wildChance: number
  /** What it was expected to show, middle and the range that nine in ten would lie in [% wet basis]. */
  readonly expectedWb: number
  readonly lowWb: number
  readonly highWb: number
}

export interface UnusedReading {
  readonly reading: Reading
  readonly why: 'unknown-part' | 'not-a-moisture' | 'after-now'
}

/** Enough that 10 readings leave the bands known to a tenth of their width. */
export const PARTICLES_WEIGHED = 500
/** Fields are asked again until what they share has settled; twice is enough for a difference of a tenth. */
const PASSES = 2
const SETTLED_SD = 0.1
/** A reading a little after the last hour of weather belongs to now [h]. */
const AFTER_NOW_H = 3
const DOUBTFUL_CHANCE = 0.5
const NINE_IN_TEN_SD = 1.645
/** Smaller offsets are not worth a turn of the screw [points]; choice. */
const WORTH_SETTING_WB = 0.4
const SURE_SD = 2

interface Worked {
  readonly part: FieldPart
  readonly filter: PartFilter
  readonly bent: Bent
  readonly readings: readonly Reading[]
  offsetsFrom?: readonly Normal[]
  bentFrom?: readonly Normal[]
  cloud?: PartCloud
}

export function assimilate(input: FilterInput): FieldBelief {
  const { past, ahead } = input
  const parts = [...input.parts, ...(input.finished ?? [])]
  const { usable, unused } = sortReadings(input, new Set(parts.map(({ key }) => key)))
  const offsets = offsetsOf(usable)
  const worked = setOut(input, parts, usable)
  const told = [...worked.values()].filter(({ filter }) => filter.told)
  for (let pass = 0; pass < PASSES; pass++) for (const work of told) weighPart(work, offsets)
  return {
    states: input.parts.map((part) => {
      const { filter, bent, cloud } = worked.get(part.key)!
      if (!cloud) return runToNow(part, filter.priorParticles(bent.priorFor(part.key), input.keep), past, ahead)
      return departFrom(runToNow(part, thin(cloud.particles, cloud.nowWb, input.keep), past, ahead))
    }),
    instruments: instrumentBeliefs(usable, offsets),
    doubtful: told.flatMap(doubtfulIn).toSorted((a, b) => byTime(a.reading, b.reading)),
    unused,
  }
}

/** By time, then id: the order in which they came does not matter. */
const byTime = (a: Reading, b: Reading): number => a.atEpochH - b.atEpochH || compareText(a.id, b.id)

function sortReadings(input: FilterInput, keys: ReadonlySet<string>): { usable: Reading[]; unused: UnusedReading[] } {
  const nowEpochH = input.past.weather.startEpochH + input.past.weather.hours
  const usable: Reading[] = []
  const unused: UnusedReading[] = []
  for (const reading of input.readings.toSorted(byTime)) {
    const { moistureWb, atEpochH, partKey, instrument } = reading
    const isMoisture = moistureWb >= LOWEST_READING_WB && moistureWb <= HIGHEST_READING_WB && instrument.sdWb >= 0
    if (!keys.has(partKey)) unused.push({ reading, why: 'unknown-part' })
    else if (!isMoisture) unused.push({ reading, why: 'not-a-moisture' })
    else if (!(atEpochH <= nowEpochH + AFTER_NOW_H)) unused.push({ reading, why: 'after-now' })
    else usable.push(reading)
  }
  return { usable, unused }
}

/** One unknown for each instrument, from what the latest reading says of it. */
function offsetsOf(readings: readonly Reading[]): Map<string, SharedUnknown> {
  const latest = new Map(readings.map(({ instrument }) => [instrument.id, instrument]))
  const ids = [...latest.keys()].toSorted(compareText)
  return new Map(ids.map((id) => [id, new SharedUnknown(offsetPrior(latest.get(id)!))]))
}

const offsetPrior = ({ kind, offsetWb }: Instrument): Normal =>
  offsetWb === undefined ? { mean: 0, sd: UNKNOWN_OFFSET_SD_WB[kind] } : { mean: offsetWb, sd: KNOWN_OFFSET_SD_WB }

function setOut(input: FilterInput, parts: readonly FieldPart[], usable: readonly Reading[]): Map<string, Worked> {
  const { maturity, timeZone, past, ahead, events = [] } = input
  const count = Math.max(input.keep, input.weigh ?? PARTICLES_WEIGHED)
  const worked = new Map<string, Worked>()
  const blended = ({ blend = [], atEpochH }: Reading) => {
    let meanWb = 0
    let variance = 0
    for (const { partKey, share } of blend) {
      const other = worked.get(partKey)?.filter.spreadAt(atEpochH)
      meanWb += share * (other?.meanWb ?? Number.NaN)
      variance += share * share * (other?.variance ?? Number.NaN)
    }
    return { meanWb, variance }
  }
  for (const group of alikeGroups(parts)) {
    const bent = new Bent()
    for (const part of group) {
      const readings = usable.filter(({ partKey }) => partKey === part.key)
      const estimate = maturity.get(part.field.id)!
      const filter = new PartFilter({
        part,
        maturity: estimate,
        timeZone,
        past,
        ahead,
        readings,
        events,
        count,
        blended,
      })
      worked.set(part.key, { part, filter, bent, readings })
    }
  }
  return worked
}

/** Weighs a part again if what the others say has changed. */
function weighPart(work: Worked, offsets: ReadonlyMap<string, SharedUnknown>): void {
  const { part, filter, bent } = work
  const cavity = {
    bent: filter.instruments.length > 0 ? UNBENT : bent.priorFor(part.key),
    offsets: filter.instruments.map((id) => offsets.get(id)!.belief(part.key)),
  }
  if (settled(work.bentFrom, cavity.bent) && settled(work.offsetsFrom, cavity.offsets)) return
  const cloud = filter.run(cavity)
  bent.tell(part.key, cloud.bent, cavity.bent)
  for (const [j, id] of filter.instruments.entries()) {
    offsets.get(id)!.tell(part.key, toldBy(cloud.offsets[j]!, cavity.offsets[j]!))
  }
  Object.assign(work, { cloud, bentFrom: cavity.bent, offsetsFrom: cavity.offsets })
}

const settled = (before: readonly Normal[] | undefined, now: readonly Normal[]): boolean =>
  before?.every(
    ({ mean, sd }, i) => Math.abs(now[i]!.mean - mean) < SETTLED_SD * sd && Math.abs(now[i]!.sd / sd - 1) < SETTLED_SD,
  ) ?? false

function instrumentBeliefs(
  readings: readonly Reading[],
  offsets: ReadonlyMap<string, SharedUnknown>,
): InstrumentBelief[] {
  return [...offsets].map(([id, unknown]) => {
    const own = readings.filter(({ instrument }) => instrument.id === id)
    const { mean, sd } = unknown.belief()
    return {
      id,
      kind: own.at(-1)!.instrument.kind,
      readings: own.length,
      offsetWb: mean,
      sdWb: sd,
      setRight: Math.abs(mean) >= WORTH_SETTING_WB && Math.abs(mean) >= SURE_SD * sd,
    }
  })
}

function doubtfulIn({ readings, cloud }: Worked): DoubtfulReading[] {
  if (!cloud) return []
  const { shownWb, wild, variances } = cloud
  return readings.flatMap((reading, k) => {
    if (wild[k]! < DOUBTFUL_CHANCE) return []
    const shown = Float64Array.from(cloud.particles, (_, p) => shownWb[p * readings.length + k]!)
    const { mean, sd } = spreadOf(shown, 1, 0)
    const reach = NINE_IN_TEN_SD * Math.hypot(sd, Math.sqrt(variances[k]!))
    return [{ reading, wildChance: wild[k]!, expectedWb: mean, lowWb: mean - reach, highWb: mean + reach }]
  })
}
