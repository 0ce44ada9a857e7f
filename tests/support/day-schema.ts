/** The documented shape of a day as JSON (docs/today-json.md), strict: a field that the document does not name fails. */
import { z } from 'zod'
import { HOLDBACKS } from '#core/outlook/holdback.ts'
import { CROPS } from '#core/science/crop.ts'
import { FIRE_LEVELS, OFFICIAL_NOTICES } from '#core/science/fire/care.ts'

const time = z.iso.datetime({ offset: true, precision: -1 })
const share = z.number().min(0).max(1)
const moisture = z.number().min(0).max(95)
const holdback = z.enum(HOLDBACKS)

const run = z.strictObject({
  part: z.string().min(1),
  name: z.string().min(1),
  outfit: z.string().min(1),
  start: time,
  end: time,
  areaHa: z.number().positive(),
  ofAreaHa: z.number().positive(),
  massT: z.number().nonnegative(),
  truckLoads: z.number().int().nonnegative(),
  cartsNeeded: z.number().int().nonnegative().nullable(),
  trucksNeeded: z.number().int().nonnegative().nullable(),
  limitedBy: z.enum(['combines', 'carts', 'trucks', 'buyer']),
  startMoistureWb: moisture,
  endMoistureWb: moisture,
  chance: share,
  atRiskPerHaDay: z.number().nullable(),
})

const waiting = z.strictObject({
  part: z.string().min(1),
  name: z.string().min(1),
  reason: z.enum([
    ...HOLDBACKS,
    'later-turn',
    'worth-waiting',
    'kept-off',
    'patch-green',
    'short-window',
    'no-outfit',
    'no-buyer',
  ]),
  moistureWb: moisture.nullable(),
  waitingSaves: z.number().nonnegative().nullable(),
  next: z.strictObject({ start: time, chance: share }).nullable(),
})

const plan = z.strictObject({
  status: z.enum(['proven', 'good', 'fallback']),
  value: z.number(),
  loss: z.number().nonnegative(),
  leastLoss: z.number().nonnegative(),
  choices: z.array(
    z.strictObject({
      part: z.string().min(1),
      outfit: z.string().min(1),
      reason: z.enum(['pinned', 'only-one-fit', 'loses-more', 'nearer', 'longer-window', 'promised', 'better-week']),
      perDayWaiting: z.number().nullable(),
      instead: z.strictObject({ part: z.string().min(1), costs: z.number() }).nullable(),
    }),
  ),
})

const part = z.strictObject({
  part: z.string().min(1),
  name: z.string().min(1),
  field: z.string().min(1),
  crop: z.enum(CROPS),
  areaHa: z.number().positive(),
  band: z.strictObject({ lowWb: moisture, highWb: moisture }),
  maturity: z
    .strictObject({ date: z.iso.date(), sdDays: z.number().positive().nullable(), basis: z.string() })
    .nullable(),
  windows: z.array(
    z.strictObject({
      start: time,
      end: time,
      chance: share,
      startMoistureWb: moisture,
      endMoistureWb: moisture,
      opensAfter: holdback.nullable(),
      closesWith: holdback.nullable(),
    }),
  ),
  hours: z.array(
    z.strictObject({
      start: time,
      medianWb: moisture.nullable(),
      lowWb: moisture.nullable(),
      highWb: moisture.nullable(),
      fitChance: share.nullable(),
      heldBackBy: holdback.nullable(),
    }),
  ),
})

const fire = z.strictObject({
  level: z.enum(FIRE_LEVELS),
  from: time.nullable(),
  until: time.nullable(),
  lowestRelHumidity: share.nullable(),
  highestGustMs: z.number().nonnegative().nullable(),
  highestGrassIndex: z.number().nonnegative().nullable(),
})

const weather = z.strictObject({
  source: z.string().min(1),
  attribution: z.string(),
  licence: z.string(),
  issued: time,
  spread: z.enum(['observed', 'ensemble', 'grown', 'single']),
  members: z.number().int().positive(),
  credits: z.array(z.string().min(1)),
  agreement: z
    .strictObject({
      sources: z.number().int().min(2),
      differs: z.array(z.enum(['temperature', 'humidity', 'rain'])),
      airTempC: z.number().nonnegative().nullable(),
      relHumidity: share.nullable(),
      rainChance: share.nullable(),
    })
    .nullable(),
  remarks: z.array(z.string()),
})

const official = z.strictObject({
  unread: z.boolean(),
  warnings: z.array(
    z.strictObject({
      fireNotice: z.enum(OFFICIAL_NOTICES),
      event: z.string().min(1),
      headline: z.string().min(1),
      issuer: z.string(),
      from: time,
      until: time,
    }),
  ),
})

export const daySchema = z.strictObject({
  format: z.literal('threshday-day/1'),
  farm: z.strictObject({ id: z.string().min(1), name: z.string().min(1), timeZone: z.string().min(1) }),
  now: time,
  date: z.iso.date(),
  headline: z.enum(['run', 'wait', 'done', 'no-forecast']),
  reason: z.string().min(1).nullable(),
  lines: z.array(z.strictObject({ kind: z.string().min(1), text: z.string().min(1) })).min(1),
  runs: z.array(run),
  waiting: z.array(waiting),
  plan: plan.nullable(),
  parts: z.array(part),
  fire,
  official,
  weather: weather.nullable(),
})
