/** What must be kept of alerts between two looks, so that each is told once. */
import type { AlertBoard } from '#core/messages/alerts/board.ts'
import { EMPTY_BOARD } from '#core/messages/alerts/board.ts'
import type { PersonPost } from '#core/messages/alerts/rate.ts'
import type { Parcel } from './outbox-port.ts'

export interface KeptAlerts {
  readonly board: AlertBoard
  /** By person id. */
  readonly posts: Readonly<Record<string, PersonPost>>
  /** Fire stops told that nobody has acknowledged yet. */
  readonly awaited: readonly { readonly id: string; readonly toldEpochH: number }[]
}

export const NOTHING_KEPT: KeptAlerts = { board: EMPTY_BOARD, posts: {}, awaited: [] }

export interface AlertStore {
  /** @returns version 0 and `NOTHING_KEPT` for a farm that has none yet. */
  load(farmId: string): Promise<{ readonly version: number; readonly kept: KeptAlerts }>
  /**
   * Keeps the next version and posts its parcels, both or neither; nothing when another instance was first.
   * @param version the one that was loaded. @returns whether it was kept.
   */
  save(farmId: string, version: number, kept: KeptAlerts, parcels: readonly Parcel[]): Promise<boolean>
  /** @returns false when this person had done so before. */
  acknowledge(farmId: string, alert: string, personId: string, atEpochH: number): Promise<boolean>
  isAcknowledged(farmId: string, alert: string): Promise<boolean>
}
