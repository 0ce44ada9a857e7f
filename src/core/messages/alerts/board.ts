/** All alerts of a farm together: the board is kept between two looks at the day. */
import type { Alert, AlertReading } from './alert.ts'
import { ALERT_KINDS, type AlertKind } from './alert.ts'
import { QUIET, type Standing, step } from './machine.ts'
import { ALERT_RULES } from './rules.ts'
import type { ToldDay } from './told.ts'

export interface AlertBoard {
  /** What the crew was told of the day last. */
  readonly told: ToldDay | undefined
  /** By `kind/subject`; one that is quiet for long is left out. */
  readonly standings: Readonly<Record<string, Standing>>
}

export const EMPTY_BOARD: AlertBoard = { told: undefined, standings: {} }

const keyOf = ({ kind, subject }: Pick<AlertReading, 'kind' | 'subject'>): string => `${kind}/${subject}`

/** The longest rest: a quiet one may be forgotten after it [h]. */
const FORGET_H = Math.max(...Object.values(ALERT_RULES).map(({ restH }) => restH))

/**
 * @param version number of this look at the board; it names the alerts that start now, so that two instances that look
 * at the same board name them alike.
 * @param complete kinds whose readings are all there: what is on and no longer among them is over.
 */
export function stepBoard(
  board: AlertBoard,
  readings: readonly AlertReading[],
  nowEpochH: number,
  version: number,
  complete: readonly AlertKind[],
): { readonly board: AlertBoard; readonly alerts: readonly Alert[] } {
  const standings: Record<string, Standing> = {}
  const alerts: Alert[] = []
  const inOrder = [...readings, ...vanished(board, readings, complete)].toSorted(
    (a, b) => ALERT_KINDS.indexOf(a.kind) - ALERT_KINDS.indexOf(b.kind),
  )
  for (const reading of inOrder) {
    const key = keyOf(reading)
    const before = board.standings[key] ?? QUIET
    const { standing, event } = step(before, reading, ALERT_RULES[reading.kind], nowEpochH, `${key}/${version}`)
    if (standing !== QUIET) standings[key] = standing
    if (event === 'start' && standing.phase === 'on') {
      const { id, said, sinceEpochH } = standing
      alerts.push({ phase: 'start', id, sinceEpochH, atEpochH: nowEpochH, said })
    } else if (event === 'end' && (before.phase === 'on' || before.phase === 'clearing')) {
      const { id, sinceEpochH, said } = before
      alerts.push({ phase: 'end', id, sinceEpochH, atEpochH: nowEpochH, said })
    }
  }
  // What was not looked at this time stays as it was, unless it has been quiet for long.
  for (const [key, standing] of Object.entries(board.standings)) {
    if (standings[key]) continue
    if (standing.phase === 'quiet' && nowEpochH - standing.sinceEpochH > FORGET_H) continue
    if (!inOrder.some((reading) => keyOf(reading) === key)) standings[key] = standing
  }
  return { board: { told: board.told, standings }, alerts }
}

/** Readings of what was on and is not among the readings any more. */
function vanished(board: AlertBoard, readings: readonly AlertReading[], complete: readonly AlertKind[]) {
  const there = new Set(readings.map(keyOf))
  return Object.entries(board.standings).flatMap(([key, standing]): AlertReading[] => {
    const kind = complete.find((known) => key.startsWith(`${known}/`))
    if (!kind || there.has(key) || !('said' in standing)) return []
    return [{ kind, subject: key.slice(kind.length + 1), evidence: 0, mayStart: false, said: standing.said }]
  })
}
