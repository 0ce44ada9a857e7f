import type { CropName } from '#core/science/crop.ts'

/** How the standing grain of a crop develops, dries and exchanges water with its surroundings. */
export interface GrainTraits {
  /** Warming of pod, head or ear above the air in sunlight of 800 W/m2 [deg C]. */
  readonly podWarmingC: number
  /** Slowing of exchange in the cold, activation temperature [K]. */
  readonly activationK: number
  /** Equilibrium of uptake lies below that of drying by this [points]. */
  readonly hysteresisWb: number
  /** Speed of uptake, from humid air or water, over that of drying [-]. */
  readonly uptakeShare: number
  /** Moisture towards which grain in contact with water moves [% wet basis]. */
  readonly wetBoundaryWb: number
  /** Loss of green grain per reference evapotranspiration [points per mm]. */
  readonly dryingPointsPerMm: number
  /** At and above this moisture the plant's hold on the water limits drying fully [% wet basis]. */
  readonly greenWb: number
  /** At and below this moisture it no longer does [% wet basis]. */
  readonly ripeWb: number
  /** Fall of moisture before physiological maturity [points per day]. */
  readonly fillingPointsPerDay: number
  /** Moisture of the youngest seed [% wet basis]. */
  readonly youngestWb: number
}

/**
 * Exchange of ripe soybeans, found by random search over seven constants together with `exchangeHours` on the 28
 * autumns of tests/support/champaign.ts: rain-free afternoons near 11 % (9 to 14), next dawn 3 points wetter, a rise
 * of about 6 points in a day of rain, 14.5 % after a known night without dew (tests/truth/grain-swing.ts).
 *
 * How well known: together well, one by one poorly. All facts are met about equally along a valley from warming 3.5
 * deg C, no slowing in the cold and a time constant of 11 h to warming 9 deg C, none and 14 h; and with slowing of 0 to
 * 1500 K. What is firm: without warming afternoons are 1.3 points too wet; with the slowing of bare kernels in thin
 * layers (4400-5100 K, O'Callaghan et al. 1971, from memory) 1.1 points too dry; with a boundary of 30 % one afternoon
 * in ten stands above 22 %; time constants of 9 and 20 h give swings of 4.9 and 1.9 points. Warming of 6.5 deg C agrees
 * with the heat balance of a dry pod (a 1 cm body in 1 m/s wind that absorbs half of 0.7 x 800 W/m2). Hysteresis:
 * 0.5-1.5 points (from memory), barely felt in the search. The checks use the same autumns as the search.
 */
const POD = { podWarmingC: 6.5, activationK: 1200, hysteresisWb: 0.8, uptakeShare: 0.95, wetBoundaryWb: 21.5 }
/** Ears and heads: taken over from the pod, wetter in rain as they stand open. No fact fixes them. */
const EAR = { ...POD, podWarmingC: 5, wetBoundaryWb: 23 }
/** The husk keeps sun and rain from the kernels. No fact fixes these. */
const HUSKED_EAR = { ...EAR, podWarmingC: 2, uptakeShare: 0.3 }
/** Oil takes up no water: oilseeds of half oil reach less in rain. No fact fixes it. */
const OILY_WET_BOUNDARY_WB = 18

/** Wheat: 1.5-2.5 points a day down to 18 % (from memory); at 4.5 mm a day this gives 1.8. Filling: from memory. */
const SMALL_GRAIN: GrainTraits = {
  ...EAR,
  dryingPointsPerMm: 0.4,
  greenWb: 28,
  ripeWb: 20,
  fillingPointsPerDay: 1.3,
  youngestWb: 75,
}

/**
 * Traits by crop.
 *
 * Soybean drying: 3.2 points a day after maturity in the first half of September, 58 to 12 % in about 15 days (Iowa
 * State and Kansas State Universities); the thresholds are chosen so that
 * ripe beans wetted by rain are not held back as green ones are: nothing is remembered but the moisture.
 * Soybean filling: R6 75-80 % to R7 50-65 %, about 18 days apart (from memory).
 * Corn drying: 4 points per inch of potential evapotranspiration (Hellevang, NDSU) is 0.157 per mm of HIS measure; the
 * monthly rates of Iowa and Ohio State ask for about 0.22 per mm of grass reference evapotranspiration in Illinois.
 * Corn filling: 85 % at R2 to 35 % at R6 (Abendroth, Iowa State) in about 50 days.
 * Sorghum, canola, sunflower: order of magnitude only, no published rate found.
 */
export const GRAIN_TRAITS: { readonly [C in CropName]: GrainTraits } = {
  soybean: { ...POD, dryingPointsPerMm: 0.95, greenWb: 30, ripeWb: 22, fillingPointsPerDay: 1.1, youngestWb: 80 },
  corn: { ...HUSKED_EAR, dryingPointsPerMm: 0.22, greenWb: 20, ripeWb: 15, fillingPointsPerDay: 1, youngestWb: 85 },
  'wheat-soft': SMALL_GRAIN,
  'wheat-hard': SMALL_GRAIN,
  'wheat-durum': SMALL_GRAIN,
  sorghum: { ...EAR, dryingPointsPerMm: 0.25, greenWb: 26, ripeWb: 20, fillingPointsPerDay: 1, youngestWb: 80 },
  barley: SMALL_GRAIN,
  oats: SMALL_GRAIN,
  canola: {
    ...POD,
    wetBoundaryWb: OILY_WET_BOUNDARY_WB,
    dryingPointsPerMm: 0.6,
    greenWb: 26,
    ripeWb: 18,
    fillingPointsPerDay: 1.5,
    youngestWb: 80,
  },
  sunflower: {
    ...EAR,
    wetBoundaryWb: OILY_WET_BOUNDARY_WB,
    dryingPointsPerMm: 0.35,
    greenWb: 26,
    ripeWb: 18,
    fillingPointsPerDay: 1.2,
    youngestWb: 80,
  },
}
