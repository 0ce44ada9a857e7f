/** The documented shape of a week as JSON (docs/week-json.md), strict: a field that the document does not name fails. */
import { z } from 'zod'

const date = z.iso.date()
const share = z.number().min(0).max(1)
const hectares = z.number().nonnegative()
const key = z.string().min(1)

const likely = { from: date.nullable(), middle: date.nullable(), to: date.nullable() }

const part = z.strictObject({
  partKey: key,
  areaHa: z.number().positive(),
  days: z.array(z.strictObject({ date, fitChance: share, cutChance: share, meanHa: hectares })),
  likelyBy: date.nullable(),
  almostSurelyBy: date.nullable(),
  leftChance: share,
  leftHa: hectares,
  tail: z.strictObject({ ...likely, chance: share, ripe: z.strictObject(likely) }).nullable(),
})

const choice = z.strictObject({
  partKey: key,
  outfitId: key,
  reason: z.enum(['pinned', 'only-one-fit', 'loses-more', 'nearer', 'longer-window', 'promised', 'better-week']),
  perDayWaiting: z.number(),
  instead: z
    .strictObject({ partKey: key, costs: z.number(), perDayWaiting: z.number(), turnsAtPerHa: z.number().nullable() })
    .nullable(),
})

const conflict = z.strictObject({
  partKey: key,
  date,
  outfitId: key.nullable(),
  because: z.enum(['no-outfit', 'day-off', 'kept-off', 'never-fit', 'not-enough-hours', 'beyond-outlook']),
})

export const weekSchema = z.strictObject({
  format: z.literal('threshday-week/1'),
  farm: z.strictObject({ id: key, name: key, timeZone: key }),
  now: z.iso.datetime({ offset: true, precision: -1 }),
  reason: z.string().nullable(),
  from: date.nullable(),
  to: date.nullable(),
  status: z.enum(['proven', 'good', 'fallback']).nullable(),
  value: z.number().nullable(),
  loss: z.number().nonnegative().nullable(),
  leastLoss: z.number().nonnegative().nullable(),
  gap: share.nullable(),
  season: z.strictObject({ years: z.int().positive(), few: z.boolean(), from: date, to: date }).nullable(),
  parts: z.array(part),
  choices: z.array(choice),
  conflict: z.array(conflict),
})
