/** One run of an outfit in a part, with the area, grain and loads that come out of it. */
import type { Outfit } from '#core/farm/farm.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
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
  const startMoistureWb = medianAt(outlook, start)
  const endMoistureWb = medianAt(outlook, end)
  const middleWb = (startMoistureWb + endMoistureWb) / 2
  const gathered = 1 - headerLossFraction(crop, middleWb)
  const massT = areaHa * part.field.usualYieldTHa * gathered
  const wetMassT = massAtMoisture(massT, standardWb, middleWb)
  const volumeL = litresFromTonnes(wetMassT, bulkDensityKgM3(crop))
  const meanTruckL = outfit.trucks.reduce((sum, truck) => sum + truck.capacityL, 0) / outfit.trucks.length
  return {
    part,
    outfitId: outfit.id,
    startEpochH: start,
    endEpochH: end,
    areaHa,
    ofAreaHa: areaLeft,
    massT,
    volumeL,
    truckLoads: Math.ceil(volumeL / meanTruckL - 0.05),
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

/** Median moisture at a moment [% wet basis], held to the hours of the outlook. */
export function medianAt(outlook: Outlook, epochHours: number): number {
  const hour = Math.min(outlook.hours - 1, Math.max(0, Math.floor(epochHours - outlook.startEpochH)))
  return outlook.medianWb[hour]!
}
