/** What a whole outfit gets done in an hour in one field, and what holds it back. Pure numbers for the planner. */
import type { Combine, Head, Outfit } from '#core/operation/farm.ts'
import type { CropName } from '#core/science/crop.ts'
import {
  fieldCapacityHaPerH,
  litresFromTonnes,
  stopToUnloadFactor,
  tankFillMin,
  throughputTPerH,
  tonnesFromLitres,
  unloadMin,
} from './cutting.ts'
import { carrierRatePerH, carriersNeeded, cartCycleMin, truckCycleMin } from './hauling.ts'
import { finiteSourceQueue } from './queue.ts'

export interface OutfitRateInput {
  readonly outfit: Pick<Outfit, 'combines' | 'carts' | 'trucks'>
  readonly crop: CropName
  /** Grain that reaches the tank, at the moisture it has [t/ha, above 0]. */
  readonly yieldTHa: number
  /** Bulk density of the grain [kg/m3, above 0]; `bulkDensityKgM3(crop)` when nothing better is known. */
  readonly grainKgM3: number
  /** Road distance to the buyer, one way [km, 0 or more]. */
  readonly haulKm: number
  /** Time a truck spends at the buyer [min, 0 or more]. */
  readonly turnaroundMin: number
  /** Most the buyer takes in an hour [t/h]; absent = no limit given. */
  readonly buyerTPerH?: number
  /** Drive of a cart between combine and truck, one way [min]; absent = CART_TRAVEL_MIN. */
  readonly cartTravelMin?: number
}

export type Bottleneck = 'combines' | 'carts' | 'trucks' | 'buyer'

export interface OutfitRate {
  /** What the combines would cut with nobody to wait for [ha/h]. */
  readonly cutHaPerH: number
  /** What gets done [ha/h]. */
  readonly haPerH: number
  readonly limitedBy: Bottleneck
  /** Share of the carts' capacity in use [0-1]; 0 without carts. */
  readonly cartUse: number
  /** Share of time a combine cuts rather than waits for a cart, low end [0-1]; 1 without carts. */
  readonly combineUse: number
  /** Carts to keep up with the combines; NaN without a cart to reckon by. */
  readonly cartsNeeded: number
  /** Trucks to keep up with combines and carts; NaN without a truck to reckon by. */
  readonly trucksNeeded: number
  /** Mean over the combines [min]; NaN when none cuts. */
  readonly tankFillMin: number
  /** Truckloads [1/h]; NaN without a truck to reckon by. */
  readonly loadsPerHour: number
}

/** Drive between combine and truck, one way [min]. Common practice, no source. */
export const CART_TRAVEL_MIN = 2
/** Time a cart takes to line up with a combine [min]. Common practice, no source. */
export const POSITION_MIN = 1

