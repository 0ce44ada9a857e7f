/** `patch`: split a patch off a field by its share or by an outline, or join it again. */
import { parseArgs } from 'node:util'
import { z } from 'zod'
import { joinPatch, type PatchAnswer, splitField, type ToldPatch } from '#app/patches.ts'
import { sayFault } from '#app/record-faults.ts'
import type { Book } from '#app/records.ts'
import { HA_PER_ACRE } from '#core/units/convert.ts'
import { needed, numberTyped, type Printed } from './records.ts'

export interface PatchCommand {
  readonly name: 'patch'
  readonly farm: string | undefined
  readonly by: string | undefined
  readonly action:
    | {
        readonly kind: 'split'
        readonly told: Omit<ToldPatch, 'by' | 'outline'>
        readonly outlineFile: string | undefined
      }
    | { readonly kind: 'join'; readonly field: string; readonly patch: string }
}

export const PATCH_USAGE = `  npm run patch -- --field F --name P --share 0.08 [--kind green|wet-hole] [--later DAYS] [--handling leave|blend]
                   [--by NAME] [--farm FILE]       splits a patch off a field; --outline FILE takes a GeoJSON polygon
                                                   instead of a share, --join puts the patch back into its field
`

/** @throws with what is wrong. */
export function readPatch(args: readonly string[]): PatchCommand {
  const { values } = parseArgs({
    args: [...args],
    options: {
      farm: { type: 'string' },
      field: { type: 'string' },
      name: { type: 'string' },
      share: { type: 'string' },
      outline: { type: 'string' },
      kind: { type: 'string', default: 'green' },
      later: { type: 'string', default: '0' },
      handling: { type: 'string', default: 'leave' },
      by: { type: 'string' },
      join: { type: 'boolean', default: false },
    },
  })
  const base = { name: 'patch', farm: values.farm, by: values.by } as const
  const field = needed('field', values.field)
  const name = needed('name', values.name)
  if (values.join) return { ...base, action: { kind: 'join', field, patch: name } }
  const share = numberTyped('share', values.share)
  if ((share === undefined) === (values.outline === undefined))
    throw new Error('Give --share or --outline, one of them')
  const told = {
    field,
    name,
    share,
    kind: oneOf('kind', values.kind, ['green', 'wet-hole']),
    laterDays: needed('later', numberTyped('later', values.later)),
    handling: oneOf('handling', values.handling, ['leave', 'blend']),
  }
  return { ...base, action: { kind: 'split', told, outlineFile: values.outline } }
}

function oneOf<const T extends string>(option: string, said: string, known: readonly T[]): T {
  const found = known.find((word) => word === said)
  if (!found) throw new Error(`--${option} "${said}" is none of ${known.join(', ')}`)
  return found
}

/** @param by who tells it. @param read gives the text of a file, nothing where it cannot be read. */
export async function runPatch(
  { action }: PatchCommand,
  book: Book,
  by: string,
  read: (file: string) => Promise<string | undefined>,
): Promise<Printed> {
  if (action.kind === 'join') return print(await joinPatch(book, action.field, action.patch, by), book, 'Joined again')
  const { told, outlineFile } = action
  const outline = outlineFile === undefined ? undefined : outlineIn((await read(outlineFile)) ?? '')
  if (outlineFile !== undefined && !outline) {
    return { text: `Not taken. ${outlineFile} is not GeoJSON with one polygon of one ring.\n`, refused: true }
  }
  return print(await splitField(book, { ...told, outline, by }), book, 'Split off')
}

function print(answer: PatchAnswer, { farm }: Book, done: string): Printed {
  if (answer.kind === 'refused') return { text: `Not taken. ${sayFault(answer.fault, farm)}\n`, refused: true }
  const { field, patch } = answer
  const areaHa = field.areaHa * patch.share
  const area = farm.units === 'us' ? `${(areaHa / HA_PER_ACRE).toFixed(1)} acres` : `${areaHa.toFixed(1)} ha`
  const said = answer.kind === 'known' ? 'Known already' : done
  return { text: `${said}: ${patch.name} of ${field.name}, ${area}, ${patch.kind}\n`, refused: false }
}

const position = z.array(z.number()).min(2).max(3)
const polygon = z.object({ type: z.literal('Polygon'), coordinates: z.array(z.array(position).min(4)).length(1) })
const feature = z.object({ type: z.literal('Feature'), geometry: polygon })
const collection = z.object({ type: z.literal('FeatureCollection'), features: z.array(feature).length(1) })
const geoJson = z.union([
  polygon,
  feature.transform(({ geometry }) => geometry),
  collection.transform(({ features }) => features[0]!.geometry),
])

/** @returns the closed ring of the one polygon in a GeoJSON (RFC 7946) text; nothing where there is no such. */
function outlineIn(text: string): [number, number][] | undefined {
  let data: unknown
  try {
    data = JSON.parse(text)
  } catch {
    return undefined
  }
  const read = geoJson.safeParse(data)
  const ring = read.data?.coordinates[0]?.map((point): [number, number] => [point[0]!, point[1]!])
  const closed = ring && ring[0]![0] === ring.at(-1)![0] && ring[0]![1] === ring.at(-1)![1]
  return closed ? ring : undefined
}
