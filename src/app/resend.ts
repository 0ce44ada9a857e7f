/** A message that did not get through, put back into the queue. */
import type { OutboxStore } from './outbox-port.ts'

/** Older ones are not sent again. */
const MOST_SEARCHED = 1000
/** What is sent again has so long to get through [h]. */
const RESENT_SERVES_H = 4

/** @returns whether there was one of this farm that had failed. */
export async function resendMessage(
  farmId: string,
  key: string,
  outbox: Pick<OutboxStore, 'recent' | 'resend'>,
  nowEpochH: number,
): Promise<boolean> {
  const isOurs = (await outbox.recent(farmId, MOST_SEARCHED)).some((parcel) => parcel.key === key)
  return isOurs && (await outbox.resend(key, nowEpochH, nowEpochH + RESENT_SERVES_H))
}
