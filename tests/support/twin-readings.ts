/** What a crew reads of hidden fields in a twin experiment, with error. */
import type { Instrument, Reading } from '#core/field/reading.ts'
import type { CropName } from '#core/science/crop.ts'
import type { Random } from '#core/units/random.ts'
import type { Hidden } from './twin-season.ts'

/**
 * When a crew first measures a field; which of these a farm does the filter is never told.
 * `near-dry`: about when the grain falls below `nearDryWb`, which nobody can know to the day.
 * `leaves-off`: within a week of full maturity, by the look of it.
 * `all-at-once`: every field of a crop on the day the first of them is near dry, or when it looks ready if that is later.
 */
export const FIRST_LOOKS = ['near-dry', 'leaves-off', 'all-at-once'] as const
export type FirstLook = (typeof FIRST_LOOKS)[number]

export interface WhatWasRead {
  readonly readings: readonly Reading[]
  /** Ids of those that are wild. */
  readonly wild: ReadonlySet<string>
  /** Hidden offset of each instrument [points]. */
  readonly offsets: Readonly<Record<string, number>>
}

/**
 * [% wet basis], [d] after physiological maturity. Soybean pods have their colour (R8, 32 to 35 %) nine to twelve days after
 * R7 (from memory), first trials are cut three to seven days later (Philbrook & Oplinger 1989, Agronomy Journal 81(2),
 * abstract); common practice, no source for when a meter comes out, nor for what it shows at most.
 */
const CROP_READ: Partial<
  Record<CropName, { readonly nearDryWb: number; readonly looksReadyDays: number; readonly meterHighestWb: number }>
> = {
  soybean: { nearDryWb: 25, looksReadyDays: 9, meterHighestWb: 35 },
  corn: { nearDryWb: 28, looksReadyDays: 8, meterHighestWb: 40 },
}
const NEAR_DRY_WITHIN_DAYS = 4
const LOOKED_AT_WITHIN_DAYS = 7
/** No field of an autumn from July on is dry before this [d]. */
const EARLIEST_DAY = 31
/** Readings of one field go on for this long, by then it is cut [d]. */
const READ_DAYS = 16
const WILD_SHARE = 0.01
const WILD_LOWEST_WB = 8

/** @param startEpochH of the first hour of `truthWb`. */
export function readOf(
  hidden: readonly Hidden[],
  firstLook: FirstLook,
  startEpochH: number,
  random: Random,
): WhatWasRead {
  const instruments = {
    hand: { truth: 0.7 * random.normal(), instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 } },
    combine: { truth: 0.8 * random.normal(), instrument: { id: 'combine', kind: 'combine', sdWb: 0.5 } },
    ticket: { truth: 0.15 * random.normal(), instrument: { id: 'elevator', kind: 'ticket', sdWb: 0.3 } },
  } satisfies Record<string, { truth: number; instrument: Instrument }>
  const readings: Reading[] = []
  const wild = new Set<string>()
  for (const { part, truthWb, firstDay } of firstDays(hidden, firstLook, random)) {
    const { meterHighestWb } = CROP_READ[part.field.crop]!
    let lastDay = Number.POSITIVE_INFINITY
    for (let day = firstDay; day < lastDay; day += random.uniform() < 0.5 ? 2 : 3) {
      const hour = day * 24 + 10 + 8 * random.uniform()
      const chance = random.uniform()
      const { truth, instrument } =
        chance < 0.6 ? instruments.hand : chance < 0.85 ? instruments.combine : instruments.ticket
      const whole = Math.floor(hour)
      if (whole >= truthWb.length) break
      const wb = truthWb[whole - 1]! + (hour - whole) * (truthWb[whole]! - truthWb[whole - 1]!)
      const field = instrument.kind === 'hand' ? Math.max(0.4, 0.03 * wb) : Math.max(0.2, 0.02 * wb)
      const noise = Math.hypot(instrument.sdWb, field) * random.normal()
      const isWild = random.uniform() < WILD_SHARE
      const wildWb = WILD_LOWEST_WB + (meterHighestWb - WILD_LOWEST_WB) * random.uniform()
      const moistureWb = isWild ? wildWb : wb + truth + noise
      // Wetter grain no meter shows: it is tried again two or three days later.
      if (!(moistureWb <= meterHighestWb)) continue
      const id = `${part.key}/${day}`
      if (isWild) wild.add(id)
      lastDay = Math.min(lastDay, day + READ_DAYS)
      readings.push({ id, partKey: part.key, atEpochH: startEpochH + hour, moistureWb, instrument, who: 'crew' })
    }
  }
  const offsets = Object.fromEntries(Object.values(instruments).map((i) => [i.instrument.id, i.truth]))
  return { readings, wild, offsets }
}

/** Fields that get near dry at all, with the day from which a crew tries to measure each. */
function firstDays(
  hidden: readonly Hidden[],
  firstLook: FirstLook,
  random: Random,
): (Hidden & { readonly firstDay: number })[] {
  const dry = hidden.flatMap((one) => {
    const { nearDryWb } = CROP_READ[one.part.field.crop]!
    const hour = one.truthWb.findIndex((wb, h) => h > 24 * EARLIEST_DAY && wb < nearDryWb)
    return hour < 0 ? [] : [{ ...one, nearDryDay: Math.ceil(hour / 24) }]
  })
  return dry.map((one) => {
    const { crop } = one.part.field
    const looksReadyDay = one.matureDay + CROP_READ[crop]!.looksReadyDays
    const off = random.uniform()
    const ofCrop = dry.filter(({ part }) => part.field.crop === crop)
    const days: Record<FirstLook, number> = {
      'near-dry': one.nearDryDay + (2 * off - 1) * NEAR_DRY_WITHIN_DAYS,
      'leaves-off': looksReadyDay + off * LOOKED_AT_WITHIN_DAYS,
      'all-at-once': Math.max(looksReadyDay, Math.min(...ofCrop.map(({ nearDryDay }) => nearDryDay))),
    }
    return { ...one, firstDay: Math.max(EARLIEST_DAY, Math.floor(days[firstLook])) }
  })
}
