/**
 * Fewer particles with the same spread of moisture: one from the middle of each of `keep` equal slices by moisture now.
 *
 * @param particles equally likely. @param nowWb their moisture now [% wet basis]. @param keep how many, no more than given.
 * @returns equally likely particles, in the order in which they were given.
 */
export function thin<T>(particles: readonly T[], nowWb: Float64Array, keep: number): T[] {
  if (keep >= particles.length) return particles.slice()
  // Unknown moistures last, equal ones by place: the order never depends on the machine.
  const rank = (p: number) => (Number.isNaN(nowWb[p]!) ? Number.POSITIVE_INFINITY : nowWb[p]!)
  const byMoisture = particles.map((_, p) => p).sort((a, b) => compare(rank(a), rank(b)) || a - b)
  const taken = Array.from({ length: keep }, (_, k) => byMoisture[Math.floor(((k + 0.5) * particles.length) / keep)]!)
  return taken.sort((a, b) => a - b).map((p) => particles[p]!)
}

const compare = (a: number, b: number): number => (a < b ? -1 : a > b ? 1 : 0)
