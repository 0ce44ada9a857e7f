/** Dew and drying by the energy balance of a plant surface, where sunlight and wind are known. */
import { saturationSlopeKPaPerC, vapourPressureDeficitKPa } from '#core/science/air/vapour.ts'

const HPA_PER_KPA = 10
/** Volumetric heat capacity of air [J/(m3 K)], as in Pedro & Gillespie 1982. */
export const AIR_HEAT_CAPACITY = 1200
/** Modified psychrometer constant of a leaf [hPa/K], Pedro & Gillespie 1982. */
export const LEAF_PSYCHROMETER_HPA_PER_K = 0.64
/** Leaf width in the direction of the wind [m], Pedro & Gillespie 1982. */
const LEAF_WIDTH_M = 0.07
const VON_KARMAN = 0.41
/** Height at which the weather gives the wind [m]. */
const WIND_HEIGHT_M = 10
/** Zero-plane displacement and roughness as shares of the crop's height: FAO-56 (Allen et al. 1998) box 4. */
const DISPLACEMENT_SHARE = 2 / 3
const ROUGHNESS_SHARE = 0.123
/** Still air never stands quite still over a cooling crop [m/s]: FAO-56 keeps 0.5 m/s at 2 m for the same reason. */
const LEAST_WIND_MS = 0.67
/** Heat that evaporates a kilogram of water [J/kg], FAO-56 eq. 3-1 (20 deg C). */
const LATENT_HEAT_J_PER_KG = 2.45e6
const SECONDS_PER_HOUR = 3600
/** Water depth evaporated in an hour by one watt per square metre [mm/h per W/m2]. */
export const MM_PER_H_PER_WM2 = SECONDS_PER_HOUR / LATENT_HEAT_J_PER_KG

const keptMoving = (windMs: number): number => (windMs >= 0 ? Math.max(windMs, LEAST_WIND_MS) : Number.NaN)

/**
 * Wind at the top of the crop.
 *
 * @param windMs wind at 10 m [m/s], 0..60; under 0.67 counts as 0.67
 * @param heightM height of the crop [m], 0.1..4
 * @returns wind at the canopy top [m/s]
 *
 * Logarithmic profile over the crop, neutral air. Calm, clear nights are steadier than neutral, so the true wind there
 * is lower.
 */
export function canopyWindMs(windMs: number, heightM: number): number {
  const above = (zM: number) => Math.log((zM - DISPLACEMENT_SHARE * heightM) / (ROUGHNESS_SHARE * heightM))
  return (keptMoving(windMs) * above(heightM)) / above(WIND_HEIGHT_M)
}

/**
 * Resistance of the air to heat and vapour between a leaf at the top of the crop and the weather above it.
 *
 * @param windMs wind at 10 m [m/s], 0..60; under 0.67 counts as 0.67
 * @param heightM height of the crop [m], 0.1..4
 * @returns resistance ra + rb [s/m]
 *
 * ra = ln((z-d)/z0) ln((z-d)/(h-d)) / (k^2 u), rb = 307 sqrt(0.07 / u at the leaf): Pedro & Gillespie 1982
 * (Agric. Meteorol. 25:283-310). ra from memory.
 */
export function airResistanceSPerM(windMs: number, heightM: number): number {
  const displacementM = DISPLACEMENT_SHARE * heightM
  const profile = Math.log((WIND_HEIGHT_M - displacementM) / (ROUGHNESS_SHARE * heightM))
  const aboveCrop = Math.log((WIND_HEIGHT_M - displacementM) / (heightM - displacementM))
  const ra = (profile * aboveCrop) / (VON_KARMAN ** 2 * keptMoving(windMs))
  return ra + 307 * Math.sqrt(LEAF_WIDTH_M / canopyWindMs(windMs, heightM))
}

/**
 * Heat spent on evaporating water from a wet plant surface; negative while dew forms.
 *
 * @param airTempC air temperature [deg C], -50..55
 * @param relHumidity relative humidity [0-1]
 * @param netRadiationWm2 net radiation into the surface [W/m2]; isothermal if a radiative conductance is given
 * @param resistanceSPerM air resistance ra + rb [s/m], > 0
 * @param radiativeWm2K heat regained per degree the surface is cooler than the air [W/(m2 K)]; 0 takes the net
 *   radiation as that of the surface itself
 * @returns latent heat flux, positive upward [W/m2]
 *
 * Penman form of Pedro & Gillespie 1982: [s Rn + 1200 (es - ea)/(ra + rb)] / (s + 0.64), hPa units, to which the
 * radiative conductance is added beside that of the air (Monteith & Unsworth, isothermal net radiation), because the
 * net radiation is estimated at air temperature and not measured at the leaf. With 0 it is the published form.
 * Frost is taken as dew. Sea-level air; at 1,500 m the flux by day differs by some 3 %.
 */
export function wetSurfaceLatentHeatWm2(
  airTempC: number,
  relHumidity: number,
  netRadiationWm2: number,
  resistanceSPerM: number,
  radiativeWm2K: number,
): number {
  const slope = HPA_PER_KPA * saturationSlopeKPaPerC(airTempC)
  const deficit = HPA_PER_KPA * vapourPressureDeficitKPa(airTempC, relHumidity)
  const air = AIR_HEAT_CAPACITY / resistanceSPerM
  const heat = air + radiativeWm2K
  return (slope * netRadiationWm2 + heat * deficit) / (slope + (LEAF_PSYCHROMETER_HPA_PER_K * heat) / air)
}
