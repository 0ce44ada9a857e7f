/**
 * What the schema cannot see: entries that must agree with one another. Each part that reads well is checked even if
 * another part does not, so that all faults come at once.
 */

import type { z } from 'zod'
import type { UnitSystem } from '#core/operation/farm.ts'
import { type BuyerEntry, buyerSchema } from './buyers.ts'
import { slug } from './common.ts'
import { type Finding, nearest } from './faults.ts'
import { fieldFindings } from './field-checks.ts'
import { type FieldEntry, fieldSchema } from './fields.ts'
import { type FireEntry, fireSchema, type WeatherEntry, weatherSchema } from './fire.ts'
import { type OutfitEntry, outfitSchema } from './outfits.ts'
import { personSchema } from './people.ts'

/** An entry of a list that reads well, with its place in the file. */
interface Placed<T> {
  readonly index: number
  readonly entry: T
}

type Raw = { readonly [key: string]: unknown }

export function farmFindings(data: unknown, units: UnitSystem): Finding[] {
  if (typeof data !== 'object' || data === null) return []
  const raw = data as Raw
  const fields = readList<FieldEntry>(raw.fields, fieldSchema(units))
  const outfits = readList<OutfitEntry>(raw.outfits, outfitSchema(units))
  const buyers = readList<BuyerEntry>(raw.buyers, buyerSchema(units))
  const people = readList(raw.people, personSchema)
  const fire = fireSchema(units).safeParse(raw.fire)
  const weather = weatherSchema.safeParse(raw.weather)
  const home = raw.home as Raw | undefined

  return [
    ...['fields', 'outfits', 'buyers', 'people'].flatMap((list) => sameNames(raw[list], [list])),
    ...fields.flatMap(({ entry, index }) => [
      ...fieldFindings(entry, ['fields', index], units, home),
      ...sameNames(entry.patches, ['fields', index, 'patches']),
      ...buyerFindings(entry, index, raw.buyers, buyers),
    ]),
    ...outfits.flatMap(({ entry, index }) => outfitFindings(entry, ['outfits', index])),
    ...headFindings(fields, outfits, raw.outfits),
    ...buyers.flatMap(({ entry, index }) => termsFindings(entry, ['buyers', index])),
    ...peopleFindings(people.map(({ entry }) => entry)),
    ...(fire.success ? fireFindings(fire.data) : []),
    ...(weather.success ? weatherFindings(weather.data) : []),
  ]
}

function readList<T>(list: unknown, schema: z.ZodType<T>): Placed<T>[] {
  if (!Array.isArray(list)) return []
  return list.flatMap((raw, index) => {
    const read = schema.safeParse(raw)
    return read.success ? [{ index, entry: read.data }] : []
  })
}

/** Names are compared as people hear them: case and spaces apart. */
const heard = (text: string): string => text.trim().replace(/\s+/g, ' ').toLowerCase()

function sameNames(list: unknown, path: readonly (string | number)[]): Finding[] {
  if (!Array.isArray(list)) return []
  const findings: Finding[] = []
  const names = new Map<string, number>()
  const ids = new Map<string, number>()
  list.forEach((raw: Raw | null, index) => {
    const name = typeof raw?.name === 'string' ? raw.name : undefined
    const id = typeof raw?.id === 'string' ? raw.id : name === undefined ? undefined : slug(name)
    const twin = name === undefined ? undefined : names.get(heard(name))
    const idTwin = id === undefined ? undefined : ids.get(id)
    if (name !== undefined && twin !== undefined)
      findings.push({
        path: [...path, index, 'name'],
        problem: `is also the name of entry ${twin + 1} of this list`,
        cure: 'Give each its own name.',
      })
    else if (id === '' && name?.trim() !== '')
      findings.push({
        path: [...path, index, 'name'],
        problem: 'has no letter from a to z or digit to make an id of',
        cure: 'Add an id of small letters, digits and hyphens, such as id: north-field.',
      })
    else if (idTwin !== undefined)
      findings.push({
        path: [...path, index, raw?.id === undefined ? 'name' : 'id'],
        problem: `makes the id "${id}", which entry ${idTwin + 1} of this list has too`,
        cure: 'Give one of them an id of its own.',
      })
    if (name !== undefined) names.set(heard(name), index)
    if (id) ids.set(id, index)
  })
  return findings
}

