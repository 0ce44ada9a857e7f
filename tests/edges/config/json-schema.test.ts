import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { farmJsonSchema } from '#edges/config/json-schema.ts'

interface Node {
  readonly type?: string
  readonly description?: string
  readonly properties?: { readonly [key: string]: Node }
  readonly items?: Node
  readonly anyOf?: readonly Node[]
  readonly oneOf?: readonly Node[]
  readonly additionalProperties?: boolean
  readonly required?: readonly string[]
}

const committed = readFileSync('config/farm.schema.json', 'utf8')
const schema = JSON.parse(committed) as Node

const inner = (node: Node): [string, Node][] => [
  ...Object.entries(node.properties ?? {}),
  ...(node.items ? [['[]', node.items] as [string, Node]] : []),
  ...[...(node.anyOf ?? []), ...(node.oneOf ?? [])].map((option, i): [string, Node] => [`|${i}`, option]),
]

function every(node: Node, visit: (node: Node, path: string) => void, path = ''): void {
  visit(node, path)
  for (const [step, next] of inner(node)) every(next, visit, `${path}/${step}`)
}

/** Keys of the data that the schema does not offer at that place. */
function unknownKeys(data: unknown, node: Node, path = ''): string[] {
  const options = node.anyOf ?? node.oneOf
  if (options) {
    const tries = options.map((option) => unknownKeys(data, option, path))
    return tries.sort((a, b) => a.length - b.length)[0]!
  }
  if (Array.isArray(data))
    return data.flatMap((entry, i) => (node.items ? unknownKeys(entry, node.items, `${path}/${i}`) : []))
  if (typeof data !== 'object' || data === null) return []
  return Object.entries(data).flatMap(([key, value]) => {
    const next = node.properties?.[key]
    return next ? unknownKeys(value, next, `${path}/${key}`) : [`${path}/${key}`]
  })
}

describe('config/farm.schema.json', () => {
  it('is fresh: else run node src/edges/config/json-schema.ts > config/farm.schema.json', () => {
    expect(committed).toBe(farmJsonSchema())
  })

  it('documents every key and lets no other through', () => {
    every(schema, (node, path) => {
      if (path.match(/\/[a-z_]+$/) && !path.match(/boundary\/\|\d\/|weather\/\[\]\/\|\d\/use$|bans\/\[\]$/))
        expect(node.description ?? '', path).not.toBe('')
      if (node.properties) expect(node.additionalProperties, path).toBe(false)
    })
  })

  it('names the unit of both systems where the number has one', () => {
    const combine = schema.properties!.outfits!.items!.properties!.combines!.items!.properties!
    expect(combine.tank!.description).toMatch(/bu \(units: us\), 50 to 800, or in L \(units: metric\)/)
    expect(schema.properties!.fields!.items!.properties!.area!.description).toMatch(/acres .*ha /)
  })

  it('lets defaults be left out', () => {
    expect(schema.required).toEqual(['farm', 'units', 'time_zone', 'home', 'fields', 'outfits', 'buyers', 'people'])
  })

  it.each(['config/farm.example.yaml', 'config/demo/farm.yaml'])(
    'offers every key of %s, which points to it',
    (path) => {
      const text = readFileSync(path, 'utf8')
      expect(unknownKeys(parse(text), schema)).toEqual([])
      const [, reference] = /^# yaml-language-server: \$schema=(\S+)\n/.exec(text)!
      expect(new URL(reference!, `file:///${path}`).pathname).toBe('/config/farm.schema.json')
    },
  )
})
