/** The filter of one part of a field: its particles after what was read and seen in it. */
import type { Cell } from '#core/field/cell.ts'
import type { FieldEvent } from '#core/field/event.ts'
import { drawCoordinates, PARTICLE_DIMS, type ParticlePrior, particlePrior } from '#core/field/particles.ts'
import type { FieldPart } from '#core/field/parts.ts'
import type { Reading } from '#core/field/reading.ts'
import { restartIn } from '#core/field/state.ts'
import type { GrainParticle } from '#core/science/grain/standing.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { seededRandom, seedFromText } from '#core/units/random.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import { UNBENT } from './neighbours.ts'
import { moistureAtTimes } from './predict.ts'
import { logFirstRead, logFirstReadAt, logReading, readingVariance, wildChance } from './reading-error.ts'
import { samplePosterior, type Target } from './sampler.ts'
import { delaysOf, eventsOf, logStillGreen, REGREENED_SD_SHARE, seenMaturity } from './season-events.ts'
import type { Normal } from './shared.ts'

export interface PartFilterInput {
  readonly part: FieldPart
  readonly maturity: MaturityEstimate
  readonly timeZone: string
  readonly past: Cell
  readonly ahead: Cell
  /** Of this part, by time and id. */
  readonly readings: readonly Reading[]
  readonly events: readonly FieldEvent[]
  readonly count: number
  /** What the patches in a blended reading bring to it: share x moisture, mean [points] and variance. */
  readonly blended: (reading: Reading) => { readonly meanWb: number; readonly variance: number }
}

/** What the others tell of the unknowns that a part shares with them. */
export interface Cavity {
  /** Prior of each coordinate of a particle. */
  readonly bent: readonly Normal[]
  /** Prior of the offset of each instrument, in the order of `instruments` [points]. */
  readonly offsets: readonly Normal[]
}

export interface PartCloud {
  /** Equally likely particles, as they are now. */
  readonly particles: readonly GrainParticle[]
  /** Moisture now, particle by particle [% wet basis]. */
  readonly nowWb: Float64Array
  /** What each reading should have shown, particle by particle: index = particle * readings + reading. */
  readonly shownWb: Float64Array
  readonly bent: readonly Normal[]
  readonly offsets: readonly Normal[]
  /** Chance that each reading is wild, 0-1. */
  readonly wild: readonly number[]
  readonly variances: readonly number[]
}

/** One particle in ten is drawn this much wider in its date of maturity: planting dates and varieties are mistyped. */
const WIDE = 3
const WIDE_SHARE = 0.1
const EVERY_WIDE = 10

/** Draws from the prior for each particle kept, so that the first reading of an unusual field finds some near it. */
const DRAWN_FOR_EACH = 3

export class PartFilter {
  readonly instruments: readonly string[]
  readonly #input: PartFilterInput
  readonly #prior: ParticlePrior
  readonly #delays: ReturnType<typeof delaysOf>
  readonly #greenSeen: readonly number[]
  /** Times of the readings, then now, in stretches between re-greenings. */
  #latest: { readonly points: Float64Array; readonly dims: number; readonly bent?: readonly Normal[] } | undefined
  readonly #stretches: readonly { readonly times: Float64Array; readonly delayH: number }[]

