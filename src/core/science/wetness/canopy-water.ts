/**
 * Water lying on the plants, hour by hour: caught from rain, formed as dew, taken off by the air and the sun.
 * Depends on weather and crop only, so it is computed once per cell and crop and shared by all fields.
 */
import { clearSkyWm2, extraterrestrialWm2 } from '#core/science/air/radiation.ts'
import { dewPointC } from '#core/science/air/vapour.ts'
import type { CropName } from '#core/science/crop.ts'
import type { Weather } from '#core/units/weather.ts'
import { airResistanceSPerM, canopyWindMs, MM_PER_H_PER_WM2, wetSurfaceLatentHeatWm2 } from './dew.ts'
import { fillClearness, isothermalNetRadiationWm2, radiativeConductanceWm2K } from './sky.ts'
import { DRY_ABOVE_DEPRESSION_C, isWetByDepression, isWetByTree, WET_BELOW_DEPRESSION_C } from './threshold.ts'

export interface CanopyWater {
  /** Water lying on the plants at the END of each hour, per ground area [mm]. */
  readonly waterMm: Float32Array
  /** Dew formed in the hour, whether it stayed or dripped off [mm]. */
  readonly dewMm: Float32Array
}

export interface Canopy {
  /** Height of the ripe crop [m]. */
  readonly heightM: number
  /** One-sided area of stems, pods, ears and dead leaves per ground area [-]. */
  readonly plantAreaIndex: number
}

/** The ripe stand of each crop: common practice, no single source. */
export const CANOPY: { readonly [C in CropName]: Canopy } = {
  soybean: { heightM: 0.9, plantAreaIndex: 2 },
  corn: { heightM: 2.4, plantAreaIndex: 3 },
  'wheat-soft': { heightM: 0.8, plantAreaIndex: 2.5 },
  'wheat-hard': { heightM: 0.8, plantAreaIndex: 2.5 },
  'wheat-durum': { heightM: 0.9, plantAreaIndex: 2.5 },
  sorghum: { heightM: 1.2, plantAreaIndex: 3 },
  barley: { heightM: 0.7, plantAreaIndex: 2.5 },
  oats: { heightM: 0.9, plantAreaIndex: 2.5 },
  canola: { heightM: 1.2, plantAreaIndex: 2.5 },
  sunflower: { heightM: 1.6, plantAreaIndex: 2 },
}

/** Most water a plant surface holds [mm per unit of plant area]: Magarey et al. 2005 review (0.2 mm), from memory. */
export const CAPACITY_PER_PLANT_AREA_MM = 0.2
/** Share of falling rain met per plant area [-]: straight down on randomly set plant parts, Beer's law with 0.5. */
const RAIN_EXTINCTION = 0.5
/** Weakening of light from the whole sky per plant area [-]: Campbell & Norman 1998 fig. 15.4, about 0.7, from memory. */
const SKY_EXTINCTION = 0.7
/** Dew of an hour called wet by rule: a usual rate under the limit of 0.06 mm/h (Garratt & Segal 1988). Choice. */
const RULE_DEW_MM_PER_H = 0.03
/** An hour called dry by rule takes a full night's dew, up to 0.2 mm (Pedro & Gillespie 1982, from memory). */
const RULE_DRYING_MM_PER_H = 0.2
/** Two courses of water closer than this are one known course [mm]. */
const KNOWN_WITHIN_MM = 0.01
/** Wind taken for drying by the air alone where the wind is not known: a light breeze [m/s]. */
const UNKNOWN_WIND_MS = 2

/** @returns most water the ripe crop can hold [mm]. */
export const capacityMm = (crop: CropName): number => CAPACITY_PER_PLANT_AREA_MM * CANOPY[crop].plantAreaIndex

/** @returns share of the rain that meets plants on its way to the ground [0-1]. */
const coverShare = (crop: CropName): number => 1 - Math.exp(-RAIN_EXTINCTION * CANOPY[crop].plantAreaIndex)

/** @returns share of the light from and to the sky that the plants take instead of the ground [0-1]. */
const skyViewShare = (crop: CropName): number => 1 - Math.exp(-SKY_EXTINCTION * CANOPY[crop].plantAreaIndex)

/**
 * Water lying on the ripe crop, and dew, for each member and hour.
 *
 * @param weather the weather at the place
 * @param crop the crop
 * @param startMm water lying on the plants before the first hour [mm]; dry (0) if not given, NaN if not known
 * @returns water at the end of each hour and dew formed in it [mm], indexed as the weather
 *
 * Rain fills the store as cover x rain x (1 - water/capacity), integrated over the hour (Merriam 1960, J. Geophys. Res.
 * 65:3850). With sunlight and wind known, the flux is `wetSurfaceLatentHeatWm2` on the share of the sky the plants see,
 * taken at full rate until the water is gone (Pedro & Gillespie 1982). Without, a published rule decides wet or dry
 * (CART/SLD with wind, dew-point depression without) and water beyond a night's dew leaves by the air alone.
 *
 * Not known: two courses run side by side, from the least and the most water there can be. An hour without temperature
 * or humidity sets them to 0 and full; an hour without rain sets the upper one to full. Where they differ, the result
 * is NaN; a drying spell or a soaking rain brings them together and the result is known again.
 *
 * Checked against dew rates and nightly amounts of Garratt & Segal 1988 and Ritter et al. 2019 (tests/truth/dew.ts).
 */
