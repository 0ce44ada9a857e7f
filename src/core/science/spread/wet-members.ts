/** Which members are wet in which block, and where in the block their rain falls. */
import type { Random } from '#core/units/random.ts'
import { MEASURABLE_MM, type RainBlock } from './rain-blocks.ts'

/**
 * Memory of wet and dry, beyond what the chances say [h]. Wet six-hour blocks at three airports near New York, autumn 2013
 * (tests/fixtures/newark): correlation 0.29-0.44 from one to the next, 0.15-0.19 over two.
 */
const MEMORY_H = 14
/** Rain of a wet six-hour block that no forecast called, same airports: mean 4.6 mm, 1.4 the sd of its logarithm. */
const UNCALLED_MM = 4.6
const UNCALLED_LOG_SD = 1.4
/** How far called amounts are off, sd of the logarithm, at once and per day. From memory. */
const CALLED_LOG_SD = 0.5
const CALLED_LOG_SD_PER_DAY = 0.05
const MOST_LOG_SD = 1.1
/** Amounts further out than this are not drawn [sd]: the tail of the logarithm has no end, that of the sky has. */
const FARTHEST_SD = 3
/** Nor more than this in an hour: 305 mm fell in 42 minutes, the record (World Meteorological Organization, 1947) [mm]. */
const MOST_IN_HOUR_MM = 300
/** Wet hours of a wet six-hour block, same airports: mean 2.3. */
const WET_HOURS_MEAN = 2.3
/** Rain spread this evenly over its block says nothing about its hours: the service has only the block's amount. */
const EVEN_SHARE = 0.6
const BLOCK_H = 6

/**
 * 1 where a member is wet: index = block * members + member. The share of wet members is the chance, to within one
 * member; who is wet follows a slow course of each member, so that wet blocks come in spells.
 *
 * @param randoms one per member. @param dice decides the odd member.
 */
export function wetMembers(blocks: readonly RainBlock[], randoms: readonly Random[], dice: Random): Uint8Array {
  const members = randoms.length
  const wet = new Uint8Array(blocks.length * members)
  const course = Float64Array.from(randoms, (random) => random.normal())
  const order = Array.from({ length: members }, (_, member) => member)
  let lastMiddleH = Number.NaN
  for (const [b, { fromH, toH, chance }] of blocks.entries()) {
    const middleH = (fromH + toH) / 2
    const keep = Number.isNaN(lastMiddleH) ? 0 : Math.exp((lastMiddleH - middleH) / MEMORY_H)
    const fresh = Math.sqrt(1 - keep * keep)
    for (let member = 0; member < members; member++) {
      course[member] = keep * course[member]! + fresh * randoms[member]!.normal()
    }
    // The first member is the likeliest course: never among the extremes.
    course[0] = 0
    lastMiddleH = middleH
    const count = Number.isNaN(chance) ? 0 : Math.floor(members * Math.min(1, Math.max(0, chance)) + dice.uniform())
    order.sort((x, y) => course[y]! - course[x]! || x - y)
    for (let rank = 0; rank < count; rank++) wet[b * members + order[rank]!] = 1
  }
  return wet
}

/**
 * Puts the rain of one wet block into hours.
 *
 * @param rainMm the forecast's own rain by hour. @param out the member's rain, added to. @param at its first index.
 */
export function rainInto(
  block: RainBlock,
  rainMm: Float32Array,
  leadDays: number,
  out: Float32Array,
  at: number,
  random: Random,
): void {
  const { fromH, toH, fromForecast, amountMm, chance } = block
  const hours = toH - fromH
  const called = random.uniform() < fromForecast
  const logSd = called ? Math.min(MOST_LOG_SD, CALLED_LOG_SD + CALLED_LOG_SD_PER_DAY * leadDays) : UNCALLED_LOG_SD
  const meanMm = called || chance === 0 ? amountMm : (UNCALLED_MM * hours) / BLOCK_H
  const far = Math.max(-FARTHEST_SD, Math.min(FARTHEST_SD, random.normal()))
  const totalMm = Math.max(MEASURABLE_MM, meanMm * Math.exp(logSd * far - 0.5 * logSd * logSd))
  const length = burstLength(hours, chance, random)
  const start = fromH + Math.floor(random.uniform() * (hours - length + 1))
  if (called && hasHours(rainMm, fromH, toH)) {
    let sum = 0
    for (let h = fromH; h < toH; h++) sum += rainMm[h]!
    for (let h = fromH; h < toH; h++) out[at + h] = inHour(out[at + h]! + (totalMm * rainMm[h]!) / sum)
    return
  }
  for (let h = start; h < start + length; h++) out[at + h] = inHour(out[at + h]! + totalMm / length)
}

const inHour = (mm: number): number => Math.min(MOST_IN_HOUR_MM, mm)

/** Hours of rain in a block, 1 to all of it: longer the surer the rain is. */
function burstLength(hours: number, chance: number, random: Random): number {
  const mean = Math.min(hours, WET_HOURS_MEAN * (1 + Math.max(0, (chance || 0) - 0.5)) * Math.sqrt(hours / BLOCK_H))
  // Geometric with the given mean, cut at the block.
  const more = Math.log(1 - random.uniform()) / Math.log(1 - 1 / Math.max(1.01, mean))
  return Math.min(hours, 1 + Math.floor(more))
}

/** Whether the forecast's rain tells hours apart within the block. */
function hasHours(rainMm: Float32Array, fromH: number, toH: number): boolean {
  let most = 0
  let sum = 0
  for (let h = fromH; h < toH; h++) {
    most = Math.max(most, rainMm[h]!)
    sum += rainMm[h]!
  }
  return sum > 0 && sum / (toH - fromH) < EVEN_SHARE * most
}
