/** The slow errors of one member, all of variance 1, hour by hour. */
import type { Random } from '#core/units/random.ts'
import { redNoise } from './red-noise.ts'

/**
 * Memory of the errors [h]. Local ones: differences between neighbouring airports keep half their size over 3 h and
 * a third over 6 h (tests/fixtures/newark). Grown ones: departures from the usual keep 0.63 over a day and 0.34 over two in
 * temperature, wind 0.56 over 6 h and 0.11 over a day (tests/fixtures/champaign). Sky and direction: choice, no source.
 */
const LOCAL_H = 4.5
const GROWN_H = 45
const LOCAL_WIND_H = 2
const GROWN_WIND_H = 14
const LOCAL_SKY_H = 2
const GROWN_SKY_H = 12
const GROWN_DIRECTION_H = 24
/** Grown errors of temperature and dew point go together: correlation of their departures, Champaign 1996-2023. */
const TEMP_DEW_CORRELATION = 0.75
const DEW_ALONE = Math.sqrt(1 - TEMP_DEW_CORRELATION ** 2)

/** A local and a grown part of each error. */
export interface MemberErrors {
  readonly temp: Parts
  readonly dew: Parts
  readonly wind: Parts
  readonly direction: Parts
  readonly sky: Parts
  /** Goes on one hour. */
  next(): void
}

interface Parts {
  readonly local: number
  readonly grown: number
}

export function memberErrors(random: Random): MemberErrors {
  const temp = pair(LOCAL_H, GROWN_H, random)
  const dewAlone = pair(LOCAL_H, GROWN_H, random)
  const wind = pair(LOCAL_WIND_H, GROWN_WIND_H, random)
  const direction = pair(LOCAL_WIND_H, GROWN_DIRECTION_H, random)
  const sky = pair(LOCAL_SKY_H, GROWN_SKY_H, random)
  const all = [temp, dewAlone, wind, direction, sky]
  const dew: Parts = {
    get local() {
      return dewAlone.local
    },
    get grown() {
      return TEMP_DEW_CORRELATION * temp.grown + DEW_ALONE * dewAlone.grown
    },
  }
  return {
    temp,
    dew,
    wind,
    direction,
    sky,
    next() {
      for (const parts of all) parts.next()
    },
  }
}

function pair(localH: number, grownH: number, random: Random): Parts & { next(): void } {
  const local = redNoise(localH, random)
  const grown = redNoise(grownH, random)
  return {
    get local() {
      return local.value
    },
    get grown() {
      return grown.value
    },
    next() {
      local.next()
      grown.next()
    },
  }
}