/** @returns whether a reference by name or id means this entry. */
export const isMeant = (reference: string, entry: { readonly name: string; readonly id?: string | undefined }) =>
  heard(reference) === heard(entry.name) || reference === (entry.id ?? slug(entry.name))

function buyerFindings(
  field: FieldEntry,
  index: number,
  rawBuyers: unknown,
  buyers: readonly Placed<BuyerEntry>[],
): Finding[] {
  const path = ['fields', index, 'buyer']
  const names = (Array.isArray(rawBuyers) ? rawBuyers : []).flatMap((raw: Raw | null) =>
    typeof raw?.name === 'string' ? [{ name: raw.name, id: typeof raw.id === 'string' ? raw.id : undefined }] : [],
  )
  if (!names.some((named) => isMeant(field.buyer, named))) {
    const known = names.map(({ name }) => name)
    const near = nearest(field.buyer, known)
    return [
      {
        path,
        problem: 'is none of the buyers',
        cure: `${near ? `Did you mean ${near}? ` : ''}Known buyers: ${known.join(', ') || 'none yet'}.`,
      },
    ]
  }
  const buyer = buyers.find(({ entry }) => isMeant(field.buyer, entry))?.entry
  if (!buyer || field.cut !== undefined) return []
  const terms = buyer.pays.find((pay) => pay.crop === field.crop)
  if (!terms)
    return [
      {
        path,
        problem: `does not buy ${field.crop}, the crop of this field`,
        cure: `Add ${field.crop} under pays of that buyer, or name another buyer.`,
      },
    ]
  if (field.band && terms.refuse_above !== undefined && field.band.high > terms.refuse_above)
    return [
      {
        path: ['fields', index, 'band', 'high'],
        problem: `is wetter than the ${terms.refuse_above} % above which ${buyer.name} refuses ${field.crop}`,
        cure: 'Lower it, or name a buyer who takes wetter grain.',
        warning: true,
      },
    ]
  return []
}

function outfitFindings(outfit: OutfitEntry, path: readonly (string | number)[]): Finding[] {
  return [
    ...(['combines', 'carts', 'trucks'] as const).flatMap((list) => sameNames(outfit[list], [...path, list])),
    ...outfit.combines.flatMap((combine, c) => {
      const crops = combine.heads.flatMap((head) => head.crops)
      return combine.heads.flatMap((head, h) => {
        const twice = head.crops.find((crop) => crops.filter((other) => other === crop).length > 1)
        const isFirst = combine.heads.findIndex((other) => twice !== undefined && other.crops.includes(twice)) === h
        const repeats = twice !== undefined && head.crops.filter((crop) => crop === twice).length > 1
        return twice !== undefined && (!isFirst || repeats)
          ? [
              {
                path: [...path, 'combines', c, 'heads', h, 'crops'],
                problem: `names ${twice}, which a head of this combine cuts already`,
                cure: 'Keep one head for each crop of a combine: the one it usually wears.',
              },
            ]
          : []
      })
    }),
  ]
}

