/**
 * The chance of rain in blocks of hours: as the source says it, or from its wet and dry hours, how far such calls can
 * be trusted at their lead, and how often it rains at all.
 */
import type { SaidChances } from './chances.ts'
import { errorGrowth } from './error-growth.ts'

export interface RainBlock {
  /** First hour and one past the last, as indices of the series. */
  readonly fromH: number
  readonly toH: number
  /** Chance of at least 0.25 mm in the block, 0-1; NaN = not known. */
  readonly chance: number
  /** Share of that chance which stems from the forecast's own rain near the block, 0-1. */
  readonly fromForecast: number
  /** Rain in the block if that forecast comes true, mean [mm]. */
  readonly amountMm: number
}

export interface RainBlockOptions {
  readonly usualRainDayShare: number
  /** Age of the forecast at its first hour [h]. */
  readonly ageH: number
  readonly chances?: SaidChances | undefined
}

/** Block made where the source names none [h]. */
const OWN_BLOCK_H = 6
/** Measurable: a hundredth of an inch [mm]. */
export const MEASURABLE_MM = 0.25
/**
 * A chance of a day shrinks with the length of the block to this power: 0.24 of days and 0.10 of six-hour blocks were
 * wet at three airports near New York, autumn 2013 (tests/fixtures/newark).
 */
const BLOCK_POWER = 0.63
/** Amounts if wet where the source said a chance but next to no amount [mm in six hours]. Choice, no source. */
const SLIGHT_RAIN_MM = 1.5
/** A said amount is spread over the said chance; never multiplied by more than this. */
const MOST_PER_CHANCE = 5

/** @returns chance of rain in so many hours from the share of days with rain, 0-1. */
export const usualBlockChance = (usualRainDayShare: number, hours: number): number =>
  1 - (1 - usualRainDayShare) ** ((hours / 24) ** BLOCK_POWER)

/** @param rainMm hourly rain of the forecast [mm]. @returns blocks that follow each other without a gap. */
export function rainBlocks(rainMm: Float32Array, options: RainBlockOptions): RainBlock[] {
  return blockBounds(rainMm.length, options.chances).map(({ fromH, toH, said }) =>
    Number.isNaN(said)
      ? ownBlock(rainMm, fromH, toH, options)
      : saidBlock(rainMm, fromH, toH, said, options.usualRainDayShare),
  )
}

interface Bounds {
  readonly fromH: number
  readonly toH: number
  readonly said: number
}

function blockBounds(hours: number, chances: SaidChances | undefined): Bounds[] {
  const bounds: Bounds[] = []
  const popAt = (h: number) => (chances?.popPct?.[h] ?? Number.NaN) / 100
  const lengthAt = (h: number) => Math.max(1, Math.round(chances?.popBlockH?.[h] || OWN_BLOCK_H))
  let h = 0
  while (h < hours) {
    const pop = popAt(h)
    const length = Number.isNaN(pop) ? OWN_BLOCK_H : lengthAt(h)
    let end = h + 1
    while (end < hours && Object.is(popAt(end), pop) && (Number.isNaN(pop) || lengthAt(end) === length)) end++
    // Blocks are counted from the end of a run: its start may have been cut by "now".
    let from = h
    let to = h + ((end - h) % length || length)
    while (from < end) {
      const whole = to - from === length
      bounds.push({ fromH: from, toH: to, said: whole ? pop : 1 - (1 - pop) ** ((to - from) / length) })
      from = to
      to = from + length
    }
    h = end
  }
  return bounds
}

function saidBlock(
  rainMm: Float32Array,
  fromH: number,
  toH: number,
  chance: number,
  usualRainDayShare: number,
): RainBlock {
  const slightMm = (SLIGHT_RAIN_MM * (toH - fromH)) / OWN_BLOCK_H
  const saidMm = totalOf(rainMm, fromH, toH)
  if (!(saidMm > 0) || !(chance > 0)) return { fromH, toH, chance, fromForecast: 0, amountMm: slightMm }
  const usual = usualBlockChance(usualRainDayShare, toH - fromH)
  return {
    fromH,
    toH,
    chance,
    fromForecast: chance / (chance + usual * (1 - chance)),
    amountMm: Math.max(saidMm * Math.min(MOST_PER_CHANCE, 1 / chance), MEASURABLE_MM),
  }
}

/** The wet and dry calls around a block, weighed by how likely the rain is to come so much earlier or later. */
function ownBlock(rainMm: Float32Array, fromH: number, toH: number, options: RainBlockOptions): RainBlock {
  const { rainShiftSdH, rainSkill } = errorGrowth((options.ageH + (fromH + toH) / 2) / 24)
  const reach = Math.ceil(2.5 * rainShiftSdH)
  let weights = 0
  let wet = 0
  let amount = 0
  for (let shift = -reach; shift <= reach; shift++) {
    const from = fromH + shift
    const to = toH + shift
    if (from < 0 || to > rainMm.length) continue
    const mm = totalOf(rainMm, from, to)
    if (Number.isNaN(mm)) continue
    const weight = Math.exp(-0.5 * (shift / rainShiftSdH) ** 2)
    weights += weight
    if (mm < MEASURABLE_MM) continue
    wet += weight
    amount += weight * mm
  }
  const usual = usualBlockChance(options.usualRainDayShare, toH - fromH)
  if (weights === 0) return { fromH, toH, chance: Number.NaN, fromForecast: 0, amountMm: Number.NaN }
  const called = rainSkill * (wet / weights)
  const chance = called + (1 - rainSkill) * usual
  return { fromH, toH, chance, fromForecast: called / chance, amountMm: wet > 0 ? amount / wet : SLIGHT_RAIN_MM }
}

/** Unknown if any hour is. */
function totalOf(rainMm: Float32Array, fromH: number, toH: number): number {
  let total = 0
  for (let h = fromH; h < toH; h++) total += rainMm[h]!
  return total
}
