/** Turns what the schema complains of into findings that say what is wrong and what is allowed. */
import type { z } from 'zod'
import { type Finding, nearest } from './faults.ts'

type Path = readonly (string | number)[]
const IS_MISSING = 'is missing'

/** The few facts of a schema that are read here, whatever its kind. */
interface Inside {
  readonly description?: string
  readonly def: {
    readonly type: string
    readonly shape?: { readonly [key: string]: Inside }
    readonly element?: Inside
    readonly innerType?: Inside
    readonly options?: readonly Inside[]
  }
}

export function schemaFindings(schema: z.ZodType, data: unknown, issues: readonly z.core.$ZodIssue[]): Finding[] {
  const inside = schema as unknown as Inside
  const findings = issues.flatMap((issue) => findingsOf(inside, data, issue))
  // A key written wrong is also missed under its right name: told once is enough.
  const meant = findings.flatMap(({ path, atKey }) =>
    atKey ? [keyOf([...path.slice(0, -1), nearestKey(inside, data, path) ?? ''])] : [],
  )
  return findings.filter(({ path, problem }) => problem !== IS_MISSING || !meant.includes(keyOf(path)))
}

const keyOf = (path: Path): string => JSON.stringify(path)

const nearestKey = (schema: Inside, data: unknown, path: Path): string | undefined =>
  nearest(String(path.at(-1)), keysAt(schema, path.slice(0, -1), data))

function findingsOf(schema: Inside, data: unknown, issue: z.core.$ZodIssue): Finding[] {
  const path = issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step))
  const allowed = describedAt(schema, path, data)
  const value = valueAt(data, path)
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownKey(schema, data, path, key))
    case 'invalid_type':
      return [{ path, problem: typeProblem(issue.expected, value), cure: numberHint(issue.expected, value) + allowed }]
    case 'invalid_value':
      return [{ path, problem: value === undefined ? IS_MISSING : 'is not one of the words allowed', cure: allowed }]
    case 'too_small':
      return [{ path, problem: sizeProblem(issue.origin, 'below', 'fewer', issue.minimum), cure: allowed }]
    case 'too_big':
      return [{ path, problem: sizeProblem(issue.origin, 'above', 'more', issue.maximum), cure: allowed }]
    case 'custom':
      return [{ path, problem: issue.message, cure: (issue.params?.cure as string | undefined) ?? allowed }]
    default:
      return [{ path, problem: value === undefined ? IS_MISSING : 'is not written as it should be', cure: allowed }]
  }
}

function unknownKey(schema: Inside, data: unknown, path: Path, key: string): Finding {
  const known = keysAt(schema, path, data)
  const near = nearestKey(schema, data, [...path, key])
  return {
    path: [...path, key],
    problem: 'is not a key known here',
    cure: `${near ? `Did you mean ${near}? ` : ''}Known here: ${known.join(', ')}.`,
    atKey: true,
  }
}

const KIND: { readonly [type: string]: string } = {
  number: 'a number',
  int: 'a whole number',
  string: 'text',
  boolean: 'true or false',
  array: 'a list',
  object: 'a group of keys',
}

function typeProblem(expected: string, value: unknown): string {
  if (value === undefined) return IS_MISSING
  if (value === null) return 'is empty'
  return `is not ${KIND[expected] ?? expected}`
}

/** `width: 35 ft` is the commonest slip: the unit is already told by `units`. */
function numberHint(expected: string, value: unknown): string {
  if ((expected !== 'number' && expected !== 'int') || typeof value !== 'string') return ''
  const bare = /^[^\d-]*(-?\d+(?:[.,]\d+)?)/.exec(value)?.[1]?.replace(',', '.')
  return bare ? `Write the bare number ${bare}. ` : ''
}

function sizeProblem(origin: string, beyond: string, count: string, limit: number | bigint): string {
  if (origin === 'array') return `has ${count} than ${limit} entries`
  if (origin === 'string') return `has ${count} than ${limit} characters`
  return `is ${beyond} ${limit}`
}

const unwrapped = (schema: Inside): Inside => (schema.def.innerType ? unwrapped(schema.def.innerType) : schema)

/** Of a union, the kind the data says it is: `type: MultiPolygon`, `use: recorded`. */
function optionFor(schema: Inside, value: unknown): Inside | undefined {
  const options = schema.def.options
  if (!options) return schema
  const fits = (option: Inside) => {
    const shape = option.def.shape ?? {}
    return Object.entries(shape).some(([key, part]) => {
      const literals = (part.def as { values?: readonly unknown[] }).values
      return literals?.includes((value as Record<string, unknown> | null)?.[key])
    })
  }
  return options.find(fits)
}

function valueAt(data: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, step) =>
      typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[step] : undefined,
    data,
  )
}

/** The description nearest to the path: its own, or that of what holds it. */
function describedAt(schema: Inside, path: Path, data: unknown): string {
  let at: Inside | undefined = schema
  let text = ''
  let value = data
  for (let i = 0; ; i++) {
    text = outermostDescription(at) ?? text
    if (i >= path.length) return text
    const inner = optionFor(unwrapped(at), value)
    text = inner?.description ?? text
    at = inner?.def.shape?.[path[i]!] ?? inner?.def.element
    if (!at) return text
    value = valueAt(value, [path[i]!])
  }
}

function outermostDescription(schema: Inside): string | undefined {
  return schema.description ?? (schema.def.innerType && outermostDescription(schema.def.innerType))
}

function keysAt(schema: Inside, path: Path, data: unknown): string[] {
  let at = optionFor(unwrapped(schema), data)
  let value = data
  for (const step of path) {
    value = valueAt(value, [step])
    const next = at?.def.shape?.[step] ?? at?.def.element
    at = next && optionFor(unwrapped(next), value)
  }
  return Object.keys(at?.def.shape ?? {})
}
