/**
 * No more than so many messages an hour for one person: what is over is held and folded into the next one, and what is
 * over before it was told is never told. A fire stop or an official warning goes out at once, whatever the hour.
 */
import { type Alert, isUrgent } from './alert.ts'

export interface PersonPost {
  /** When messages went out to this person within the last hour. */
  readonly sentEpochH: readonly number[]
  readonly held: readonly Alert[]
}

export const NO_POST: PersonPost = { sentEpochH: [], held: [] }

/** Of this project; alarm-management practice speaks of about six an hour for one who does nothing else. */
export const MOST_PER_HOUR = 3

export interface Admitted {
  readonly post: PersonPost
  /** What one message now tells, the most pressing first; empty = no message. */
  readonly tell: readonly Alert[]
}

/**
 * @param incoming what has just started or ended. @param stillOn ids of the alerts that are on now.
 * @param quiet whether these are the person's quiet hours.
 */
export function admit(
  post: PersonPost,
  incoming: readonly Alert[],
  stillOn: ReadonlySet<string>,
  nowEpochH: number,
  quiet: boolean,
): Admitted {
  // A clock set back leaves times of the future: they count as just now.
  const sentEpochH = post.sentEpochH.filter((at) => nowEpochH - at < 1).map((at) => Math.min(at, nowEpochH))
  const pending = fold([...post.held, ...incoming], stillOn)
  const urgent = pending.filter(startsUrgently)
  const full = sentEpochH.length >= MOST_PER_HOUR
  const tell = quiet || full ? urgent : pending
  if (tell.length === 0) return { post: { sentEpochH, held: pending }, tell: [] }
  const held = pending.filter((alert) => !tell.includes(alert))
  return { post: { sentEpochH: [...sentEpochH, nowEpochH], held }, tell: mostPressingFirst(tell) }
}

/** The end of a fire stop wakes nobody. */
const startsUrgently = (alert: Alert): boolean => alert.phase === 'start' && isUrgent(alert)

const mostPressingFirst = (alerts: readonly Alert[]): Alert[] =>
  alerts.toSorted((a, b) => Number(startsUrgently(b)) - Number(startsUrgently(a)))

/** A start that is over already leaves nothing to tell, its end neither. */
function fold(pending: readonly Alert[], stillOn: ReadonlySet<string>): Alert[] {
  const startsHeld = new Set(pending.filter(({ phase }) => phase === 'start').map(({ id }) => id))
  return pending.filter(({ phase, id }) => (phase === 'start' ? stillOn.has(id) : !startsHeld.has(id)))
}
