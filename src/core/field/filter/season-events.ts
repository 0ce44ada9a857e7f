/** What was seen in the season changes what is believed before any reading is weighed. */
import type { FieldEvent } from '#core/field/event.ts'
import type { FieldPart } from '#core/field/parts.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { HOURS_PER_DAY, zonedAt } from '#core/units/time.ts'

/** Somebody looked at the part and may be a day or two off: as for a date in the farm file. Assumption [d]. */
const SEEN_SD_DAYS = 2
/** How sharply green is told from mature by eye; choice [h]. */
const GREEN_BLUR_H = 24
/** How far off the days of re-greening may be, as share of them; choice. */
export const REGREENED_SD_SHARE = 0.3

export const eventsOf = <K extends FieldEvent['kind']>(
  events: readonly FieldEvent[],
  key: string,
  kind: K,
): Extract<FieldEvent, { kind: K }>[] =>
  events.filter((event): event is Extract<FieldEvent, { kind: K }> => event.kind === kind && event.partKey === key)

/**
 * Maturity of the main stand as estimated, or as someone saw it: in the part itself, else in the main stand of its field.
 * @returns an estimate for the main stand; that of a patch comes `laterDays` after.
 */
export function seenMaturity(
  part: FieldPart,
  estimate: MaturityEstimate,
  events: readonly FieldEvent[],
  timeZone: string,
): MaturityEstimate {
  const own = eventsOf(events, part.key, 'maturity-seen')[0]
  const seen = own ?? eventsOf(events, part.field.id, 'maturity-seen')[0]
  if (!seen) return estimate
  const matureOn = zonedAt(seen.atEpochH, timeZone).toPlainDate()
  const epochDay = Temporal.PlainDate.from('1970-01-01').until(matureOn).days + 0.5
  const later = own && part.patch ? part.patch.laterDays : 0
  return {
    ...estimate,
    matureOn: matureOn.subtract({ days: Math.round(later) }),
    matureEpochDay: epochDay - later,
    sdDays: SEEN_SD_DAYS,
    basis: 'seen mature in the field',
    remarks: [],
  }
}

/** Log likelihood of "not yet mature" seen at a time, for a part that matures then: logistic about the moment seen. */
export const logStillGreen = (matureEpochH: number, seenEpochH: number): number =>
  -Math.log1p(Math.exp((seenEpochH - matureEpochH) / GREEN_BLUR_H))

/** Delays of a part in order of time: from each moment on, the hours by which it ripens later than it began. */
export function delaysOf(
  key: string,
  events: readonly FieldEvent[],
): readonly { readonly fromEpochH: number; readonly hours: number }[] {
  let hours = 0
  return eventsOf(events, key, 'regreened')
    .toSorted((a, b) => a.atEpochH - b.atEpochH)
    .map(({ atEpochH, laterDays }) => {
      hours += laterDays * HOURS_PER_DAY
      return { fromEpochH: atEpochH, hours }
    })
}
