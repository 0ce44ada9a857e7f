/** One alert's state machine: two thresholds, a delay before it starts, a least time on, a delay before it ends, a rest. */
import type { AlertReading, SaidAlert } from './alert.ts'
import type { AlertRule } from './rules.ts'

export type Standing =
  | { readonly phase: 'quiet'; readonly sinceEpochH: number }
  | { readonly phase: 'rising'; readonly sinceEpochH: number }
  | { readonly phase: 'on'; readonly id: string; readonly sinceEpochH: number; readonly said: SaidAlert }
  | {
      readonly phase: 'clearing'
      readonly id: string
      readonly sinceEpochH: number
      readonly said: SaidAlert
      readonly clearSinceEpochH: number
    }

export const QUIET: Standing = { phase: 'quiet', sinceEpochH: Number.NEGATIVE_INFINITY }

export interface Step {
  readonly standing: Standing
  readonly event: 'start' | 'end' | 'lapse' | undefined
}

/**
 * @param standing where it stood. @param reading how bad it looks now. @param rule its figures.
 * @param nowEpochH now, hours since the epoch; a clock set back counts as no time gone.
 * @param id what the alert is called if it starts now.
 * @returns where it stands now, and what happened: `lapse` is an end that nobody needs to be told.
 */
export function step(standing: Standing, reading: AlertReading, rule: AlertRule, nowEpochH: number, id: string): Step {
  const { evidence } = reading
  if (Number.isNaN(evidence)) return { standing, event: undefined }
  const gone = Math.max(0, nowEpochH - standing.sinceEpochH)
  const bad = evidence >= rule.on && reading.mayStart
  switch (standing.phase) {
    case 'quiet':
      if (!bad || gone < rule.restH) return { standing, event: undefined }
      return rule.confirmH > 0
        ? { standing: { phase: 'rising', sinceEpochH: nowEpochH }, event: undefined }
        : start(reading, nowEpochH, id)
    case 'rising':
      if (!bad) return { standing: QUIET, event: undefined }
      return gone >= rule.confirmH ? start(reading, nowEpochH, id) : { standing, event: undefined }
    case 'on':
    case 'clearing':
      return whileOn(standing, evidence, rule, nowEpochH, gone)
  }
}

const start = ({ said }: AlertReading, sinceEpochH: number, id: string): Step => ({
  standing: { phase: 'on', id, sinceEpochH, said },
  event: 'start',
})

function whileOn(
  standing: Standing & { readonly phase: 'on' | 'clearing' },
  evidence: number,
  rule: AlertRule,
  nowEpochH: number,
  gone: number,
): Step {
  const { id, sinceEpochH, said } = standing
  const quiet: Standing = { phase: 'quiet', sinceEpochH: nowEpochH }
  if (evidence === Number.NEGATIVE_INFINITY && gone >= rule.holdH) return { standing: quiet, event: 'lapse' }
  if (evidence >= rule.off) return { standing: { phase: 'on', id, sinceEpochH, said }, event: undefined }
  const clearSinceEpochH = standing.phase === 'clearing' ? Math.min(standing.clearSinceEpochH, nowEpochH) : nowEpochH
  if (gone >= rule.holdH && nowEpochH - clearSinceEpochH >= rule.clearH) {
    return { standing: quiet, event: rule.tellsEnd ? 'end' : 'lapse' }
  }
  return { standing: { phase: 'clearing', id, sinceEpochH, said, clearSinceEpochH }, event: undefined }
}
