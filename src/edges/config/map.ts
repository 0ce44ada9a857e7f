/** The `map` section of the farm file: pictures of the ground under the fields, from a server that the farm chose. */
import { z } from 'zod'
import type { BaseMap } from '#core/operation/farm.ts'

/** Deepest of the usual schemes; many servers end earlier. */
const DEEPEST_ZOOM = 19

const HOLES = ['{z}', '{x}', '{y}'] as const

/** An address whose parts to be filled in stand behind the host: one host serves all, and the pages allow it alone. */
function isTemplate(address: string): boolean {
  if (HOLES.some((hole) => address.split(hole).length !== 2)) return false
  const filled = address.replace(/\{[zxy]\}/g, '0')
  const url = URL.parse(filled)
  return (
    url !== null &&
    url.protocol === 'https:' &&
    url.username === '' &&
    url.password === '' &&
    url.hash === '' &&
    !/[{}'"<>\s;,\\]/.test(filled) &&
    !/[{}]/.test(address.slice(0, address.indexOf('/', 'https://'.length)))
  )
}

export const mapSchema = z
  .strictObject({
    tiles: z
      .string()
      .max(500)
      .refine(isTemplate, {
        error: 'is not an address of map tiles',
        params: {
          cure: 'It begins with https:// and holds {z}, {x} and {y} once each behind the host, such as https://tiles.example.org/{z}/{x}/{y}.png.',
        },
      })
      .describe(
        'Address of map tiles in the usual scheme (XYZ, Web Mercator), such as https://tiles.example.org/{z}/{x}/{y}.png. ' +
          'Whoever looks at the map asks that server for them; a key in the address is seen by all who look.',
      ),
    credit: z
      .string()
      .trim()
      .min(1)
      .max(200)
      .describe('Whom the map is owed to, as its server asks for it; shown under the map.'),
    deepest: z
      .int()
      .min(1)
      .max(22)
      .default(DEEPEST_ZOOM)
      .describe(`Deepest zoom that the server has, 1 to 22; left out, ${DEEPEST_ZOOM}.`),
  })
  .optional()
  .describe('Pictures of the ground under the fields: tiles, credit, deepest. Left out, the map is drawn without.')

export function toBaseMap(entry: z.infer<typeof mapSchema>): BaseMap | undefined {
  return entry && { tileUrl: entry.tiles, credit: entry.credit, deepestZoom: entry.deepest }
}
