/** What must survive a restart so that a day is compared with the one before. */
import type { PublishedDay } from '#core/messages/published.ts'

export interface DayStore {
  /** The newest published day before a date. */
  publishedBefore(farmId: string, date: Temporal.PlainDate): Promise<PublishedDay | undefined>
  /** Keeps a day; a second one of the same date takes its place. */
  keepPublished(farmId: string, day: PublishedDay): Promise<void>
  close(): Promise<void>
}
