/** The changes a planner may make, as the API takes and tells them. */
import { z } from '@hono/zod-openapi'
import { findOutfit, findPart } from '#app/record-lookup.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import type { Deadline, KeepOff, PartPin } from '#core/planning/optimiser/plan-rules.ts'
import { CROPS } from '#core/science/crop.ts'

const MINUTES_PER_HOUR = 60
/** No farm has more machines of a kind in an outfit, and no machine holds more [L] or is faster [L/s], [m/s]. */
export const MOST_MACHINES = 50
const MOST_L = 200_000
const MOST_L_PER_S = 2000
const MOST_MS = 50

const part = z.string().openapi({
  description: 'Key, id or name of a field, or key of a part such as `creek-bottom/the-slump`.',
  example: 'mill-forty',
})
const outfit = z.string().openapi({ description: 'Id or name of an outfit.', example: 'main-outfit' })
export const date = z.iso.date().openapi({ example: '2010-10-02' })
const clock = z
  .string()
  .regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, "Write it like 07:30, on the farm's own clock.")
  .openapi({ example: '07:30' })
const name = z.string().trim().min(1).max(100)
const litres = z.number().positive().max(MOST_L)
const litresPerS = z.number().positive().max(MOST_L_PER_S)

const Cart = z.strictObject({ name, capacityL: litres, unloadLPerS: litresPerS }).openapi('Cart')
const Truck = z
  .strictObject({ name, capacityL: litres, roadSpeedMs: z.number().positive().max(MOST_MS) })
  .openapi('Truck')
const Combine = z
  .strictObject({
    name,
    tankL: litres,
    unloadLPerS: litresPerS,
    heads: z
      .array(
        z.strictObject({
          crops: z.array(z.enum(CROPS)).min(1),
          widthM: z.number().positive().max(30),
          speedMs: z.number().positive().max(10),
          efficiency: z.number().positive().max(1),
        }),
      )
      .min(1),
  })
  .openapi('Combine')
export const OutfitShape = z
  .strictObject({
    id: name,
    name,
    combines: z.array(Combine).min(1).max(MOST_MACHINES),
    carts: z.array(Cart).max(MOST_MACHINES),
    trucks: z.array(Truck).max(MOST_MACHINES),
    start: clock,
    end: clock,
    daysOff: z.array(z.number().int().min(1).max(7)),
  })
  .openapi('Outfit', { description: 'Hours on the farm’s own clock; days off are ISO weekdays, 1 = Monday.' })

export const Change = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('pin'),
      part,
      date,
      outfit: outfit.optional(),
      areaHa: z.number().positive().optional(),
    }),
    z.strictObject({ kind: z.literal('unpin'), part }),
    z.strictObject({ kind: z.literal('keep-off'), part, from: date, to: date }),
    z.strictObject({ kind: z.literal('allow'), part }),
    z.strictObject({ kind: z.literal('deadline'), part, date }),
    z.strictObject({ kind: z.literal('hours'), outfit, start: clock, end: clock }),
    z.strictObject({ kind: z.literal('days-off'), outfit, daysOff: z.array(z.number().int().min(1).max(7)).max(7) }),
    z.strictObject({ kind: z.literal('add-outfit'), outfit: OutfitShape }),
    z.strictObject({ kind: z.literal('drop-outfit'), outfit }),
    z.strictObject({ kind: z.literal('add-cart'), outfit, cart: Cart }),
    z.strictObject({ kind: z.literal('add-truck'), outfit, truck: Truck }),
  ])
  .openapi('PlanChange', {
    description:
      'pin: cut it on this date, as far as the weather lets it. keep-off: do not cut it from a date to another. unpin and allow: no such wish any more. deadline: should be cut by then. The others change an outfit.',
  })
export type ChangeJson = z.infer<typeof Change>

export const Changes = z.strictObject({ changes: z.array(Change).min(1).max(20) }).openapi('PlanChanges')

const minuteOf = (text: string): number => {
  const [hours, minutes] = text.split(':').map(Number)
  return hours! * MINUTES_PER_HOUR + minutes!
}
export const clockOf = (minute: number): string =>
  `${String(Math.floor(minute / MINUTES_PER_HOUR)).padStart(2, '0')}:${String(minute % MINUTES_PER_HOUR).padStart(2, '0')}`

