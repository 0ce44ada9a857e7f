/** What must survive a restart so that a day is told once, and compared with the one before. */
import type { PublishedDay } from '#core/messages/published.ts'

export interface DayStore {
  /** The newest published day before a date. */
  publishedBefore(farmId: string, date: Temporal.PlainDate): Promise<PublishedDay | undefined>
  /** Keeps a day; a second one of the same date takes its place. */
  keepPublished(farmId: string, day: PublishedDay): Promise<void>
  /**
   * Claims the sending of a message; only one caller ever gets `true` for a key.
   * @param key farm, kind, person and local date.
   */
  claim(key: string, atEpochH: number): Promise<boolean>
  /** Notes that a claimed message was taken by the server; a failed one is given back so that it can be tried again. */
  settle(key: string, outcome: 'sent' | 'failed', atEpochH: number): Promise<void>
  close(): Promise<void>
}
