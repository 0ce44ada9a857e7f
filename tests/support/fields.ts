/** Small invented fields for tests: one of each kind that a test may need, changed by what it sets. */

import type { FieldPart } from '#core/field/parts.ts'
import type { Buyer, Farm, Field, Outfit } from '#core/operation/farm.ts'

export function testField(more: Partial<Field> = {}): Field {
  return {
    id: 'alder',
    name: 'Alder',
    crop: 'soybean',
    areaHa: 40,
    centre: { latDeg: 40, lonDeg: -88 },
    plantedOn: Temporal.PlainDate.from('2010-05-10'),
    maturityGroup: 2.8,
    soil: { texture: 'silt-loam', drainage: 'tiled' },
    followsWheat: false,
    usualYieldTHa: 3.5,
    band: { lowWb: 10, highWb: 13 },
    patches: [],
    buyerId: 'mill',
    haulKm: 8,
    ...more,
  }
}

export const testPart = (more: Partial<Field> = {}): FieldPart => {
  const field = testField(more)
  return { key: field.id, field, areaHa: field.areaHa }
}

export function testOutfit(more: Partial<Outfit> = {}): Outfit {
  return {
    id: 'crew',
    name: 'Crew',
    combines: [0, 1].map((n) => ({
      name: `Combine ${n + 1}`,
      tankL: 11_000,
      unloadLPerS: 110,
      heads: [{ crops: ['soybean', 'corn', 'wheat-soft'], widthM: 10, speedMs: 1.8, efficiency: 0.7 }],
    })),
    carts: [{ name: 'Cart', capacityL: 35_000, unloadLPerS: 250 }],
    trucks: [0, 1, 2].map((n) => ({ name: `Truck ${n + 1}`, capacityL: 33_000, roadSpeedMs: 17 })),
    crewHours: { startMinute: 7 * 60, endMinute: 22 * 60 },
    daysOff: [],
    ...more,
  }
}

export function testBuyer(more: Partial<Buyer> = {}): Buyer {
  return {
    id: 'mill',
    name: 'Mill',
    hours: { openMinute: 7 * 60, closeMinute: 19 * 60 },
    closedOn: [],
    turnaroundMin: 20,
    terms: (['soybean', 'corn', 'wheat-soft'] as const).map((crop) => ({
      crop,
      pricePerT: 380,
      standardMoistureWb: 13,
      shrinkPerPoint: 1.5,
      dockPerPoint: 1,
      dryingPerTPoint: 0,
    })),
    ...more,
  }
}

export function testFarm(more: Partial<Farm> = {}): Farm {
  return {
    id: 'test-farm',
    name: 'Test Farm',
    timeZone: 'America/Chicago',
    units: 'us',
    language: 'en',
    home: { latDeg: 40, lonDeg: -88, elevationM: 215 },
    fields: [testField()],
    outfits: [testOutfit()],
    buyers: [testBuyer()],
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
    weather: [{ kind: 'global' }],
    ...more,
  }
}
