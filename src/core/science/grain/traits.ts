import type { CropName } from '#core/science/crop.ts'

/** How the standing grain of a crop develops, dries and exchanges water with its surroundings. */
export interface GrainTraits {
  /** Warming of pod, head or ear above the air in sunlight of 800 W/m2 [deg C]. */
  readonly podWarmingC: number
  /** Slowing of exchange in the cold, activation temperature [K]. */
  readonly activationK: number
  /** Equilibrium of uptake lies below that of drying by this [points]. */
  readonly hysteresisWb: number
  /** Speed of uptake from humid air over that of drying [-]. */
  readonly uptakeShare: number
  /** Moisture towards which grain in contact with water moves [% wet basis]. */
  readonly wetBoundaryWb: number
  /** Speed of uptake from water over that of drying [-]. */
  readonly wetUptakeShare: number
  /** Loss of green grain per water the air could take from grass [points per mm]. */
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

const POD = {
  podWarmingC: 6,
  activationK: 4500,
  hysteresisWb: 1,
  uptakeShare: 1,
  wetBoundaryWb: 35,
  wetUptakeShare: 0.25,
}
const EAR = {
  podWarmingC: 4,
  activationK: 4500,
  hysteresisWb: 1,
  uptakeShare: 1,
  wetBoundaryWb: 35,
  wetUptakeShare: 0.4,
}

export const GRAIN_TRAITS: { readonly [C in CropName]: GrainTraits } = {
  soybean: { ...POD, dryingPointsPerMm: 1, greenWb: 28, ripeWb: 18, fillingPointsPerDay: 1.1, youngestWb: 80 },
  corn: {
    ...EAR,
    podWarmingC: 2,
    wetUptakeShare: 0.1,
    dryingPointsPerMm: 0.18,
    greenWb: 20,
    ripeWb: 15,
    fillingPointsPerDay: 1,
    youngestWb: 85,
  },
  'wheat-soft': { ...EAR, dryingPointsPerMm: 0.4, greenWb: 20, ripeWb: 16, fillingPointsPerDay: 1.3, youngestWb: 75 },
  'wheat-hard': { ...EAR, dryingPointsPerMm: 0.4, greenWb: 20, ripeWb: 16, fillingPointsPerDay: 1.3, youngestWb: 75 },
  'wheat-durum': { ...EAR, dryingPointsPerMm: 0.4, greenWb: 20, ripeWb: 16, fillingPointsPerDay: 1.3, youngestWb: 75 },
  sorghum: { ...EAR, dryingPointsPerMm: 0.25, greenWb: 20, ripeWb: 15, fillingPointsPerDay: 1, youngestWb: 80 },
  barley: { ...EAR, dryingPointsPerMm: 0.4, greenWb: 20, ripeWb: 16, fillingPointsPerDay: 1.3, youngestWb: 75 },
  oats: { ...EAR, dryingPointsPerMm: 0.4, greenWb: 20, ripeWb: 16, fillingPointsPerDay: 1.3, youngestWb: 75 },
  canola: { ...POD, dryingPointsPerMm: 0.6, greenWb: 20, ripeWb: 12, fillingPointsPerDay: 1.5, youngestWb: 80 },
  sunflower: { ...EAR, dryingPointsPerMm: 0.5, greenWb: 20, ripeWb: 12, fillingPointsPerDay: 1.2, youngestWb: 80 },
}
