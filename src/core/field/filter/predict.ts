/** What the grain of a particle would have shown at the times of the readings. */
import type { Restart } from '#core/field/state.ts'
import type { GrainDrivers } from '#core/science/grain/exchange.ts'
import { fillingMoistureWb, type GrainParticle, stepGrain } from '#core/science/grain/standing.ts'

/**
 * The same course as `runToNow`, run only from maturity to the last time asked for, and without the soil.
 *
 * @param drivers of the observed weather. @param restart where the grain starts when no weather leads there.
 * @param timesEpochH rising, hours since the epoch with fraction; after the end of the weather counts as its end.
 * @param out receives the moisture at each time, straight between whole hours [% wet basis].
 */
export function moistureAtTimes(
  drivers: GrainDrivers,
  particle: GrainParticle,
  restart: Restart,
  timesEpochH: Float64Array,
  out: Float64Array,
): void {
  const { startEpochH, hours, traits } = drivers
  const ripening = particle.matureEpochH - startEpochH
  // Before maturity the grain has no memory, so the course may start at the last whole hour before it.
  let hour = Math.min(hours, Math.max(0, Math.floor(ripening)))
  let moistureWb = hour > 0 ? fillingMoistureWb(traits, hour - ripening, particle) : restart(particle, startEpochH)
  for (let k = 0; k < timesEpochH.length; k++) {
    const time = Math.min(timesEpochH[k]! - startEpochH, hours)
    if (time >= 0 && time <= ripening) {
      out[k] = fillingMoistureWb(traits, time - ripening, particle)
      continue
    }
    const whole = Math.floor(time)
    for (; hour < whole; hour++) moistureWb = stepGrain(moistureWb, hour + 1 - ripening, drivers, hour, particle)
    let value = time < 0 ? Number.NaN : moistureWb
    if (time > whole && time >= 0) {
      value += (time - whole) * (stepGrain(moistureWb, whole + 1 - ripening, drivers, whole, particle) - moistureWb)
    }
    out[k] = Number.isNaN(value) ? restart(particle, timesEpochH[k]!) : value
  }
}
