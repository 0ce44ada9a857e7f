/** From here on the air of a field departs from that of its place, and the field from the model: what readings cannot fix. */
import type { PartState } from '#core/field/state.ts'
import { GRAIN_TRAITS } from '#core/science/grain/traits.ts'
import { seededRandom, seedFromText } from '#core/units/random.ts'
import { DEPARTURE_SD_WB } from './reading-error.ts'

/** Departure in green grain, as share of its drying; choice, from the trials behind `DEPARTURE_SD_WB`. */
const DEPARTURE_DRYING_SHARE = 0.05

/**
 * @param state after readings. @returns the same state, every particle with a departure of its own from now on: ripe grain
 * already stands off by it.
 */
export function departFrom(state: PartState): PartState {
  const random = seededRandom(seedFromText(`${state.part.key}/departure`))
  const { ripeWb } = GRAIN_TRAITS[state.part.field.crop]
  const moistureWb = state.moistureWb.slice()
  const particles = state.particles.map((particle, p) => {
    const departureWb = DEPARTURE_SD_WB * random.normal()
    const drying = Math.exp(DEPARTURE_DRYING_SHARE * random.normal())
    if (moistureWb[p]! < ripeWb) moistureWb[p]! += departureWb
    return {
      ...particle,
      dryingFactor: particle.dryingFactor * drying,
      equilibriumOffsetWb: particle.equilibriumOffsetWb + departureWb,
    }
  })
  return { ...state, particles, moistureWb }
}
