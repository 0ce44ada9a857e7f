/** Recorded bodies for the tests, and the marks of templated ones turned into times. */
import { readFileSync } from 'node:fs'
import { instantOf } from '#core/units/time.ts'

const FIXTURES = new URL('../../../fixtures/', import.meta.url)

export const textOf = (path: string): string => readFileSync(new URL(path, FIXTURES), 'utf8')
export const bodyOf = (path: string): unknown => JSON.parse(textOf(path))

const UNIT_H: { readonly [unit: string]: number } = { second: 1 / 3600, minute: 1 / 60, hour: 1, day: 24 }
const MARK =
  /^date:(?:(now:hour|now)|today (\d{2}):(\d{2}):([+-]\d+))(?: ([+-]?\d+) (second|minute|hour|day)s?)?(?: \/ (P\S+))?$/

/**
 * @param hourEpochH what "now:hour" means; the bodies were made so that it need not be a full hour
 * @returns a copy with every "date:..." mark replaced by a time, and spans written as `start/duration`
 */
export function resolved<T>(body: T, nowEpochH: number, hourEpochH: number = Math.floor(nowEpochH)): T {
  if (typeof body === 'string') return resolvedMark(body, nowEpochH, hourEpochH) as T
  if (Array.isArray(body)) return body.map((part) => resolved(part, nowEpochH, hourEpochH)) as T
  if (typeof body !== 'object' || body === null) return body
  return Object.fromEntries(
    Object.entries(body).map(([key, value]) => [key, resolved(value, nowEpochH, hourEpochH)]),
  ) as T
}

function resolvedMark(text: string, nowEpochH: number, hourEpochH: number): string {
  if (!text.startsWith('date:')) return text
  const parts = MARK.exec(text)
  if (parts === null) throw new Error(`the mark "${text}" is not understood`)
  const [, anchor, hour, minute, offset, amount, unit, duration] = parts
  const midnight = Math.floor(nowEpochH / 24) * 24
  const from =
    anchor === 'now'
      ? nowEpochH
      : anchor === 'now:hour'
        ? hourEpochH
        : midnight + Number(hour) + Number(minute) / 60 - Number(offset)
  const stamp = instantOf(from + Number(amount ?? 0) * (unit === undefined ? 0 : UNIT_H[unit]!))
    .round('second')
    .toString()
    .replace('Z', '+00:00')
  return duration === undefined ? stamp : `${stamp}/${duration}`
}

interface Layer {
  readonly values: { readonly validTime: string }[]
}
const HOURS_MARK = /^date:now:hour ([+-]?\d+) hours \/ (P\S+)$/

/**
 * The templated /gridpoints body of Nebraska. Its makers cut hours towards zero, so that "0 hours" stands for both the
 * hour of now and the next one, and every later mark is one hour short. Here each span after now starts where the one
 * before it ends; where that cannot be told, one hour is added.
 */
export function resolvedNebraska(nowEpochH: number): unknown {
  const body = bodyOf('nws/templated_gridpoint_OAX_59_58_raw.json') as { properties: { [name: string]: unknown } }
  for (const part of Object.values(body.properties)) {
    const values = (part as Layer | null)?.values
    if (!Array.isArray(values)) continue
    let zeros = 0
    for (const value of values) {
      const parts = HOURS_MARK.exec(value.validTime)
      if (parts === null) continue
      const hours = Number(parts[1])
      if (hours === 0) zeros += 1
      const isLate = hours > 0 || (hours === 0 && (zeros > 1 || endsAfterNow(values, value)))
      Object.assign(value, { validTime: `date:now:hour ${hours + (isLate ? 1 : 0)} hours / ${parts[2]}` })
    }
  }
  return resolved(body, nowEpochH)
}

/** Whether the span before this one reaches beyond the hour of now. */
function endsAfterNow(values: Layer['values'], value: { readonly validTime: string }): boolean {
  const before = HOURS_MARK.exec(values[values.indexOf(value) - 1]?.validTime ?? '')
  if (before === null) return false
  return Number(before[1]) + Temporal.Duration.from(before[2]!).total('hours') > 0
}
