/**
 * How ripe and how worn a standing crop is: when it ripened, how often it was wetted and dried since, and what it has lost.
 *
 * Ripe: the grain first reaches the top of its band. A wet-dry cycle: ripe grain rises three points above the band's top
 * and comes back into it. Both are definitions of ours that feed the published loss rates of `science/loss`.
 */

import type { Band, CropName } from '#core/science/crop.ts'
import { addStandingLoss, standingLossPerDay } from '#core/science/loss/standing.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'

export interface Standing {
  /** When the grain first reached the top of its band, hours since the epoch; NaN = not yet. */
  readonly ripeEpochH: number
  readonly wetDryCycles: number
  /** Now wetted above the band and not dried back. */
  readonly wetted: boolean
  /** Share of the yield lost while standing, 0-1. */
  readonly loss: number
}

export const UNRIPE: Standing = { ripeEpochH: Number.NaN, wetDryCycles: 0, wetted: false, loss: 0 }

const WETTED_POINTS = 3
/** The rate of loss is taken anew this often, and whenever a wet-dry cycle ends [h]. */
const RATE_EVERY_H = 3

/**
 * Follows one course hour by hour.
 *
 * @param moistureWb moisture at the end of each hour [% wet basis]. @param startEpochH its first hour.
 * @param from the state before it. @param lossOut filled with the loss at the end of each hour [share], if given.
 */
export function followStanding(
  crop: CropName,
  band: Band,
  moistureWb: Float32Array,
  startEpochH: number,
  from: Standing,
  lossOut?: Float32Array,
): Standing {
  let { ripeEpochH, wetDryCycles, wetted, loss } = from
  let ripe = !Number.isNaN(ripeEpochH)
  let rate = Number.NaN
  for (let h = 0; h < moistureWb.length; h++) {
    const wb = moistureWb[h]!
    if (!ripe && wb <= band.highWb) {
      ripe = true
      ripeEpochH = startEpochH + h
    }
    if (ripe) {
      if (!wetted && wb > band.highWb + WETTED_POINTS) wetted = true
      else if (wetted && wb <= band.highWb) {
        wetted = false
        wetDryCycles++
        rate = Number.NaN
      }
      if (h % RATE_EVERY_H === 0 || Number.isNaN(rate)) {
        rate = standingLossPerDay(crop, wb, (startEpochH + h - ripeEpochH) / HOURS_PER_DAY, wetDryCycles)
      }
      if (!Number.isNaN(rate)) loss = addStandingLoss(crop, loss, rate, 1)
    }
    if (lossOut) lossOut[h] = loss
  }
  return { ripeEpochH, wetDryCycles, wetted, loss }
}
