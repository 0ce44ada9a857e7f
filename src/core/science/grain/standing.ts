import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { GrainDrivers } from './exchange.ts'
import type { GrainTraits } from './traits.ts'

/** What sets one possible field (or patch) apart from another of the same crop under the same weather. */
export interface GrainParticle {
  /** Hour of physiological maturity, hours since the epoch; a green patch has a later one. */
  readonly matureEpochH: number
  /** Moisture at physiological maturity [% wet basis]. */
  readonly moistureAtMaturityWb: number
  /** Speed of green drying over the crop's usual [-]. */
  readonly dryingFactor: number
  /** Time constant of exchange of ripe grain with the air at 20 deg C, drying [h]. */
  readonly exchangeHours: number
  /** Added to the equilibrium moisture [points]. */
  readonly equilibriumOffsetWb: number
}

/**
 * Moisture of the seed before physiological maturity.
 *
 * @param traits traits of the crop.
 * @param hoursSinceMaturity 0 or less [h].
 * @param particle the field.
 * @returns moisture [% wet basis]: falls linearly to that at maturity, never above that of the youngest seed.
 *
 * Checked: corn stages R2-R6 (Abendroth et al., Iowa State University), tests/truth/dry-down.ts.
 */
export function fillingMoistureWb(traits: GrainTraits, hoursSinceMaturity: number, particle: GrainParticle): number {
  const earlier = (-hoursSinceMaturity * traits.fillingPointsPerDay) / HOURS_PER_DAY
  return Math.min(Math.max(traits.youngestWb, particle.moistureAtMaturityWb), particle.moistureAtMaturityWb + earlier)
}

/**
 * One hour of standing grain.
 *
 * @param moistureWb moisture at the start of the hour [% wet basis].
 * @param hoursSinceMaturity hours from physiological maturity to the END of the hour [h], negative before it.
 * @param drivers weather-only drivers of the crop.
 * @param i index into the drivers (member * hours + hour).
 * @param particle the field.
 * @returns moisture at the end of the hour [% wet basis]; NaN if the moisture, the maturity or a driver is not known.
 *
 * Before maturity: `fillingMoistureWb`. After it, ripe grain moves to its equilibrium at the speed
 * dM/dt = (Me - M) rate / tau, solved over the hour by the (0,2) Pade form of the exponential: no overshoot at any
 * speed, a share within 1 % of the exponential's up to rate/tau = 0.25. Between the equilibria of drying and uptake it rests.
 * While the plant holds the water (above `ripeWb`, fully above `greenWb`) what leaves the grain must also pass the
 * plant, as two resistances in series: 1/loss = 1/exchange + share/green drying.
 */
export function stepGrain(
  moistureWb: number,
  hoursSinceMaturity: number,
  drivers: GrainDrivers,
  i: number,
  particle: GrainParticle,
): number {
  const { traits } = drivers
  if (!(hoursSinceMaturity > 0)) return fillingMoistureWb(traits, hoursSinceMaturity, particle)
  const dryTargetWb = drivers.dryTargetWb[i]! + particle.equilibriumOffsetWb
  if (moistureWb > dryTargetWb) {
    const x = drivers.dryRate[i]! / particle.exchangeHours
    const s = x + 0.5 * x * x
    let loss = ((moistureWb - dryTargetWb) * s) / (1 + s)
    if (moistureWb > traits.ripeWb) {
      const share = Math.min(1, (moistureWb - traits.ripeWb) / (traits.greenWb - traits.ripeWb))
      const green = drivers.greenDryingWb[i]! * particle.dryingFactor
      loss = (loss * green) / (green + share * loss)
    }
    return moistureWb - loss
  }
  const wetTargetWb = drivers.wetTargetWb[i]! + particle.equilibriumOffsetWb
  if (moistureWb < wetTargetWb) {
    const x = drivers.wetRate[i]! / particle.exchangeHours
    const s = x + 0.5 * x * x
    return moistureWb + ((wetTargetWb - moistureWb) * s) / (1 + s)
  }
  return dryTargetWb >= wetTargetWb ? moistureWb : Number.NaN
}

/**
 * Course of the moisture of standing grain over one member of the weather.
 *
 * @param drivers weather-only drivers of the crop.
 * @param member member of the weather, 0-based.
 * @param particle the field.
 * @param startMoistureWb moisture at the start of the first hour [% wet basis]; not used before maturity.
 * @param out receives the moisture at the END of each hour [% wet basis].
 * @param outAt first index in `out`.
 *
 * `stepGrain` hour by hour. Nothing is allocated. An hour of unknown weather after maturity makes all later ones NaN.
 */
export function runGrain(
  drivers: GrainDrivers,
  member: number,
  particle: GrainParticle,
  startMoistureWb: number,
  out: Float32Array,
  outAt = 0,
): void {
  const first = member * drivers.hours
  let moistureWb = startMoistureWb
  let hoursSinceMaturity = drivers.startEpochH - particle.matureEpochH
  for (let h = 0; h < drivers.hours; h++) {
    hoursSinceMaturity += 1
    moistureWb = stepGrain(moistureWb, hoursSinceMaturity, drivers, first + h, particle)
    out[outAt + h] = moistureWb
  }
}
