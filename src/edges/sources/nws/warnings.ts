/** Active alerts to warnings in force. The issuer's words are passed on unaltered. */

import { SourceUnreadable } from '#app/failures.ts'
import {
  WARNING_CERTAINTIES,
  WARNING_MESSAGE_TYPES,
  WARNING_SEVERITIES,
  WARNING_STATUSES,
  WARNING_URGENCIES,
  type Warning,
} from '#app/ports.ts'
import { inForce } from '#app/warnings.ts'
import { epochHoursOfIso } from '#edges/sources/iso-time.ts'
import type { Told } from '#edges/sources/reading.ts'
import type { NwsAlert } from './schema.ts'

/** @returns what is in force now. */
export function warningsInForce(alerts: readonly NwsAlert[], nowEpochH: number, told: Told): readonly Warning[] {
  return inForce(
    alerts.map((alert) => warningOf(alert, told)),
    nowEpochH,
  )
}

function warningOf(alert: NwsAlert, told: Told): Warning {
  const time = (name: string, text: string): number => {
    const epochH = epochHoursOfIso(text)
    if (Number.isNaN(epochH)) throw new SourceUnreadable(`a warning ${name} at "${text.slice(0, 60)}"`, told)
    return epochH
  }
  const sentAtEpochH = time('was sent', alert.sent)
  return {
    id: alert.id,
    sender: alert.sender ?? '',
    senderName: alert.senderName ?? '',
    // A message whose standing or kind is new to us is taken seriously rather than left out.
    status: oneOf(WARNING_STATUSES, alert.status, 'Actual'),
    messageType: oneOf(WARNING_MESSAGE_TYPES, alert.messageType, 'Alert'),
    replaces: (alert.references ?? []).map(({ identifier }) => identifier),
    event: alert.event,
    category: alert.category ?? '',
    severity: oneOf(WARNING_SEVERITIES, alert.severity, 'Unknown'),
    certainty: oneOf(WARNING_CERTAINTIES, alert.certainty, 'Unknown'),
    urgency: oneOf(WARNING_URGENCIES, alert.urgency, 'Unknown'),
    areaDesc: alert.areaDesc ?? '',
    sentAtEpochH,
    effectiveAtEpochH: given(alert.effective) ? time('takes effect', alert.effective) : sentAtEpochH,
    expiresAtEpochH: time('expires', alert.expires),
    ...(given(alert.onset) ? { onsetAtEpochH: time('sets in', alert.onset) } : {}),
    ...(given(alert.ends) ? { endsAtEpochH: time('ends', alert.ends) } : {}),
    ...(given(alert.response) ? { response: alert.response } : {}),
    ...(given(alert.headline) ? { headline: alert.headline } : {}),
    ...(given(alert.description) ? { description: alert.description } : {}),
    ...(given(alert.instruction) ? { instruction: alert.instruction } : {}),
  }
}

const given = (text: string | null | undefined): text is string => text !== null && text !== undefined && text !== ''

function oneOf<T extends string>(known: readonly T[], value: string | null | undefined, otherwise: T): T {
  return known.find((code) => code === value) ?? otherwise
}