const UNKNOWN: OutfitRate = {
  cutHaPerH: Number.NaN,
  haPerH: Number.NaN,
  limitedBy: 'combines',
  cartUse: Number.NaN,
  combineUse: Number.NaN,
  cartsNeeded: Number.NaN,
  trucksNeeded: Number.NaN,
  tankFillMin: Number.NaN,
  loadsPerHour: Number.NaN,
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
const mean = (values: readonly number[]): number => sum(values) / values.length

interface Cutter {
  readonly combine: Combine
  /** Rate while nothing makes it wait [ha/h]. */
  readonly haPerH: number
  readonly fillMin: number
}

/** The combines that have a head for the crop, each with its own rate. */
function cuttersOf(input: OutfitRateInput, travelMin: number): readonly Cutter[] {
  const stops = input.outfit.carts.length === 0
  return input.outfit.combines.flatMap((combine) => {
    const head: Head | undefined = combine.heads.find((candidate) => candidate.crops.includes(input.crop))
    if (head === undefined) return []
    const freeHaPerH = fieldCapacityHaPerH(head.widthM, head.speedMs, head.efficiency)
    const litresPerH = litresFromTonnes(throughputTPerH(freeHaPerH, input.yieldTHa), input.grainKgM3)
    const fillMin = tankFillMin(combine.tankL, litresPerH)
    const stopMin = unloadMin(combine.tankL, combine.unloadLPerS) + POSITION_MIN + 2 * travelMin
    return [{ combine, haPerH: stops ? freeHaPerH * stopToUnloadFactor(fillMin, stopMin) : freeHaPerH, fillMin }]
  })
}

/** What each cart moves with the mean tank of the outfit [t/h], and the time one tank takes of a cart [min]. */
function cartsOf(input: OutfitRateInput, cutters: readonly Cutter[], travelMin: number) {
  const tankL = mean(cutters.map((cutter) => cutter.combine.tankL))
  const tankUnloadMin = mean(cutters.map((cutter) => unloadMin(cutter.combine.tankL, cutter.combine.unloadLPerS)))
  return input.outfit.carts.map((cart) => {
    const cycleMin = cartCycleMin({
      cartL: cart.capacityL,
      tankL,
      tankUnloadMin,
      positionMin: POSITION_MIN,
      travelMin,
      cartUnloadMin: unloadMin(cart.capacityL, cart.unloadLPerS),
    })
    const tPerH = carrierRatePerH(tonnesFromLitres(cart.capacityL, input.grainKgM3), cycleMin)
    return { tPerH, minPerTank: (cycleMin * tankL) / cart.capacityL }
  })
}

/** What each truck moves [t/h]. It is loaded by the carts or, without carts, by the combines. */
function trucksOf(input: OutfitRateInput, cutters: readonly Cutter[]): readonly number[] {
  const loaders = input.outfit.carts.length > 0 ? input.outfit.carts : cutters.map((cutter) => cutter.combine)
  const loaderLPerS = mean(loaders.map((loader) => loader.unloadLPerS))
  return input.outfit.trucks.map((truck) => {
    const loadMin = unloadMin(truck.capacityL, loaderLPerS)
    const cycleMin = truckCycleMin(loadMin, input.haulKm, truck.roadSpeedMs, input.turnaroundMin)
    return carrierRatePerH(tonnesFromLitres(truck.capacityL, input.grainKgM3), cycleMin)
  })
}

/**
 * Rate of an outfit in a field, and its bottleneck.
 *
 * @param input machines, crop, wet yield, haul and buyer.
 * @returns the rates; every number NaN when an input is not known or out of range. An outfit without a head for the crop
 *   cuts 0 ha/h. Without carts the combines stop to unload into trucks; without trucks the haul is taken as someone else's.
 * Form: the least of what combines, carts, trucks and buyer can move, textbook bottleneck (Srivastava et al. 2006, ch. 15).
 * A tie names the earlier link. The queue for carts is given as `combineUse` and not taken off `haPerH`: the field
 * efficiency of the head is a whole-season figure that holds the usual waits already.
 * Checked: tests/truth/capacity.ts (worked by hand: 3 combines, 2 carts, 9 trucks; 6 trucks hold them to 67 %).
 * Left out: the combine's limit of throughput in heavy crops; the speed of the head has to be the speed really driven.
 */
export function outfitRate(input: OutfitRateInput): OutfitRate {
  if (!(input.yieldTHa > 0 && input.grainKgM3 > 0 && input.haulKm >= 0 && input.turnaroundMin >= 0)) return UNKNOWN
  const travelMin = input.cartTravelMin ?? CART_TRAVEL_MIN
  const cutters = cuttersOf(input, travelMin)
  const cutHaPerH = sum(cutters.map((cutter) => cutter.haPerH))
  if (Number.isNaN(cutHaPerH)) return UNKNOWN
  if (cutHaPerH === 0) return { ...UNKNOWN, cutHaPerH: 0, haPerH: 0, cartUse: 0, combineUse: 0 }

  const cutTPerH = throughputTPerH(cutHaPerH, input.yieldTHa)
  const carts = cartsOf(input, cutters, travelMin)
  const trucks = trucksOf(input, cutters)
  const cartTPerH = carts.length > 0 ? sum(carts.map((cart) => cart.tPerH)) : Number.POSITIVE_INFINITY
  const truckTPerH = trucks.length > 0 ? sum(trucks) : Number.POSITIVE_INFINITY
  const stages: readonly (readonly [Bottleneck, number])[] = [
    ['combines', cutTPerH],
    ['carts', cartTPerH],
    ['trucks', truckTPerH],
    ['buyer', input.buyerTPerH ?? Number.POSITIVE_INFINITY],
  ]
  if (stages.some(([, tPerH]) => Number.isNaN(tPerH))) return UNKNOWN
  const [limitedBy, tPerH] = stages.reduce((least, stage) => (stage[1] < least[1] ? stage : least))

  const fillMin = mean(cutters.map((cutter) => cutter.fillMin))
  const meanTruckT = tonnesFromLitres(mean(input.outfit.trucks.map((truck) => truck.capacityL)), input.grainKgM3)
  return {
    cutHaPerH,
    haPerH: tPerH / input.yieldTHa,
    limitedBy,
    cartUse: carts.length > 0 ? tPerH / cartTPerH : 0,
    combineUse:
      carts.length > 0
        ? finiteSourceQueue(cutters.length, carts.length, fillMin, mean(carts.map((cart) => cart.minPerTank)))
            .useOnTheGo
        : 1,
    cartsNeeded: carriersNeeded(cutTPerH, mean(carts.map((cart) => cart.tPerH))),
    trucksNeeded: carriersNeeded(Math.min(cutTPerH, cartTPerH), mean(trucks)),
    tankFillMin: fillMin,
    loadsPerHour: tPerH / meanTruckT,
  }
}
