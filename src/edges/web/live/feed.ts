/** What happens, told at once to whoever listens (server-sent events, WHATWG HTML 9.2); each has its number. */
import { createHash, randomUUID } from 'node:crypto'
import type { Happening } from '#app/happenings.ts'
import type { DayMade } from '#app/morning.ts'

export interface Told {
  readonly id: string
  readonly event: 'day' | 'message' | 'told' | 'missed'
  readonly data: Readonly<Record<string, string | boolean | null>>
}

/** Takes an event. @returns false when it can take no more: it is dropped. */
export type Listener = (told: Told) => boolean

export interface LiveFeed {
  hear(happening: Happening): void
  /**
   * @param lastId the last event that was heard before, where there was one.
   * @returns undefined when there are too many already. Events missed since `lastId` come first.
   */
  listen(listener: Listener, lastId: string | undefined, ended: () => void): (() => void) | undefined
  /** Ends every listener. */
  close(): void
}

const MOST_LISTENERS = 200
/** So many are told again to who was away. */
const KEPT = 256

export function liveFeed(): LiveFeed {
  // Numbers of another run of the program mean nothing here.
  const run = randomUUID().slice(0, 8)
  const kept: Told[] = []
  const listeners = new Map<Listener, () => void>()
  let count = 0
  let newest: Told | undefined

  function tell(event: Told['event'], data: Told['data']): Told {
    const told: Told = { id: `${run}-${++count}`, event, data }
    kept.push(told)
    if (kept.length > KEPT) kept.shift()
    for (const [listener, ended] of listeners) {
      if (listener(told)) continue
      listeners.delete(listener)
      ended()
    }
    return told
  }

  return {
    hear(happening) {
      switch (happening.kind) {
        case 'day-made':
          newest = tell('day', dayData(happening.made))
          return
        case 'message': {
          const { key, channel, recipient } = happening.parcel
          tell('message', { key, channel, recipient, state: happening.state })
          return
        }
        case 'told':
          tell('told', {})
      }
    },

    listen(listener, lastId, ended) {
      if (listeners.size >= MOST_LISTENERS) return undefined
      listeners.set(listener, ended)
      const at = kept.findIndex(({ id }) => id === lastId)
      const last: Told = { id: `${run}-${count}`, event: 'missed', data: {} }
      // Who comes anew hears which day is the newest: his page may be older.
      const first = lastId === undefined ? (newest ? [newest] : []) : at < 0 ? [last] : kept.slice(at + 1)
      for (const told of first) listener(told)
      return () => listeners.delete(listener)
    },

    close() {
      for (const ended of listeners.values()) ended()
      listeners.clear()
    },
  }
}

const dayData = (made: DayMade): Told['data'] => ({
  date: made.message.date.toString(),
  headline: made.message.headline.kind,
  ...marksOf(made),
})

/** What tells a page's day from another, and its plan. */
export function marksOf(made: DayMade): Marks {
  const known = marks.get(made) ?? { made: made.message.nowEpochH.toFixed(4), plan: planMark(made) }
  marks.set(made, known)
  return known
}

export interface Marks {
  readonly made: string
  readonly plan: string
}
/** Asked for with every page. */
const marks = new WeakMap<DayMade, Marks>()

/** Tells one plan from another: what is cut when by whom, and what waits. A day made again of the same plan has the same. */
export function planMark({ message, day }: DayMade): string {
  const runs = day?.plan.runs.map(({ part, outfitId, startEpochH, endEpochH }) => [
    part.key,
    outfitId,
    Math.round(startEpochH * 12),
    Math.round(endEpochH * 12),
  ])
  const waiting = day?.plan.waiting.map(({ part, reason }) => [part.key, reason])
  const text = JSON.stringify([message.date.toString(), message.headline.kind, runs, waiting])
  return createHash('sha256').update(text).digest('base64url').slice(0, 16)
}
