/** Possible states of a part before anything is measured in it: draws from what growth and grain science say. */
import { GRAIN_PRIORS, type Spread } from '#core/science/grain/priors.ts'
import type { GrainParticle } from '#core/science/grain/standing.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { seededRandom, seedFromText } from '#core/units/random.ts'
import { epochHoursOf, HOURS_PER_DAY } from '#core/units/time.ts'
import type { FieldPart } from './parts.ts'

/** Driest that grain can be at physiological maturity, whatever the draw [% wet basis]. */
const DRIEST_AT_MATURITY_WB = 20

/** Coordinates of a particle; each is a standard normal draw in the prior. */
export const PARTICLE_DIMS = 5

/** Turns standard normal coordinates into particles of one part: how the prior is spread, said once. */
export interface ParticlePrior {
  /** @param points coordinates; the particle's start at `at`: maturity, moisture there, drying, exchange, equilibrium. */
  readonly particleAt: (points: ArrayLike<number>, at: number) => GrainParticle
}

/** @param maturity estimate for the main stand of the field. */
export function particlePrior(part: FieldPart, maturity: MaturityEstimate, timeZone: string): ParticlePrior {
  const prior = GRAIN_PRIORS[part.field.crop]
  const matureEpochH = localEpochHours(maturity.matureEpochDay + (part.patch?.laterDays ?? 0), timeZone)
  const sdHours = maturity.sdDays * HOURS_PER_DAY
  return {
    particleAt: (points, at) => ({
      matureEpochH: matureEpochH + sdHours * points[at]!,
      moistureAtMaturityWb: Math.max(
        DRIEST_AT_MATURITY_WB,
        maturity.moistureWb + maturity.moistureSdWb * points[at + 1]!,
      ),
      dryingFactor: logNormal(prior.dryingFactor, points[at + 2]!),
      exchangeHours: logNormal(prior.exchangeHours, points[at + 3]!),
      equilibriumOffsetWb: prior.equilibriumOffsetWb.mean + prior.equilibriumOffsetWb.sd * points[at + 4]!,
    }),
  }
}

/** Standard normal coordinates of `count` particles. The seed is the part's key, so a field keeps its draws every day. */
export function drawCoordinates(part: FieldPart, count: number): Float64Array {
  const random = seededRandom(seedFromText(part.key))
  return Float64Array.from({ length: count * PARTICLE_DIMS }, () => random.normal())
}

/**
 * Draws the particles of a part.
 *
 * @param maturity estimate for the main stand of the field. @param count how many, 1 or more.
 */
export function drawParticles(
  part: FieldPart,
  maturity: MaturityEstimate,
  timeZone: string,
  count: number,
): GrainParticle[] {
  const { particleAt } = particlePrior(part, maturity, timeZone)
  const points = drawCoordinates(part, count)
  return Array.from({ length: count }, (_, p) => particleAt(points, p * PARTICLE_DIMS))
}

/** The mean of a log-normal spread is its median, see `GRAIN_PRIORS`. */
const logNormal = ({ mean, sd }: Spread, normal: number): number => mean * Math.exp(sd * normal)

/** Local days since 1970-01-01, with fraction, as hours since the epoch; NaN for NaN. */
function localEpochHours(localEpochDay: number, timeZone: string): number {
  if (Number.isNaN(localEpochDay)) return Number.NaN
  const date = Temporal.PlainDate.from('1970-01-01').add({ days: Math.floor(localEpochDay) })
  const midnight = epochHoursOf(date.toZonedDateTime({ timeZone }).toInstant())
  return midnight + (localEpochDay - Math.floor(localEpochDay)) * HOURS_PER_DAY
}