function headFindings(
  fields: readonly Placed<FieldEntry>[],
  outfits: readonly Placed<OutfitEntry>[],
  rawOutfits: unknown,
): Finding[] {
  // A crop can be called headless only if every outfit could be read.
  if (!Array.isArray(rawOutfits) || outfits.length !== rawOutfits.length) return []
  const findings: Finding[] = []
  const growing = new Map<string, number>()
  for (const { entry, index } of fields)
    if (entry.cut === undefined && !growing.has(entry.crop)) growing.set(entry.crop, index)
  for (const [crop, index] of growing) {
    const combines = outfits.flatMap(({ entry, index: o }) =>
      entry.combines.map((combine, c) => ({
        path: ['outfits', o, 'combines', c, 'heads'],
        cuts: combine.heads.some((head) => (head.crops as readonly string[]).includes(crop)),
      })),
    )
    if (!combines.some(({ cuts }) => cuts))
      findings.push({
        path: ['fields', index, 'crop'],
        problem: 'is a crop that no head of any combine cuts',
        cure: `Add ${crop} to the crops of a head, or say when the field was cut.`,
      })
    else
      for (const { path, cuts } of combines)
        if (!cuts)
          findings.push({
            path,
            problem: `has no head for ${crop}`,
            cure: 'This combine will stand idle there; add a head if that is wrong.',
            warning: true,
          })
  }
  return findings
}

function termsFindings(buyer: BuyerEntry, path: readonly (string | number)[]): Finding[] {
  const findings: Finding[] = []
  buyer.pays.forEach((terms, i) => {
    if (buyer.pays.findIndex((other) => other.crop === terms.crop) < i)
      findings.push({
        path: [...path, 'pays', i, 'crop'],
        problem: 'is paid twice by this buyer',
        cure: 'Keep one entry for each crop.',
      })
    if (terms.refuse_above !== undefined && terms.moisture !== undefined && terms.refuse_above < terms.moisture)
      findings.push({
        path: [...path, 'pays', i, 'refuse_above'],
        problem: `is drier than the standard moisture of ${terms.moisture} %`,
        cure: 'It is the wettest load the buyer takes, so it is at or above the standard.',
      })
  })
  return findings
}

function peopleFindings(people: readonly { readonly role: string; readonly email?: string | undefined }[]): Finding[] {
  const findings: Finding[] = []
  if (people.length > 0 && !people.some(({ role }) => role === 'owner'))
    findings.push({
      path: ['people'],
      problem: 'has no one with the role owner',
      cure: 'Nobody gets the message with the money; give one person role: owner.',
      warning: true,
    })
  if (people.length > 0 && !people.some(({ email }) => email !== undefined))
    findings.push({
      path: ['people'],
      problem: 'has no one with an email',
      cure: 'No message can be mailed; add an email to someone.',
      warning: true,
    })
  return findings
}

function fireFindings(fire: FireEntry): Finding[] {
  const findings: Finding[] = []
  if (fire.stop.grass_index < fire.care.grass_index)
    findings.push({
      path: ['fire', 'stop', 'grass_index'],
      problem: `is below the ${fire.care.grass_index} from which to take care`,
      cure: 'Stopping comes after care: give it the same or a higher index.',
    })
  fire.bans.forEach((ban, i) => {
    if (ban.to < ban.from)
      findings.push({
        path: ['fire', 'bans', i, 'to'],
        problem: `is before the ban begins on ${ban.from}`,
        cure: 'Give the last day of the ban; for one day, repeat the first.',
      })
  })
  return findings
}

function weatherFindings(weather: WeatherEntry): Finding[] {
  if (weather.every(({ use }) => use === 'global-history'))
    return [
      {
        path: ['weather', 0, 'use'],
        problem: 'tells of the past only',
        cure: 'List a source of forecasts too, such as global.',
      },
    ]
  return weather.flatMap((source, i): Finding[] => {
    if (weather.findIndex((other) => other.use === source.use) < i)
      return [{ path: ['weather', i, 'use'], problem: 'is listed twice', cure: 'Keep one of the two.' }]
    if (source.use === 'recorded' && weather.length > 1)
      return [
        {
          path: ['weather', i, 'use'],
          problem: 'cannot stand beside live weather',
          cure: 'Keep recorded alone for a demo or replay, or delete it.',
        },
      ]
    return []
  })
}
