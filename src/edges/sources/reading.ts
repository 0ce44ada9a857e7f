/** What all readers of service bodies share: the check against a schema, the check of the time of issue. */
import type { z } from 'zod'
import { SourceTooOld, SourceUnreadable } from '#app/failures.ts'
import type { ForecastChances } from '#app/ports.ts'
import type { Weather } from '#core/units/weather.ts'

export interface Told {
  readonly source: string
  /** Address of the body. */
  readonly where: string
}

/** What a service's body becomes. */
export interface ForecastParts {
  readonly weather: Weather
  readonly chances: ForecastChances
}

export function checked<T>(schema: z.ZodType<T>, json: unknown, { source, where }: Told): T {
  const result = schema.safeParse(json)
  if (result.success) return result.data
  const issue = result.error.issues[0]
  const path = issue?.path.join('.') ?? ''
  throw new SourceUnreadable(
    `its answer is not in the known form${path === '' ? '' : ` at "${path}"`}: ${issue?.message}`,
    {
      source,
      where,
      cause: result.error,
    },
  )
}

/** Services renew their forecasts at least twice a day; one from the day before yesterday is a fault at their end. */
const OLDEST_ISSUE_H = 36
/** Clocks may differ a little. */
const CLOCK_SLACK_H = 1

/** Refuses a forecast that was issued too long ago, or in the future. */
export function checkIssued(issuedAtEpochH: number, nowEpochH: number, told: Told): number {
  const ageH = nowEpochH - issuedAtEpochH
  if (ageH > OLDEST_ISSUE_H) throw new SourceTooOld(ageH, OLDEST_ISSUE_H, told)
  if (!(ageH >= -CLOCK_SLACK_H))
    throw new SourceUnreadable('says that its forecast was issued in the future, or not when', {
      ...told,
      cure: 'Nothing of it was used. Check the clock of this machine.',
      why: 'issued-when',
    })
  return issuedAtEpochH
}
