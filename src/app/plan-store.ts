/** Every plan that was published, with the reason why it took the place of the one before. Implemented by `edges/storage`. */
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'

export interface PlanStore {
  last(farmId: string): Promise<PlanRecord | undefined>
  /** Adds a plan after the last; a second of the same moment is left out. */
  keep(farmId: string, record: PlanRecord): Promise<void>
  /** Newest first. @param before only plans published before this moment, hours since the epoch. */
  history(farmId: string, most: number, before?: number): Promise<readonly PlanRecord[]>
}
