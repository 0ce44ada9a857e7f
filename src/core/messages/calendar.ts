/** What a calendar entry says, before any word is chosen. */
import type { CropName } from '#core/science/crop.ts'

export interface SaidEntry {
  readonly partName: string
  readonly crop: CropName
  /** `run`: set to cut today. `pin`: the planner fixed it for that day. `window`: the next time it is likely fit. */
  readonly kind: 'run' | 'pin' | 'window'
  readonly startMoistureWb: number
  readonly endMoistureWb: number
  /** Chance that the window holds, 0-1; NaN for a pin on a day without one. */
  readonly chance: number
}
