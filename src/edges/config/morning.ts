/** The `morning` section of the farm file: when the messages of the day come, and how old their weather may be. */
import { z } from 'zod'
import type { MorningRule } from '#core/operation/farm.ts'
import { minuteOf, timeOfDay } from './common.ts'

/** A fixed hour; where the message goes by the first run instead, the hours between which it comes. */
const USUAL = { fixed: '05:30', earliest: '04:00', latest: '08:00' } as const

interface Times {
  readonly at?: string | undefined
  readonly before_window?: number | undefined
  readonly earliest?: string | undefined
}

const latestOf = ({ at, before_window: lead }: Times): number =>
  minuteOf(at ?? (lead === undefined ? USUAL.fixed : USUAL.latest))

const earliestOf = (entry: Times): number =>
  entry.before_window === undefined ? latestOf(entry) : minuteOf(entry.earliest ?? USUAL.earliest)

export const morningSchema = z
  .strictObject({
    at: timeOfDay(
      'Local time of the morning message, left out 05:30; with before_window the latest, left out 08:00.',
    ).optional(),
    before_window: z
      .number()
      .min(15)
      .max(720)
      .optional()
      .describe(
        'The message comes so many minutes before the first run of the day, 15 to 720; left out, it comes at `at`.',
      ),
    earliest: timeOfDay('With before_window, the message never comes before this; left out, 04:00.').optional(),
    evening: timeOfDay('Local time of an outlook on tomorrow for the planner; left out, there is none.').optional(),
    weather_age_limit: z
      .number()
      .min(1)
      .max(72)
      .default(12)
      .describe('Weather older than this many hours names no field, 1 to 72.'),
  })
  .refine(({ before_window: lead, earliest }) => lead !== undefined || earliest === undefined, {
    path: ['earliest'],
    error: 'has no use without before_window',
    params: { cure: 'Add before_window, such as before_window: 120, or take earliest out.' },
  })
  .refine((entry) => !(earliestOf(entry) > latestOf(entry)), {
    path: ['earliest'],
    error: 'is later than the latest time of the message',
    params: { cure: 'Put an earlier time in earliest or a later one in at.' },
  })
  .prefault({})
  .describe('The morning message: at, before_window, earliest, evening, weather_age_limit.')

export type MorningEntry = z.infer<typeof morningSchema>

export function toMorning(entry: MorningEntry): MorningRule {
  const { before_window: leadMinutes, evening, weather_age_limit: weatherAgeLimitH } = entry
  return {
    minute: latestOf(entry),
    weatherAgeLimitH,
    ...(leadMinutes !== undefined && { beforeRun: { leadMinutes, earliestMinute: earliestOf(entry) } }),
    ...(evening !== undefined && { eveningMinute: minuteOf(evening) }),
  }
}