  constructor(input: PartFilterInput) {
    this.#input = input
    const { part, maturity, readings, events, timeZone, past } = input
    this.instruments = [...new Set(readings.map(({ instrument }) => instrument.id))].toSorted()
    this.#prior = particlePrior(part, seenMaturity(part, maturity, events, timeZone), timeZone)
    this.#delays = delaysOf(part.key, events)
    this.#greenSeen = eventsOf(events, part.key, 'still-green-seen').map(({ atEpochH }) => atEpochH)
    const now = past.weather.startEpochH + past.weather.hours
    const times = [...readings.map(({ atEpochH }) => Math.min(atEpochH, now)), now]
    this.#stretches = [{ fromEpochH: Number.NEGATIVE_INFINITY, hours: 0 }, ...this.#delays].map(
      ({ fromEpochH, hours }, i, all) => {
        const toEpochH = this.#delays[i]?.fromEpochH ?? Number.POSITIVE_INFINITY
        const inside = times.filter((time) => time >= fromEpochH && (time < toEpochH || i === all.length - 1))
        return { times: Float64Array.from(inside), delayH: hours }
      },
    )
  }

  /** Something was read or seen, so particles must be weighed. */
  get told(): boolean {
    return this.#input.readings.length > 0 || this.#greenSeen.length > 0 || this.#delays.length > 0
  }

  /** The first particles of the prior, as others of its kind have bent it: for a part of which nothing was told. */
  priorParticles(bent: readonly Normal[], count: number): GrainParticle[] {
    const points = drawCoordinates(this.#input.part, count)
    return Array.from({ length: count }, (_, p) => this.#particleAt(points, p * PARTICLE_DIMS, bent))
  }

  /** Moisture of the part at a time, as far as it is known by now [% wet basis]. */
  spreadAt(atEpochH: number): { readonly meanWb: number; readonly variance: number } {
    const { past, ahead, part } = this.#input
    const { grain } = past.crop(part.field.crop)
    const restart = restartIn(part, past, ahead)
    const delayH = this.#delays.findLast(({ fromEpochH }) => fromEpochH <= atEpochH)?.hours ?? 0
    const { points, dims, bent } = this.#latest ?? {
      points: this.#start(PARTICLE_DIMS + 1, this.#input.count),
      dims: PARTICLE_DIMS + 1,
    }
    const count = points.length / dims
    const values = new Float64Array(count)
    for (let p = 0; p < count; p++) {
      const particle = this.#particleAt(points, p * dims, bent ?? UNBENT)
      const delayed = this.#delayed(particle, points[p * dims + PARTICLE_DIMS]!, delayH)
      moistureAtTimes(grain, delayed, restart, Float64Array.of(atEpochH), values.subarray(p, p + 1))
    }
    const { mean, sd } = spreadOf(values, 1, 0)
    return { meanWb: mean, variance: sd * sd }
  }

  run(cavity: Cavity): PartCloud {
    const { part, readings, count } = this.#input
    const dims = PARTICLE_DIMS + 1 + this.instruments.length
    const variances = this.#variances()
    const blends = readings.map((reading) => this.#blendOf(reading))
    const offsetAt = readings.map(({ instrument }) => PARTICLE_DIMS + 1 + this.instruments.indexOf(instrument.id))
    const courseWb = new Float64Array(readings.length + 1)
    const firstReadH = readings[0]?.atEpochH ?? Number.NaN
    const shown = (points: Float64Array, at: number, k: number) => {
      const offset = cavity.offsets[offsetAt[k]! - PARTICLE_DIMS - 1]!
      const blend = blends[k]!
      return blend.ownShare * courseWb[k]! + blend.meanWb + offset.mean + offset.sd * points[at + offsetAt[k]!]!
    }
    const target: Target = {
      dims,
      logPrior: logPriorOf(dims),
      logLikelihood: (from, at) => {
        const particle = this.#particleAt(from, at, cavity.bent)
        this.#course(particle, from[at + PARTICLE_DIMS]!, courseWb.subarray(0, readings.length))
        let sum = 0
        for (const seen of this.#greenSeen) sum += logStillGreen(particle.matureEpochH, seen)
        sum += logFirstRead(particle.matureEpochH, firstReadH)
        if (readings.length > 0) sum += logFirstReadAt(courseWb[0]!, part.field.band.highWb)
        for (let k = 0; k < readings.length; k++) {
          sum += logReading(readings[k]!.moistureWb - shown(from, at, k), variances[k]!)
        }
        return sum
      },
    }
    const random = seededRandom(seedFromText(`${part.key}/moves`))
    const { points } = samplePosterior(target, this.#start(dims, DRAWN_FOR_EACH * count), random, count)
    this.#latest = { points, dims, bent: cavity.bent }

    const particles: GrainParticle[] = []
    const nowWb = new Float64Array(count)
    const shownWb = new Float64Array(count * readings.length)
    const wild = readings.map(() => 0)
    for (let p = 0; p < count; p++) {
      const at = p * dims
      const particle = this.#particleAt(points, at, cavity.bent)
      this.#course(particle, points[at + PARTICLE_DIMS]!, courseWb)
      particles.push(this.#delayed(particle, points[at + PARTICLE_DIMS]!, this.#delays.at(-1)?.hours ?? 0))
      nowWb[p] = courseWb[readings.length]!
      for (let k = 0; k < readings.length; k++) {
        shownWb[p * readings.length + k] = shown(points, at, k)
        wild[k]! += wildChance(readings[k]!.moistureWb - shown(points, at, k), variances[k]!) / count
      }
    }
    const coordinate = (d: number, prior: Normal): Normal => {
      const { mean, sd } = spreadOf(points, dims, d)
      return { mean: prior.mean + prior.sd * mean, sd: prior.sd * sd }
    }
    return {
      particles,
      nowWb,
      shownWb,
      bent: cavity.bent.map((prior, d) => coordinate(d, prior)),
      offsets: cavity.offsets.map((prior, j) => coordinate(PARTICLE_DIMS + 1 + j, prior)),
      wild,
      variances,
    }
  }

  /** Draws from the prior: the coordinates a field never measured has, then the shares of re-greening and the offsets. */
  #start(dims: number, count: number): Float64Array {
    const { part } = this.#input
    const coordinates = drawCoordinates(part, count)
    const random = seededRandom(seedFromText(`${part.key}/offsets`))
    const points = new Float64Array(count * dims)
    for (let p = 0; p < count; p++) {
      for (let d = 0; d < dims; d++) {
        points[p * dims + d] = d < PARTICLE_DIMS ? coordinates[p * PARTICLE_DIMS + d]! : random.normal()
      }
      if (this.told && p % EVERY_WIDE === EVERY_WIDE - 1) points[p * dims]! *= WIDE
    }
    return points
  }

  #particleAt(points: Float64Array, at: number, bent: readonly Normal[]): GrainParticle {
    for (let d = 0; d < PARTICLE_DIMS; d++) COORDINATES[d] = bent[d]!.mean + bent[d]!.sd * points[at + d]!
    return this.#prior.particleAt(COORDINATES, 0)
  }

  #delayed(particle: GrainParticle, share: number, delayH: number): GrainParticle {
    if (delayH === 0) return particle
    return { ...particle, matureEpochH: particle.matureEpochH + delayH * (1 + REGREENED_SD_SHARE * share) }
  }

  /** Moisture at each reading and, where `out` has room for it, now. */
  #course(particle: GrainParticle, delayShare: number, out: Float64Array): void {
    const { past, ahead, part } = this.#input
    const { grain } = past.crop(part.field.crop)
    this.#restart ??= restartIn(part, past, ahead)
    let from = 0
    for (const { times, delayH } of this.#stretches) {
      const into = out.subarray(from, from + times.length)
      const wanted = times.subarray(0, into.length)
      moistureAtTimes(grain, this.#delayed(particle, delayShare, delayH), this.#restart, wanted, into)
      from += times.length
    }
  }
  #restart: ReturnType<typeof restartIn> | undefined

  #variances(): number[] {
    const { readings, past } = this.#input
    const { startEpochH, hours } = past.weather
    return readings.map((reading) => {
      const led = reading.atEpochH >= startEpochH
      const ageDays = (startEpochH + hours - reading.atEpochH) / HOURS_PER_DAY
      return readingVariance(reading, ageDays, led) + this.#blendOf(reading).variance
    })
  }

  #blendOf(reading: Reading): { ownShare: number; meanWb: number; variance: number } {
    const others = (reading.blend ?? []).reduce((sum, { share }) => sum + share, 0)
    return { ownShare: 1 - others, ...this.#input.blended(reading) }
  }
}

const COORDINATES = new Float64Array(PARTICLE_DIMS)

/** Standard normal in all but the date of maturity, which has a wide share. */
const logPriorOf =
  (dims: number) =>
  (points: Float64Array, at: number): number => {
    const date = points[at]!
    const near = (1 - WIDE_SHARE) * Math.exp(-0.5 * date * date)
    const far = (WIDE_SHARE / WIDE) * Math.exp((-0.5 * date * date) / (WIDE * WIDE))
    let sum = Math.log(near + far)
    for (let d = 1; d < dims; d++) sum -= 0.5 * points[at + d]! ** 2
    return sum
  }

export function spreadOf(points: Float64Array, dims: number, d: number): Normal {
  const count = points.length / dims
  let sum = 0
  let squares = 0
  for (let p = 0; p < count; p++) {
    const value = points[p * dims + d]!
    sum += value
    squares += value * value
  }
  const mean = sum / count
  return { mean, sd: Math.sqrt(Math.max(0, squares / count - mean * mean)) }
}
