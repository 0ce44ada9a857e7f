/** One run of an outfit in a part, with the area, grain and loads that come out of it. */
import type { Outfit } from '#core/operation/farm.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import { fitMoistureWb } from '#core/outlook/windows.ts'
import { headerLossFraction } from '#core/science/loss/header.ts'
import { massAtMoisture } from '#core/science/money/shrink.ts'
import { bulkDensityKgM3, litresFromTonnes } from './capacity/cutting.ts'
import type { OutfitRate } from './capacity/outfit.ts'
import type { Run } from './plan.ts'

export interface RunInput {
  readonly outfit: Outfit
  readonly candidate: {
    readonly outlook: Outlook
    readonly window: FitWindow
    readonly riskPerHaDay: number
    /** Moisture that the buyer pays on [% wet basis]. */
    readonly standardWb: number
  }
  readonly rate: OutfitRate
  readonly start: number
  readonly end: number
  readonly areaLeft: number
}

export function makeRun({ outfit, candidate, rate, start, end, areaLeft }: RunInput): Run {
  const { outlook, window, riskPerHaDay, standardWb } = candidate
  const { part } = outlook
  const crop = part.field.crop
  const areaHa = Math.min(areaLeft, rate.haPerH * (end - start))
  const startMoistureWb = fitMoistureWb(outlook, hourOf(outlook, start))
  const endMoistureWb = fitMoistureWb(outlook, hourOf(outlook, end - LAST_MINUTE_H))
  const middleWb = (startMoistureWb + endMoistureWb) / 2
  const gathered = 1 - headerLossFraction(crop, middleWb)
  const massT = areaHa * part.field.usualYieldTHa * gathered
  const wetMassT = massAtMoisture(massT, standardWb, middleWb)
  const volumeL = litresFromTonnes(wetMassT, bulkDensityKgM3(crop))
  return {
    part,
    outfitId: outfit.id,
    startEpochH: start,
    endEpochH: end,
    areaHa,
    ofAreaHa: areaLeft,
    massT,
    volumeL,
    truckLoads: truckLoads(volumeL, outfit),
    combines: outfit.combines.length,
    trucksNeeded: rate.trucksNeeded,
    cartsNeeded: rate.cartsNeeded,
    limitedBy: rate.limitedBy,
    startMoistureWb,
    endMoistureWb,
    lowWb: window.lowWb,
    highWb: window.highWb,
    chance: window.chance,
    atRiskPerHaDay: riskPerHaDay,
  }
}

/** Loads of the mean truck; a twentieth of one is let pass. */
function truckLoads(volumeL: number, { trucks }: Outfit): number {
  const meanTruckL = trucks.reduce((sum, truck) => sum + truck.capacityL, 0) / trucks.length
  return Math.ceil(volumeL / meanTruckL - 0.05)
}

/** Runs of one field that follow each other within this are one for whoever drives them [h]. */
const JOINED_WITHIN_H = 0.1

/**
 * The main stand of a field and the patches run right after it as one run, as a person speaks of it.
 * @param runs in order of start. @returns the same order; moisture is that of the main stand.
 */
export function joinRuns(runs: readonly Run[], outfits: readonly Outfit[]): Run[] {
  const joined: Run[] = []
  for (const run of runs) {
    const at = joined.findLastIndex(({ outfitId }) => outfitId === run.outfitId)
    const before = joined[at]
    const outfit = outfits.find(({ id }) => id === run.outfitId)
    const follows =
      before !== undefined &&
      before.part.patch === undefined &&
      before.part.field.id === run.part.field.id &&
      run.startEpochH - before.endEpochH < JOINED_WITHIN_H
    if (!follows || !outfit) {
      joined.push(run)
      continue
    }
    const volumeL = before.volumeL + run.volumeL
    joined[at] = {
      ...before,
      endEpochH: run.endEpochH,
      areaHa: before.areaHa + run.areaHa,
      ofAreaHa: before.ofAreaHa + run.ofAreaHa,
      massT: before.massT + run.massT,
      volumeL,
      truckLoads: truckLoads(volumeL, outfit),
      chance: Math.min(before.chance, run.chance),
      lowWb: Math.min(before.lowWb, run.lowWb),
      highWb: Math.max(before.highWb, run.highWb),
    }
  }
  return joined
}

/** A run that ends on the stamp of an hour ends in the hour before it [h]. */
const LAST_MINUTE_H = 1 / 60

/** Index of the hour that holds a moment, held to the hours of the outlook. */
const hourOf = (outlook: Outlook, epochHours: number): number =>
  Math.min(outlook.hours - 1, Math.max(0, Math.floor(epochHours - outlook.startEpochH)))

/** Median moisture at a moment over all courses [% wet basis]. */
export const medianAt = (outlook: Outlook, epochHours: number): number => outlook.medianWb[hourOf(outlook, epochHours)]!
