/**
 * Water in the top 10-15 cm of a field with a ripe crop on it: wetted by rain, drained to field capacity, dried by the air.
 *
 * The state is one number, the depletion [mm]: 0 at field capacity, positive below it, negative above it (down to
 * saturation and then standing water). A ripe crop draws no water, so the soil evaporates as FAO-56 describes for bare
 * soil, less what residue and stand hold back.
 */
import { evaporableWaterMm } from './evaporation.ts'
import { DRAINAGE_DELAY, type DrainageName, SOIL_WATER, type SoilTextureName } from './textures.ts'

/** What the hourly step needs of a field; made once per field by `topsoilOf`. */
export interface Topsoil {
  /** Water in the layer at field capacity [mm]. */
  readonly capacityMm: number
  /** 1 / capacityMm, so that the step divides nothing [1/mm]. */
  readonly perCapacity: number
  readonly rewMm: number
  readonly tewMm: number
  /** 1 / (tewMm - rewMm) [1/mm]. */
  readonly perSecondStage: number
  /** Depletion when every pore is full [mm], negative. */
  readonly saturatedMm: number
  /** Depletion when all hollows are full as well [mm], the lowest there is. */
  readonly floodedMm: number
  /** Share of the water above field capacity that is still there an hour later [0-1]. */
  readonly drainKeep: number
  /** Evaporation from wet soil over reference evaporation [-]. */
  readonly evaporationRatio: number
}

/** FAO-56 eq. 72 without wind and humidity: Kc max of 1.2 in the standard climate. */
const KC_MAX = 1.2
/** FAO-56 chapter 11: 5 % less evaporation for each 10 % of ground under organic mulch (from memory). */
const HELD_BACK_BY_COVER = 0.5
/** Leaves, straw and stand over most of the ground at harvest. Assumption, no source. */
const USUAL_GROUND_COVER = 0.7
/** FAO-56 gives 0.10-0.15 m; coarse soils take the thin layer, as Rutledge & McHardy 1968 look at two zones, not three. */
const DEPTH_COARSE_M = 0.1
const DEPTH_FINE_M = 0.15
/** Water that stands in hollows of a field untilled since planting before it runs off [mm]. Assumption, no source. */
const HOLLOWS_MM = 4

/**
 * The topsoil of a field as the hourly step needs it.
 *
 * @param texture texture class. @param drainage drainage of the field.
 * @param groundCover share of the ground under residue, litter and stand [0-1], held to that range.
 * @returns constants of the layer.
 *
 * FAO-56 Table 19 and eq. 73; drainage after the convention stated in textures.ts.
 * Not confirmed: drain times, ground cover, hollows (assumptions), mulch rule (from memory).
 */
export function topsoilOf(
  texture: SoilTextureName,
  drainage: DrainageName,
  groundCover: number = USUAL_GROUND_COVER,
): Topsoil {
  const water = SOIL_WATER[texture]
  const coarse = texture === 'sand' || texture === 'loamy-sand'
  const depthM = coarse ? DEPTH_COARSE_M : DEPTH_FINE_M
  const cover = Math.min(1, Math.max(0, groundCover))
  const capacityMm = 1000 * water.fieldCapacity * depthM
  const tewMm = evaporableWaterMm(water.fieldCapacity, water.wiltingPoint, depthM)
  const saturatedMm = -1000 * (water.porosity - water.fieldCapacity) * depthM
  return {
    capacityMm,
    perCapacity: 1 / capacityMm,
    rewMm: water.rewMm,
    tewMm,
    perSecondStage: 1 / (tewMm - water.rewMm),
    saturatedMm,
    floodedMm: saturatedMm - HOLLOWS_MM,
    drainKeep: Math.exp(-1 / (water.drainTimeH * DRAINAGE_DELAY[drainage])),
    evaporationRatio: KC_MAX * (1 - HELD_BACK_BY_COVER * cover),
  }
}

/**
 * Lets rain into the layer; what finds no room runs off.
 *
 * @param depletionMm [mm]. @param rainMm rain that reaches the soil [mm], not negative. @param soil the layer.
 * @returns depletion [mm], never below `soil.floodedMm`.
 *
 * FAO-56 eq. 77, rain term. Checked: water is conserved (property test).
 */
export const wetTopsoil = (depletionMm: number, rainMm: number, soil: Topsoil): number =>
  Math.max(depletionMm - rainMm, soil.floodedMm)

/**
 * Drains an hour's share of the water above field capacity.
 *
 * @param depletionMm [mm]. @param soil the layer. @returns depletion [mm]; unchanged at or below field capacity.
 *
 * Exponential decay of the excess, the form of SWAT (Neitsch et al. 2011, eq. 2:3.2.2, from memory).
 */
export const drainTopsoil = (depletionMm: number, soil: Topsoil): number =>
  depletionMm < 0 ? depletionMm * soil.drainKeep : depletionMm

/**
 * Evaporates from the layer: at the full rate down to REW, then ever slower.
 *
 * @param depletionMm [mm]. @param etMm reference evaporation in the step [mm]; negative (dew) counts as none.
 * @param soil the layer.
 * @returns depletion [mm], not above `soil.tewMm` unless it started there.
 *
 * FAO-56 eq. 71-77 solved within the step, not with Kr held as at its start: stage 1 is linear up to REW, the rest of
 * the step is dD/dt = E Kr(D), whose exponential is replaced by 1 / (1 + x + x2/2 + x3/6): off by less than 0.00001 of
 * the water left for an hour of 1 mm, by less than 0.004 for a whole day of 7 mm. Checked: tests/truth/soil.ts.
 */
export function dryTopsoil(depletionMm: number, etMm: number, soil: Topsoil): number {
  const demandMm = etMm < 0 ? 0 : etMm * soil.evaporationRatio
  const roomMm = soil.rewMm - depletionMm
  if (demandMm <= roomMm) return depletionMm + demandMm // stage 1 throughout
  const startMm = roomMm > 0 ? soil.rewMm : depletionMm
  if (startMm >= soil.tewMm) return startMm
  const x = (roomMm > 0 ? demandMm - roomMm : demandMm) * soil.perSecondStage
  return soil.tewMm - (soil.tewMm - startMm) / (1 + x * (1 + x * (0.5 + x * (1 / 6))))
}

/**
 * Moves the topsoil water of a field on by one hour.
 *
 * @param depletionMm water missing below field capacity [mm]; negative = above it. @param rainMm rain of the hour that
 * enters or stands on the soil [mm] (after runoff, see runoff.ts). @param etMm reference evaporation of the hour [mm].
 * @param soil the layer, from `topsoilOf`.
 * @returns depletion an hour later [mm], `soil.floodedMm` to `soil.tewMm`; NaN if any input is NaN.
 *
 * Rain first, then drainage, then evaporation. Nothing is lost but to runoff, drainage and the air (property test).
 */
export const stepTopsoil = (depletionMm: number, rainMm: number, etMm: number, soil: Topsoil): number =>
  dryTopsoil(drainTopsoil(wetTopsoil(depletionMm, rainMm, soil), soil), etMm, soil)

/**
 * Water in the layer over what it holds at field capacity.
 *
 * @param depletionMm [mm]. @param soil the layer. @returns ratio [-]; 1 at field capacity, above it when wetter.
 */
export const relativeTopsoilWater = (depletionMm: number, soil: Topsoil): number =>
  (soil.capacityMm - depletionMm) * soil.perCapacity
