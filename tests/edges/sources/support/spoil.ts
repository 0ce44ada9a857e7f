/** Ways to spoil a service's good body, without knowing which service it is. */
import { epochHoursOf } from '#core/units/time.ts'
import { stampOf } from './power.ts'

/** @returns a copy with every value that is neither list nor object changed; what becomes undefined is gone. */
export function everywhere(part: unknown, change: (value: unknown, key: string) => unknown, key = ''): unknown {
  if (Array.isArray(part)) return part.map((inner) => everywhere(inner, change, key))
  if (typeof part !== 'object' || part === null) return change(part, key)
  return Object.fromEntries(Object.entries(part).map(([name, inner]) => [name, everywhere(inner, change, name)]))
}

export const numbers = (change: (value: number) => unknown) => (body: unknown) =>
  everywhere(body, (value) => (typeof value === 'number' ? change(value) : value))

const UNITS = /^(?:wmoUnit:|celsius$|°?C$|m\/s$|%$|mm(?:\/hour)?$|Wh?\/m|Degrees$)/
export const unknownUnits = (body: unknown) =>
  everywhere(body, (value) => (typeof value === 'string' && UNITS.test(value) ? 'furlong' : value))

/** @returns a copy without the members of these names, and without the same of single ensemble members. */
export const without = (names: readonly string[]) => {
  const strip = (part: unknown): unknown => {
    if (Array.isArray(part)) return part.map(strip)
    if (typeof part !== 'object' || part === null) return part
    return Object.fromEntries(
      Object.entries(part)
        .filter(([name]) => !names.some((gone) => name === gone || name.startsWith(`${gone}_member`)))
        .map(([name, inner]) => [name, strip(inner)]),
    )
  }
  return strip
}
export const TEMPERATURES = ['temperature', 'air_temperature', 'temperature_2m', 'T2M']
export const HUMIDITIES = ['relativeHumidity', 'relative_humidity', 'relative_humidity_2m', 'dewpoint', 'RH2M']

/** Keys that are hours, such as 2025020207: a list in another coat. */
const STAMP = /^\d{10}$/

/** @returns a copy in which every list is empty. */
export function emptied(part: unknown): unknown {
  if (Array.isArray(part)) return []
  if (typeof part !== 'object' || part === null) return part
  if (STAMP.test(Object.keys(part)[0] ?? '')) return {}
  return Object.fromEntries(Object.entries(part).map(([name, inner]) => [name, emptied(inner)]))
}

export const cutOff = (body: unknown): string => {
  const whole = JSON.stringify(body)
  return whole.slice(0, Math.floor(whole.length * 0.7))
}

/** Numbers too large for any number: they parse to infinity. */
export const infinite = (body: unknown): string =>
  JSON.stringify(body)
    .replaceAll(/:\s*-?\d+\.\d+/g, ':1e999')
    .replaceAll(/\[\d+(\.\d+)?,/g, '[1e999,')

const INSTANT = /\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::\d{2})?(?:Z|[+-]\d{2}:\d{2})?/g

/** @returns a copy with every time in it moved, each kept in its own way of writing. */
export const moved = (hours: number) => (body: unknown) =>
  everywhere(movedStamps(body, hours), (value) =>
    typeof value !== 'string'
      ? value
      : value.replaceAll(INSTANT, (text) => {
          const offset = /(?:Z|[+-]\d{2}:\d{2})$/.exec(text)?.[0] ?? ''
          const local = Temporal.PlainDateTime.from(text.slice(0, text.length - offset.length)).add({ hours })
          return local.toString({ smallestUnit: /T\d{2}:\d{2}:\d{2}/.test(text) ? 'second' : 'minute' }) + offset
        }),
  )

function movedStamps(part: unknown, hours: number): unknown {
  if (Array.isArray(part)) return part.map((inner) => movedStamps(inner, hours))
  if (typeof part !== 'object' || part === null) return part
  return Object.fromEntries(
    Object.entries(part).map(([key, inner]) => [
      STAMP.test(key) ? stampOf(epochHoursOfStamp(key) + hours) : key,
      movedStamps(inner, hours),
    ]),
  )
}

function epochHoursOfStamp(stamp: string): number {
  const [, date, hour] = /^(\d{8})(\d{2})$/.exec(stamp)!
  return epochHoursOf(Temporal.PlainDate.from(date!).toZonedDateTime('UTC').toInstant()) + Number(hour)
}
