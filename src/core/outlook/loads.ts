/** What is cut together: a main stand with the patches the crew cuts through comes as one blended load. */
import { HOLDBACK_BIT } from './holdback.ts'
import { outlookOf } from './make-outlook.ts'
import type { Outlook } from './outlook.ts'

export interface Loads {
  /** In the order of the parts; a patch cut through is in the outlook of its main stand. */
  readonly outlooks: readonly Outlook[]
  /** Area still standing, of main stand and such patches together under the field's key [ha]. */
  readonly standingHa: ReadonlyMap<string, number>
}

/**
 * From the outlook of each part to those of what is cut as one.
 *
 * @param outlooks of the parts that stand. @param standingHa by part key [ha]; a part not named has all of it.
 *
 * Moisture of the load: water over weight, each part with the weight its area brings, dry matter alike on every hectare
 * (conservation of mass, exact). Blended grain is wet when the load is above the band; green pods in a patch the crew
 * has chosen to cut through hold nothing back. Everything else that holds back a part that is driven through, such as
 * soft ground in it, holds back the whole.
 */
export function inLoads(outlooks: readonly Outlook[], standingHa: ReadonlyMap<string, number>): Loads {
  const areaOf = ({ part }: Outlook) => standingHa.get(part.key) ?? part.areaHa
  const mains = new Set(outlooks.filter(({ part }) => !part.patch).map(({ part }) => part.key))
  const through = outlooks.filter(({ part }) => part.patch?.handling === 'blend' && mains.has(part.field.id))
  if (through.length === 0) return { outlooks, standingHa }
  const together = new Map(standingHa)
  const blended = outlooks.flatMap((outlook): Outlook[] => {
    if (through.includes(outlook)) return []
    const patches = outlook.part.patch ? [] : through.filter(({ part }) => part.field.id === outlook.part.field.id)
    if (patches.length === 0) return [outlook]
    const parts = [outlook, ...patches]
    const areas = parts.map(areaOf)
    together.set(
      outlook.part.key,
      areas.reduce((sum, ha) => sum + ha, 0),
    )
    return [blend(parts, areas)]
  })
  return { outlooks: blended, standingHa: together }
}

/** @param parts the main stand first. @param areas standing of each [ha]. */
function blend(parts: readonly Outlook[], areas: readonly number[]): Outlook {
  const main = parts[0]!
  const { hours, courses, startEpochH } = main
  const { band } = main.part.field
  const areaHa = areas.reduce((sum, ha) => sum + ha, 0)
  const size = hours * courses
  const moistureWb = new Float32Array(size)
  const standingLoss = new Float32Array(size)
  const holdbackBits = new Uint16Array(size)
  for (let i = 0; i < size; i++) {
    let water = 0
    let weight = 0
    let loss = 0
    let bits = 0
    for (let k = 0; k < parts.length; k++) {
      const part = parts[k]!
      const wb = part.moistureWb[i]!
      const mass = areas[k]! / (100 - wb)
      water += mass * wb
      weight += mass
      loss += (areas[k]! / areaHa) * part.standingLoss[i]!
      bits |= part.part.patch ? part.holdbackBits[i]! & ~HOLDBACK_BIT.unripe : part.holdbackBits[i]!
    }
    moistureWb[i] = water / weight
    standingLoss[i] = loss
    const wet = moistureWb[i]! > band.highWb ? HOLDBACK_BIT['wet-grain'] : 0
    holdbackBits[i] = (bits & ~HOLDBACK_BIT['wet-grain']) | wet
  }
  const whole = parts.reduce((sum, { part }) => sum + part.areaHa, 0)
  const through = parts.flatMap(({ part }) => part.patch ?? [])
  const part = { ...main.part, areaHa: whole, through }
  return outlookOf(part, { startEpochH, hours, courses, moistureWb, standingLoss, holdbackBits })
}
