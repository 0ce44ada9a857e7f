/** Made-up outlooks, farms and fields for tests of the plan: quick to make, and every hour as the test wants it. */

import { type FieldPart, partsOf } from '#core/field/parts.ts'
import type { Farm, Field, Outfit } from '#core/operation/farm.ts'
import { HOLDBACK_BIT } from '#core/outlook/holdback.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { findWindows } from '#core/outlook/windows.ts'
import type { FarmPlanInput } from '#core/planning/optimiser/build-problem.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import { type Random, seededRandom } from '#core/units/random.ts'

export const DATE = Temporal.PlainDate.from('2026-09-29')
export const TIME_ZONE = 'America/Chicago'
/** Midnight of the date at the farm, hours since the epoch. */
export const MIDNIGHT = DATE.toZonedDateTime(TIME_ZONE).epochMilliseconds / 3_600_000
export const MORNING = MIDNIGHT + 5

export function smallField(id: string, more: Partial<Field> = {}): Field {
  return {
    id,
    name: id,
    crop: 'soybean',
    areaHa: 40,
    centre: { latDeg: 40, lonDeg: -88 },
    plantedOn: DATE.subtract({ days: 140 }),
    maturityGroup: 2.8,
    soil: { texture: 'silt-loam', drainage: 'tiled' },
    followsWheat: false,
    usualYieldTHa: 3.6,
    band: { lowWb: 10, highWb: 13 },
    patches: [],
    buyerId: 'elevator',
    haulKm: 12,
    ...more,
  }
}

export function smallOutfit(id: string, more: Partial<Outfit> = {}): Outfit {
  const heads = [
    { crops: ['soybean'], widthM: 10, speedMs: 1.7, efficiency: 0.7 },
    { crops: ['corn'], widthM: 8, speedMs: 1.7, efficiency: 0.7 },
  ] as const
  return {
    id,
    name: id,
    combines: [{ name: 'combine', tankL: 12_000, unloadLPerS: 110, heads }],
    carts: [{ name: 'cart', capacityL: 30_000, unloadLPerS: 250 }],
    trucks: [1, 2, 3].map((k) => ({ name: `truck ${k}`, capacityL: 33_000, roadSpeedMs: 17 })),
    crewHours: { startMinute: 480, endMinute: 1260 },
    daysOff: [],
    ...more,
  }
}

export function smallFarm(fields: readonly Field[], outfits: readonly Outfit[], more: Partial<Farm> = {}): Farm {
  return {
    id: 'farm',
    name: 'Farm',
    timeZone: TIME_ZONE,
    units: 'us',
    language: 'en',
    home: { latDeg: 40, lonDeg: -88, elevationM: 220 },
    fields,
    outfits,
    buyers: [
      {
        id: 'elevator',
        name: 'Elevator',
        hours: { openMinute: 420, closeMinute: 1140 },
        closedOn: [],
        turnaroundMin: 20,
        terms: [
          {
            crop: 'soybean',
            pricePerT: 390,
            standardMoistureWb: 13,
            shrinkPerPoint: 1.4,
            dockPerPoint: 1,
            dryingPerTPoint: 0,
          },
          {
            crop: 'corn',
            pricePerT: 170,
            standardMoistureWb: 15,
            shrinkPerPoint: 1.4,
            dockPerPoint: 0,
            dryingPerTPoint: 2,
          },
        ],
      },
    ],
    people: [],
    fireRules: {
      careGustMs: 11,
      careWindMs: 9,
      careRelHumidity: 0.25,
      careGrassIndex: 20,
      stopGrassIndex: 35,
      bans: [],
    },
    morning: { minute: 330, weatherAgeLimitH: 12 },
    weather: [],
    ...more,
  }
}

export interface HourOf {
  readonly fit: boolean
  readonly moistureWb: number
}

/** @param hourOf what an hour of a course is like: hour of the day, day, course. */
export function smallOutlook(
  part: FieldPart,
  days: number,
  courses: number,
  hourOf: (hour: number, day: number, course: number) => HourOf,
  lossPerDay = 0.003,
): Outlook {
  const hours = days * 24
  const holdbackBits = new Uint16Array(courses * hours)
  const moistureWb = new Float32Array(courses * hours)
  const standingLoss = new Float32Array(courses * hours)
  const fitChance = new Float32Array(hours)
  const medianWb = new Float32Array(hours)
  for (let h = 0; h < hours; h++) {
    const each: number[] = []
    for (let c = 0; c < courses; c++) {
      const { fit, moistureWb: wb } = hourOf(h % 24, Math.floor(h / 24), c)
      const i = c * hours + h
      holdbackBits[i] = fit ? 0 : HOLDBACK_BIT['wet-grain']
      moistureWb[i] = wb
      standingLoss[i] = (lossPerDay * h) / 24
      if (fit) fitChance[h]! += 1 / courses
      each.push(wb)
    }
    medianWb[h] = each.sort((a, b) => a - b)[Math.floor(courses / 2)]!
  }
  const base = {
    part,
    startEpochH: MIDNIGHT,
    hours,
    courses,
    moistureWb,
    standingLoss,
    holdbackBits,
    fitChance,
    medianWb,
    lowWb: medianWb,
    highWb: medianWb,
  }
  return { ...base, windows: findWindows(base) }
}

