/**
 * Values on their way between threads. Structured clone carries typed arrays, maps and what points to one thing twice, but
 * no Temporal: those travel as text. Large arrays are handed over, not copied.
 */

const TEMPORAL = '\u0000temporal'
/** Smaller arrays are copied: one could be a table that its module needs again [bytes]. */
const HANDED_OVER_BYTES = 16_384

interface TemporalText {
  readonly [TEMPORAL]: keyof typeof KINDS
  readonly text: string
}

const KINDS = {
  PlainDate: Temporal.PlainDate,
  PlainTime: Temporal.PlainTime,
  PlainDateTime: Temporal.PlainDateTime,
  Instant: Temporal.Instant,
  ZonedDateTime: Temporal.ZonedDateTime,
  Duration: Temporal.Duration,
} as const
const KIND_NAMES = Object.keys(KINDS) as (keyof typeof KINDS)[]

export interface Packed {
  readonly value: unknown
  /** Buffers to hand over with it: the sender loses them. */
  readonly transfer: readonly ArrayBuffer[]
}

/** @throws TypeError for what would not arrive as it is: functions, instances of classes. */
export function pack(value: unknown): Packed {
  const transfer = new Set<ArrayBuffer>()
  const seen = new Map<object, unknown>()
  const walk = (item: unknown, path: string): unknown => {
    if (typeof item === 'function' || typeof item === 'symbol') throw new TypeError(`${path} is a ${typeof item}`)
    if (typeof item !== 'object' || item === null) return item
    const known = seen.get(item)
    if (known !== undefined) return known
    const keep = <T>(packed: T): T => {
      seen.set(item, packed)
      return packed
    }
    if (ArrayBuffer.isView(item)) {
      const { buffer } = item
      if (buffer instanceof ArrayBuffer && buffer.byteLength >= HANDED_OVER_BYTES) transfer.add(buffer)
      return keep(item)
    }
    const kind = KIND_NAMES.find((name) => item instanceof KINDS[name])
    if (kind) return keep({ [TEMPORAL]: kind, text: String(item) })
    if (Array.isArray(item)) {
      const list: unknown[] = keep([])
      for (const [index, part] of item.entries()) list.push(walk(part, `${path}[${index}]`))
      return list
    }
    if (item instanceof Map) {
      const map = keep(new Map<unknown, unknown>())
      for (const [key, part] of item) map.set(walk(key, path), walk(part, `${path}.${String(key)}`))
      return map
    }
    if (item instanceof Set) {
      const set = keep(new Set<unknown>())
      for (const part of item) set.add(walk(part, path))
      return set
    }
    const prototype: unknown = Object.getPrototypeOf(item)
    if (prototype !== Object.prototype && prototype !== null) throw new TypeError(`${path} is an instance of a class`)
    const record: Record<string, unknown> = keep({})
    for (const [name, part] of Object.entries(item)) record[name] = walk(part, `${path}.${name}`)
    return record
  }
  return { value: walk(value, 'value'), transfer: [...transfer] }
}

/** @param value as it arrived; changed in place. @returns what was packed. */
export function unpack<T>(value: unknown): T {
  const seen = new Map<object, unknown>()
  const walk = (item: unknown): unknown => {
    if (typeof item !== 'object' || item === null || ArrayBuffer.isView(item)) return item
    const known = seen.get(item)
    if (known !== undefined) return known
    if (isTemporalText(item)) {
      const found = KINDS[item[TEMPORAL]].from(item.text)
      seen.set(item, found)
      return found
    }
    seen.set(item, item)
    if (Array.isArray(item)) {
      for (const [index, part] of item.entries()) item[index] = walk(part)
    } else if (item instanceof Map) {
      const entries = [...item]
      item.clear()
      for (const [key, part] of entries) item.set(walk(key), walk(part))
    } else if (item instanceof Set) {
      const parts = [...item]
      item.clear()
      for (const part of parts) item.add(walk(part))
    } else {
      const record = item as Record<string, unknown>
      for (const [name, part] of Object.entries(record)) {
        if (typeof part === 'object' && part !== null) record[name] = walk(part)
      }
    }
    return item
  }
  return walk(value) as T
}

const isTemporalText = (item: object): item is TemporalText => TEMPORAL in item