export function canopyWater(weather: Weather, crop: CropName, startMm = 0): CanopyWater {
  const { hours, members, airTempC, relHumidity, rainMm, windMs, solarWm2 } = weather
  const { heightM } = CANOPY[crop]
  const capacity = capacityMm(crop)
  const cover = coverShare(crop)
  const skyShare = skyViewShare(crop)
  const waterMm = new Float32Array(members * hours)
  const dewMm = new Float32Array(members * hours)
  const clearSky = clearSkyOf(weather)
  const clearness = new Float32Array(hours)

  for (let member = 0; member < members; member++) {
    const base = member * hours
    fillClearness(solarWm2, base, clearSky, clearness)
    let least = Number.isNaN(startMm) ? 0 : Math.min(Math.max(startMm, 0), capacity)
    let most = Number.isNaN(startMm) ? capacity : least
    let wet = most > 0
    for (let h = 0; h < hours; h++) {
      const i = base + h
      const tempC = airTempC[i]!
      const humidity = relHumidity[i]!
      const wind = windMs[i]!
      const dryingMm = Number.isNaN(solarWm2[i]! + wind)
        ? ruleDryingMm(tempC, humidity, wind, heightM, wet)
        : energyDryingMm(tempC, humidity, wind, solarWm2[i]!, clearness[h]!, heightM, skyShare)
      const rain = rainMm[i]!
      if (Number.isNaN(dryingMm)) {
        least = 0
        most = capacity
      } else {
        least = dried(caught(least, rain, capacity, cover), dryingMm, capacity)
        most = rain >= 0 ? dried(caught(most, rain, capacity, cover), dryingMm, capacity) : capacity
      }
      wet = most > 0
      waterMm[i] = most - least < KNOWN_WITHIN_MM ? least : Number.NaN
      dewMm[i] = Math.max(0, -dryingMm)
    }
  }
  return { waterMm, dewMm }
}

function clearSkyOf(weather: Weather): Float32Array {
  const { latDeg, lonDeg, elevationM } = weather.place
  const clearSky = new Float32Array(weather.hours)
  for (let h = 0; h < weather.hours; h++) {
    clearSky[h] = clearSkyWm2(extraterrestrialWm2(latDeg, lonDeg, weather.startEpochH + h), elevationM)
  }
  return clearSky
}

/** @returns water after rain: dW/dP = cover (1 - W/capacity) [mm]. */
function caught(waterMm: number, rainMm: number, capacity: number, cover: number): number {
  if (!(rainMm > 0)) return waterMm
  return capacity - (capacity - waterMm) * Math.exp((-cover * rainMm) / capacity)
}

/** @returns water after drying, or dew if the drying is negative [mm]. */
const dried = (waterMm: number, dryingMm: number, capacity: number): number =>
  Math.min(capacity, Math.max(0, waterMm - dryingMm))

/** @returns water the energy balance takes off wet plants in the hour, negative for dew [mm]. */
function energyDryingMm(
  tempC: number,
  humidity: number,
  wind: number,
  solar: number,
  clearness: number,
  heightM: number,
  skyShare: number,
): number {
  const netWm2 = skyShare * isothermalNetRadiationWm2(tempC, humidity, solar, clearness)
  const resistance = airResistanceSPerM(wind, heightM)
  const radiative = skyShare * radiativeConductanceWm2K(tempC)
  return MM_PER_H_PER_WM2 * wetSurfaceLatentHeatWm2(tempC, humidity, netWm2, resistance, radiative)
}

/** @returns water taken off in an hour judged by rule, negative for dew [mm]. */
function ruleDryingMm(tempC: number, humidity: number, wind: number, heightM: number, wasWet: boolean): number {
  const depression = tempC - dewPointC(tempC, humidity)
  const windKnown = !Number.isNaN(wind)
  const wet = windKnown
    ? isWetByTree(tempC, humidity, canopyWindMs(wind, heightM), depression)
    : isWetByDepression(depression, wasWet)
  if (wet === null) return Number.NaN
  if (wet) return depression < WET_BELOW_DEPRESSION_C ? -RULE_DEW_MM_PER_H : 0
  const resistance = airResistanceSPerM(windKnown ? wind : UNKNOWN_WIND_MS, heightM)
  const byAir = MM_PER_H_PER_WM2 * wetSurfaceLatentHeatWm2(tempC, humidity, 0, resistance, 0)
  return depression > DRY_ABOVE_DEPRESSION_C ? Math.max(byAir, RULE_DRYING_MM_PER_H) : byAir
}
