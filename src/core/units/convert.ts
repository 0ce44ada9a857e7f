/**
 * Conversion factors between the farm's units and SI. Exact by definition unless said otherwise
 * (international yard and pound, 1959; NIST Handbook 44, appendix C).
 */
export const M_PER_FT = 0.3048
export const KM_PER_MI = 1.609344
export const MM_PER_IN = 25.4
export const KG_PER_LB = 0.45359237
/** International acre, 43,560 square feet. */
export const HA_PER_ACRE = 0.40468564224
export const MS_PER_MPH = 0.44704
export const MS_PER_KMH = 1 / 3.6
/** U.S. dry bushel, 2,150.42 cubic inches. */
export const L_PER_BUSHEL = 35.23907016688

export const celsiusFromFahrenheit = (tempF: number): number => (tempF - 32) / 1.8
export const fahrenheitFromCelsius = (tempC: number): number => tempC * 1.8 + 32

/** Dollars, losses and areas are quoted per acre in US farms: value per hectare x this = value per acre. */
export const perAcreFromPerHa = (perHa: number): number => perHa * HA_PER_ACRE

/** @param lbPerBu standard test weight of the crop [lb/bu]. @returns mass of one bushel [kg]. */
export const kgPerBushel = (lbPerBu: number): number => lbPerBu * KG_PER_LB

/** @returns yield [t/ha] from [bu/acre] at the standard test weight [lb/bu]. */
export const tPerHaFromBuPerAcre = (buPerAcre: number, lbPerBu: number): number =>
  (buPerAcre * kgPerBushel(lbPerBu)) / 1000 / HA_PER_ACRE

/** @returns yield [bu/acre] from [t/ha] at the standard test weight [lb/bu]. */
export const buPerAcreFromTPerHa = (tPerHa: number, lbPerBu: number): number =>
  (tPerHa * 1000 * HA_PER_ACRE) / kgPerBushel(lbPerBu)
