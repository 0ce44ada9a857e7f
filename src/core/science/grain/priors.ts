import type { CropName } from '#core/science/crop.ts'

export interface Spread {
  readonly mean: number
  readonly sd: number
}

/** What is known of a field's grain before anything is measured in it; draw particles from these. */
export interface GrainPrior {
  /** [% wet basis], normal. */
  readonly moistureAtMaturityWb: Spread
  /** [-], log-normal: `sd` is that of the natural logarithm. */
  readonly dryingFactor: Spread
  /** [h], log-normal about the mean: `sd` is that of the natural logarithm. */
  readonly exchangeHours: Spread
  /** [points], normal. */
  readonly equilibriumOffsetWb: Spread
}

const cereal = (moistureAtMaturityWb: number, exchangeHours: number): GrainPrior => ({
  moistureAtMaturityWb: { mean: moistureAtMaturityWb, sd: 3 },
  dryingFactor: { mean: 1, sd: 0.25 },
  exchangeHours: { mean: exchangeHours, sd: 0.35 },
  equilibriumOffsetWb: { mean: 0, sd: 0.8 },
})

export const GRAIN_PRIORS: { readonly [C in CropName]: GrainPrior } = {
  soybean: {
    moistureAtMaturityWb: { mean: 57, sd: 4 },
    dryingFactor: { mean: 1, sd: 0.2 },
    exchangeHours: { mean: 12, sd: 0.3 },
    equilibriumOffsetWb: { mean: 0, sd: 0.8 },
  },
  corn: {
    moistureAtMaturityWb: { mean: 33, sd: 4 },
    dryingFactor: { mean: 1, sd: 0.25 },
    exchangeHours: { mean: 60, sd: 0.4 },
    equilibriumOffsetWb: { mean: 0, sd: 0.8 },
  },
  'wheat-soft': cereal(37, 10),
  'wheat-hard': cereal(37, 10),
  'wheat-durum': cereal(37, 10),
  sorghum: cereal(32, 20),
  barley: cereal(37, 10),
  oats: cereal(37, 10),
  canola: cereal(38, 8),
  sunflower: cereal(37, 20),
}
