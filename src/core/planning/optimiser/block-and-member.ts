/** What blocks are worth, told apart from what members are worth. */

/** Turns after which the two-way means no longer move by a cent. */
const ROUNDS = 8

/**
 * What a hectare brings becomes the sum of what its block is worth and what its member is worth: a crew sees in time whether
 * an hour is fit, but must not wait on the strength of knowing which day brings the better moisture; and a member that is
 * dry by nature, and so alone fit late at night, must not make the night look poor. Two-way means, found by turns.
 */
export function toBlockAndMember(
  valuePerHa: Float64Array,
  leftPerHa: Float64Array,
  blocks: number,
  seen: number,
  members: number,
): void {
  for (let j = 0; j * members < leftPerHa.length; j++) {
    const own = valuePerHa.subarray(j * blocks * members, (j + 1) * blocks * members)
    const ofBlock = new Float64Array(blocks)
    const ofMember = new Float64Array(members)
    for (let round = 0; round < ROUNDS; round++) {
      for (let b = 0; b < seen; b++) {
        ofBlock[b] = meanKnown(members, (m) => own[b * members + m]! - ofMember[m]!)
      }
      for (let m = 0; m < members; m++) {
        const over = meanKnown(seen, (b) => own[b * members + m]! - ofBlock[b]!)
        ofMember[m] = Number.isNaN(over) ? 0 : over
      }
    }
    for (let i = 0; i < own.length; i++) {
      if (Number.isNaN(own[i]!)) continue
      const block = Math.floor(i / members)
      own[i] = (block < seen ? ofBlock[block]! : own[i]!) + ofMember[i % members]!
    }
    for (let m = 0; m < members; m++) leftPerHa[j * members + m]! += ofMember[m]!
  }
}

function meanKnown(count: number, of: (k: number) => number): number {
  let sum = 0
  let known = 0
  for (let k = 0; k < count; k++) {
    const value = of(k)
    if (Number.isNaN(value)) continue
    sum += value
    known++
  }
  return sum / known
}