/** What is not on the farm keeps its name, so that it is refused by it. */
export function changeFrom(json: ChangeJson, farm: Farm): PlanChange {
  const partOf = (said: string) => {
    const found = findPart(farm, { field: said })
    return 'key' in found ? found.key : said
  }
  const outfitOf = (said: string) => {
    const found = findOutfit(farm, said)
    return 'id' in found ? found.id : said
  }
  const day = Temporal.PlainDate.from
  switch (json.kind) {
    case 'pin': {
      const { outfit: by, areaHa } = json
      const pin = { partKey: partOf(json.part), date: day(json.date) }
      return {
        kind: 'pin',
        pin: { ...pin, ...(by !== undefined && { outfitId: outfitOf(by) }), ...(areaHa !== undefined && { areaHa }) },
      }
    }
    case 'unpin':
    case 'allow':
      return { kind: json.kind, partKey: partOf(json.part) }
    case 'keep-off':
      return { kind: 'keep-off', keepOff: { partKey: partOf(json.part), from: day(json.from), to: day(json.to) } }
    case 'deadline':
      return { kind: 'deadline', deadline: { partKey: partOf(json.part), date: day(json.date) } }
    case 'hours': {
      const { start, end } = json
      return { kind: 'hours', outfitId: outfitOf(json.outfit), startMinute: minuteOf(start), endMinute: minuteOf(end) }
    }
    case 'days-off':
      return { kind: 'days-off', outfitId: outfitOf(json.outfit), daysOff: json.daysOff }
    case 'add-outfit': {
      const { start, end, ...rest } = json.outfit
      return {
        kind: 'add-outfit',
        outfit: { ...rest, crewHours: { startMinute: minuteOf(start), endMinute: minuteOf(end) } },
      }
    }
    case 'drop-outfit':
      return { kind: 'drop-outfit', outfitId: outfitOf(json.outfit) }
    case 'add-cart':
      return { kind: 'add-cart', outfitId: outfitOf(json.outfit), cart: json.cart }
    case 'add-truck':
      return { kind: 'add-truck', outfitId: outfitOf(json.outfit), truck: json.truck }
  }
}

export const pinJson = ({ partKey, date: on, outfitId, areaHa }: PartPin) => ({
  part: partKey,
  date: on.toString(),
  ...(outfitId !== undefined && { outfit: outfitId }),
  ...(areaHa !== undefined && { areaHa }),
})
export const keepOffJson = ({ partKey, from, to }: KeepOff) => ({
  part: partKey,
  from: from.toString(),
  to: to.toString(),
})
export const deadlineJson = ({ partKey, date: by }: Deadline) => ({ part: partKey, date: by.toString() })

export function changeJson(change: PlanChange): ChangeJson {
  switch (change.kind) {
    case 'pin':
      return { kind: 'pin', ...pinJson(change.pin) }
    case 'unpin':
    case 'allow':
      return { kind: change.kind, part: change.partKey }
    case 'keep-off':
      return { kind: 'keep-off', ...keepOffJson(change.keepOff) }
    case 'deadline':
      return { kind: 'deadline', ...deadlineJson(change.deadline) }
    case 'hours': {
      const { outfitId, startMinute, endMinute } = change
      return { kind: 'hours', outfit: outfitId, start: clockOf(startMinute), end: clockOf(endMinute) }
    }
    case 'days-off':
      return { kind: 'days-off', outfit: change.outfitId, daysOff: [...change.daysOff] }
    case 'add-outfit':
      return { kind: 'add-outfit', outfit: outfitJson(change.outfit) }
    case 'drop-outfit':
      return { kind: 'drop-outfit', outfit: change.outfitId }
    case 'add-cart':
      return { kind: 'add-cart', outfit: change.outfitId, cart: change.cart }
    case 'add-truck':
      return { kind: 'add-truck', outfit: change.outfitId, truck: change.truck }
  }
}

export function outfitJson({ crewHours, ...rest }: Farm['outfits'][number]): z.infer<typeof OutfitShape> {
  const { startMinute, endMinute } = crewHours
  const combines = rest.combines.map((combine) => ({
    ...combine,
    heads: combine.heads.map((head) => ({ ...head, crops: [...head.crops] })),
  }))
  return {
    ...rest,
    combines,
    carts: [...rest.carts],
    trucks: [...rest.trucks],
    daysOff: [...rest.daysOff],
    start: clockOf(startMinute),
    end: clockOf(endMinute),
  }
}
