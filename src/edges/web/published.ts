/** The plans published, in pages, newest first. */
import type { PlanDesk } from '#app/plan-desk.ts'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'

export interface PublishedPage {
  readonly records: readonly PlanRecord[]
  /** Moment before which older ones were published; absent on the last page. */
  readonly olderThan: number | undefined
}

export async function publishedPage(
  desk: Pick<PlanDesk, 'history'>,
  most: number,
  beforeEpochH: number | undefined,
): Promise<PublishedPage> {
  // One more than asked for tells whether there is another page.
  const records = await desk.history(most + 1, beforeEpochH)
  const olderThan = records.length > most ? records[most - 1]?.publishedAtEpochH : undefined
  return { records: records.slice(0, most), olderThan }
}
