/** Possible states of a part before anything is measured in it: draws from what growth and grain science say. */
import { GRAIN_PRIORS, type Spread } from '#core/science/grain/priors.ts'
import type { GrainParticle } from '#core/science/grain/standing.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { type Random, seededRandom, seedFromText } from '#core/units/random.ts'
import { epochHoursOf, HOURS_PER_DAY } from '#core/units/time.ts'
import type { FieldPart } from './parts.ts'

/** Driest that grain can be at physiological maturity, whatever the draw [% wet basis]. */
const DRIEST_AT_MATURITY_WB = 20

/**
 * Draws the particles of a part. The seed is the part's key, so a field keeps its draws from day to day.
 *
 * @param maturity estimate for the main stand of the field. @param count how many, 1 or more.
 */
export function drawParticles(
  part: FieldPart,
  maturity: MaturityEstimate,
  timeZone: string,
  count: number,
): GrainParticle[] {
  const random = seededRandom(seedFromText(part.key))
  const prior = GRAIN_PRIORS[part.field.crop]
  const matureEpochH = localEpochHours(maturity.matureEpochDay + (part.patch?.laterDays ?? 0), timeZone)
  const sdHours = maturity.sdDays * HOURS_PER_DAY
  return Array.from({ length: count }, () => ({
    matureEpochH: matureEpochH + sdHours * random.normal(),
    moistureAtMaturityWb: Math.max(
      DRIEST_AT_MATURITY_WB,
      maturity.moistureWb + maturity.moistureSdWb * random.normal(),
    ),
    dryingFactor: logNormal(prior.dryingFactor, random),
    exchangeHours: logNormal(prior.exchangeHours, random),
    equilibriumOffsetWb: prior.equilibriumOffsetWb.mean + prior.equilibriumOffsetWb.sd * random.normal(),
  }))
}

const logNormal = ({ mean, sd }: Spread, random: Random): number =>
  mean * Math.exp(sd * random.normal() - 0.5 * sd * sd)

/** Local days since 1970-01-01, with fraction, as hours since the epoch. */
function localEpochHours(localEpochDay: number, timeZone: string): number {
  const date = Temporal.PlainDate.from('1970-01-01').add({ days: Math.floor(localEpochDay) })
  const midnight = epochHoursOf(date.toZonedDateTime({ timeZone }).toInstant())
  return midnight + (localEpochDay - Math.floor(localEpochDay)) * HOURS_PER_DAY
}