/** Dry from opening to closing hour, every day. */
export const dryFrom =
  (opens: number, closes: number, moistureWb = 12) =>
  (hour: number): HourOf => ({ fit: hour >= opens && hour < closes, moistureWb })

export function planInput(farm: Farm, outlooks: readonly Outlook[], more: Partial<FarmPlanInput> = {}): FarmPlanInput {
  return {
    farm,
    outlooks,
    date: DATE,
    nowEpochH: MORNING,
    standingHa: new Map(),
    rateOf: rateIn(farm),
    at: new Map(),
    rules: NO_RULES,
    days: 5,
    members: 4,
    ...more,
  }
}

/** A farm with fields, outfits, buyer, weather and rules by chance; every outlook has wet and dry days. */
export function randomFarmInput(seed: number): FarmPlanInput {
  const random = seededRandom(seed)
  const whole = (least: number, most: number) => least + Math.floor(random.uniform() * (most - least + 1))
  const fields = Array.from({ length: whole(1, 6) }, (_, k) => randomField(`field-${k}`, random))
  const outfits = Array.from({ length: whole(1, 3) }, (_, k) =>
    smallOutfit(`outfit-${k}`, {
      crewHours: { startMinute: 60 * whole(6, 10), endMinute: 60 * whole(15, 24) },
      daysOff: random.uniform() < 0.15 ? [DATE.dayOfWeek] : [7],
      trucks: smallOutfit('x').trucks.slice(0, whole(1, 3)),
    }),
  )
  const plain = smallFarm(fields, outfits)
  const [buyer] = plain.buyers
  const farm = {
    ...plain,
    buyers: [
      {
        ...buyer!,
        hours: { openMinute: 420, closeMinute: 60 * whole(14, 20) },
        ...(random.uniform() < 0.3 ? { dailyT: 120 } : {}),
      },
    ],
  }
  const days = whole(2, 5)
  const outlooks = fields.flatMap(partsOf).map((part) => {
    const [opens, closes] = [whole(9, 14), whole(16, 23)]
    const wet = Array.from({ length: days * 5 }, () => random.uniform() < 0.3)
    return smallOutlook(part, days, 5, (hour, day, course) => ({
      fit: hour >= opens && hour < closes && !wet[day * 5 + course],
      moistureWb: 11 + Math.abs(hour - 15) * 0.15 + (wet[day * 5 + course] ? 3 : 0),
    }))
  })
  const part = () => outlooks[whole(0, outlooks.length - 1)]!.part.key
  return planInput(farm, outlooks, {
    days,
    nowEpochH: MIDNIGHT + whole(4, 14),
    standingHa: new Map(random.uniform() < 0.3 ? [[part(), whole(0, 20)]] : []),
    rules: {
      ...NO_RULES,
      outfitsPerField: whole(1, 2),
      pins: random.uniform() < 0.3 ? [{ partKey: part(), date: DATE.add({ days: whole(0, days - 1) }) }] : [],
      keepOffs: random.uniform() < 0.3 ? [{ partKey: part(), from: DATE, to: DATE.add({ days: whole(0, 3) }) }] : [],
      deadlines: random.uniform() < 0.2 ? [{ partKey: part(), date: DATE.add({ days: whole(0, 3) }) }] : [],
      promised: random.uniform() < 0.3 ? [{ outfitId: 'outfit-0', partKey: part() }] : [],
    },
  })
}

function randomField(id: string, random: Random): Field {
  const patch = { id: 'low', name: 'low', share: 0.1, kind: 'wet-hole', laterDays: 3, handling: 'leave' } as const
  return smallField(id, {
    areaHa: 8 + 70 * random.uniform(),
    centre: { latDeg: 40 + 0.2 * random.uniform(), lonDeg: -88 + 0.2 * random.uniform() },
    crop: random.uniform() < 0.8 ? 'soybean' : 'corn',
    haulKm: 2 + 40 * random.uniform(),
    patches: random.uniform() < 0.2 ? [patch] : [],
  })
}
