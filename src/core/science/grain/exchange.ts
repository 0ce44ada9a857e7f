import { hourlyReferenceEtMm } from '#core/science/air/evapotranspiration.ts'
import { saturationVapourPressureKPa } from '#core/science/air/vapour.ts'
import type { CropName } from '#core/science/crop.ts'
import type { Weather } from '#core/units/weather.ts'
import { equilibriumMoistureWb } from './equilibrium.ts'
import { GRAIN_TRAITS, type GrainTraits } from './traits.ts'

/** Sunlight to which `podWarmingC` refers [W/m2]: a clear noon of early autumn. */
const FULL_SUN_WM2 = 800
/** Temperature to which time constants refer [K]: 20 deg C. */
const REFERENCE_K = 293.15
const KELVIN_AT_0C = 273.15
/**
 * Air in pods, husks and ears is never more humid for the grain than this [0-1]; beyond, only water on the plants wets
 * it more. Lower than the cap of the isotherm: found together with the constants of `traits.ts`.
 */
const EXCHANGE_RH_CAP = 0.83
/** Grain touches water all over from this much water on the plants [mm]; less wets it in proportion. Choice. */
const FULLY_WET_MM = 0.1

/**
 * What the weather does to standing grain of one crop, the same for all fields and particles of a place.
 * Arrays are laid out as the weather (member * hours + hour).
 */
export interface GrainDrivers {
  readonly startEpochH: number
  readonly hours: number
  readonly members: number
  readonly traits: GrainTraits
  /** Ripe grain wetter than this dries towards it [% wet basis]. */
  readonly dryTargetWb: Float32Array
  /** Ripe grain drier than this takes up water towards it [% wet basis]; never above `dryTargetWb`. */
  readonly wetTargetWb: Float32Array
  /** Speed of drying, as share of the speed at 20 deg C [-]. */
  readonly dryRate: Float32Array
  /** Speed of uptake, as share of the speed of drying at 20 deg C [-]. */
  readonly wetRate: Float32Array
  /** Most that green grain can lose in the hour [points]. */
  readonly greenDryingWb: Float32Array
}

/**
 * Weather-only drivers of standing grain.
 *
 * @param crop the crop.
 * @param weather the weather at the place.
 * @param surfaceWaterMm water lying on the plants, rain and dew [mm], laid out as the weather.
 * @returns drivers of each member and hour; NaN where the weather they need is not known.
 *
 * Pods, heads and ears in the sun are warmer than the air by `podWarmingC` x sunlight / 800 W/m2; the vapour pressure
 * is that of the air, so their air is drier. Equilibrium is that of ripe grain at that temperature and humidity; the
 * uptake side lies lower by the hysteresis. Exchange slows in the cold as exp(-E (1/T - 1/293 K)), the form of the
 * thin-layer equations of O'Callaghan, Menzies & Bailey 1971 (J. agric. Engng Res. 16:223, constants from memory).
 * Water on the plants above freezing replaces the air as boundary, in proportion below 0.1 mm; then the drying power
 * of the air goes into that water and green grain does not dry. Green drying is proportional to FAO-56 reference
 * evapotranspiration (Hellevang, NDSU: an inch of potential evapotranspiration takes about 4 points off corn).
 * Constants and how far they are known: `traits.ts`. Wind acts only through evapotranspiration.
 */
export function grainDrivers(crop: CropName, weather: Weather, surfaceWaterMm: Float32Array): GrainDrivers {
  const { startEpochH, hours, members, airTempC, relHumidity, solarWm2 } = weather
  const traits = GRAIN_TRAITS[crop]
  const evapotranspirationMm = hourlyReferenceEtMm(weather)
  const size = hours * members
  const dryTargetWb = new Float32Array(size)
  const wetTargetWb = new Float32Array(size)
  const dryRate = new Float32Array(size)
  const wetRate = new Float32Array(size)
  const greenDryingWb = new Float32Array(size)
  for (let i = 0; i < size; i++) {
    const airC = airTempC[i]!
    const podC = airC + (traits.podWarmingC * solarWm2[i]!) / FULL_SUN_WM2
    const podHumidity = relHumidity[i]! * (saturationVapourPressureKPa(airC) / saturationVapourPressureKPa(podC))
    const equilibriumWb = equilibriumMoistureWb(crop, podC, Math.min(EXCHANGE_RH_CAP, podHumidity))
    const uptakeWb = Math.max(0, equilibriumWb - traits.hysteresisWb)
    const rate = Math.exp(-traits.activationK * (1 / (podC + KELVIN_AT_0C) - 1 / REFERENCE_K))
    const wetShare = airC > 0 ? Math.min(1, surfaceWaterMm[i]! / FULLY_WET_MM) : 0 * surfaceWaterMm[i]!
    dryTargetWb[i] = equilibriumWb + wetShare * Math.max(0, traits.wetBoundaryWb - equilibriumWb)
    wetTargetWb[i] = uptakeWb + wetShare * Math.max(0, traits.wetBoundaryWb - uptakeWb)
    dryRate[i] = rate
    wetRate[i] = rate * traits.uptakeShare
    greenDryingWb[i] = traits.dryingPointsPerMm * Math.max(0, evapotranspirationMm[i]!) * (1 - wetShare)
  }
  return { startEpochH, hours, members, traits, dryTargetWb, wetTargetWb, dryRate, wetRate, greenDryingWb }
}
