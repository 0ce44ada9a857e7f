/** When a field is physiologically mature, how sure that is, and how wet its grain is then. */
import type { CropName } from '#core/science/crop.ts'
import { cornClock } from './corn.ts'
import type { CropClock } from './crop-clock.ts'
import { fillErrorSdC } from './normals.ts'
import { otherClock } from './others.ts'
import { type DailySeries, dailyTemps, dateOfEpochDay, epochDayOf, firstKillingFreeze, isKnownDay } from './season.ts'
import { smallGrainClock } from './small-grain.ts'
import { soybeanClock } from './soybean.ts'

export interface MaturityInput extends DailySeries {
  readonly crop: CropName
  readonly plantedOn: Temporal.PlainDate
  /** [deg], south negative. */
  readonly latDeg: number
  /** Soybean: 00 = -1, 0, 1 ... 8, with decimals. */
  readonly maturityGroup?: number
  /** Corn [d]. */
  readonly relativeMaturity?: number
  readonly followsWheat: boolean
  /** Date on which someone saw the field physiologically mature. */
  readonly maturitySeenOn?: Temporal.PlainDate
}

export interface MaturityEstimate {
  readonly matureOn: Temporal.PlainDate
  /** Days since 1970-01-01, local, with fraction. */
  readonly matureEpochDay: number
  readonly sdDays: number
  /** Grain moisture at physiological maturity [% wet basis]. */
  readonly moistureWb: number
  readonly moistureSdWb: number
  /** What it rests on, in plain words. */
  readonly basis: string
  readonly remarks: readonly string[]
}

/** Somebody looked at the field: he may be a day or two off, and so may the field's parts. Assumption. */
const SEEN_SD_DAYS = 2
/** A freeze-killed crop stops somewhere before maturity. Assumption. */
const FROZEN_EXTRA_SD_DAYS = 4
const FROZEN_EXTRA_WB = 3
/** No estimate is surer than one look at the field, none says less than this. */
const WIDEST_SD_DAYS = 30

function clockOf(input: MaturityInput, plantedDay: number): CropClock {
  switch (input.crop) {
    case 'corn':
      return cornClock(plantedDay, input.latDeg, input.relativeMaturity)
    case 'soybean':
      return soybeanClock(plantedDay, input.latDeg, input.maturityGroup, input.followsWheat)
    case 'sorghum':
    case 'canola':
    case 'sunflower':
      return otherClock(input.crop, plantedDay)
    default:
      return smallGrainClock(input.crop, plantedDay, input.latDeg)
  }
}

function unknownDays(input: MaturityInput, fromDay: number, toDay: number): number {
  let count = 0
  for (let day = fromDay; day < toDay; day++) if (!isKnownDay(input, day)) count++
  return count
}

/** @returns spread of the date from what the weather of unknown days may be [d]. */
function weatherSdDays(input: MaturityInput, clock: CropClock, matureDay: number, unknown: number): number {
  if (unknown === 0) return 0
  const earlier = matureDay - clock.matureOn(dailyTemps(input, 1), 1)
  return Math.abs(earlier) * fillErrorSdC(unknown)
}

/**
 * Estimates the day of physiological maturity: black layer of corn, R7 of soybean, end of grain fill of the others.
 *
 * @param input the field, its planting and the daily temperatures known so far; the rest is filled with normals.
 * @returns date, spread and moisture; `matureEpochDay` and `sdDays` are NaN (and `matureOn` is the planting date) only when
 * latitude, maturity group or relative maturity is outside what the crop's model covers, and then a remark says so.
 *
 * Requirements and sources are in the crop files. The spread adds up, as variances, that of the requirement, of what the
 * model leaves out, and of unknown weather (days the date moves per degree, times the likely error of the filled days).
 * A killing freeze before maturity ends growth there. `maturitySeenOn` outranks all of it.
 * Checked: tests/truth/growth.ts. Spreads are assumptions, not measured.
 */
export function estimateMaturity(input: MaturityInput): MaturityEstimate {
  const plantedDay = epochDayOf(input.plantedOn)
  const clock = clockOf(input, plantedDay)
  const { moistureWb, moistureSdWb } = clock
  if (input.maturitySeenOn !== undefined) {
    return {
      matureOn: input.maturitySeenOn,
      matureEpochDay: epochDayOf(input.maturitySeenOn) + 0.5,
      sdDays: SEEN_SD_DAYS,
      moistureWb,
      moistureSdWb,
      basis: 'seen mature in the field',
      remarks: [],
    }
  }

  const remarks = [...clock.remarks]
  const reached = clock.matureOn(dailyTemps(input), 1)
  const latest = Number.isNaN(reached) ? plantedDay + 300 : reached
  const covered = clock.covered && Number.isFinite(input.latDeg)
  const freeze =
    clock.tenderFromDay === undefined || !covered
      ? undefined
      : firstKillingFreeze(input, plantedDay + clock.tenderFromDay, latest)
  const matureEpochDay = covered ? (freeze ?? reached) : Number.NaN
  if (Number.isNaN(matureEpochDay)) {
    return {
      matureOn: input.plantedOn,
      matureEpochDay,
      sdDays: Number.NaN,
      moistureWb,
      moistureSdWb,
      basis: clock.basis,
      remarks: [
        ...remarks,
        'No date of maturity can be given: the season or the variety is outside what the model covers.',
      ],
    }
  }

  const unknown = unknownDays(input, plantedDay, matureEpochDay)
  const weatherSd = weatherSdDays(input, clock, reached, unknown)
  const effortSd = clock.matureOn(dailyTemps(input), 1 + clock.effortSd) - reached
  const spread = Math.hypot(clock.modelSdDays, effortSd, weatherSd, freeze === undefined ? 0 : FROZEN_EXTRA_SD_DAYS)
  if (unknown > 0) remarks.push(`${unknown} of the days to maturity are filled with the usual weather of the latitude.`)
  if (freeze !== undefined) remarks.push('A killing freeze ends growth before maturity: expect wetter, lighter grain.')
  return {
    matureOn: dateOfEpochDay(matureEpochDay),
    matureEpochDay,
    sdDays: Number.isNaN(spread) ? WIDEST_SD_DAYS : Math.min(WIDEST_SD_DAYS, spread),
    moistureWb: freeze === undefined ? moistureWb : moistureWb + FROZEN_EXTRA_WB,
    moistureSdWb,
    basis: clock.basis,
    remarks,
  }
}
