/** Search among orders: lists of things to be done, changed a little at a time as long as it helps. */
import { type Random, seededRandom } from '#core/units/random.ts'

export type Lists = readonly (readonly number[])[]

export interface Search {
  readonly start: Lists
  /** What is to be made small; Infinity for what is not allowed. */
  readonly cost: (lists: Lists) => number
  /** How often a change is tried. */
  readonly trials: number
  readonly seed: number
  /** Things that may be put in where they are in no list. */
  readonly spare?: readonly number[]
  /** Whether a thing may be left out of all lists. */
  readonly mayDrop?: boolean
  /** Trials without gain after which the search is shaken up and begun anew from the best; absent = never. */
  readonly shakeAfter?: number
}

export interface Found {
  readonly lists: Lists
  readonly cost: number
}

/**
 * Takes every change that does not make it worse: a thing moved, two exchanged, one put in or left out. The same seed
 * gives the same answer. With `shakeAfter` it is an iterated local search (Lourenço, Martin & Stützle 2003).
 * Checked: tests/truth/planning.ts (weighted tardiness of 40 jobs, optimum 913; Graham's three machines).
 */
export function searchLists(search: Search): Found {
  const random = seededRandom(search.seed)
  let now: Found = { lists: search.start, cost: search.cost(search.start) }
  let best = now
  let idle = 0
  for (let trial = 0; trial < search.trials; trial++) {
    const lists = change(now.lists, search, random)
    const cost = search.cost(lists)
    idle = cost < now.cost ? 0 : idle + 1
    if (cost <= now.cost) now = { lists, cost }
    if (now.cost < best.cost) best = now
    if (search.shakeAfter !== undefined && idle >= search.shakeAfter) {
      idle = 0
      let shaken = best.lists
      for (let k = 0; k < 4; k++) shaken = change(shaken, search, random)
      now = { lists: shaken, cost: search.cost(shaken) }
    }
  }
  return best
}

function change(lists: Lists, { spare = [], mayDrop = false }: Search, random: Random): Lists {
  const next = lists.map((list) => [...list])
  const pick = (count: number) => Math.floor(random.uniform() * count)
  const places = next.flatMap((list, l) => list.map((_, at) => ({ l, at })))
  const kind = random.uniform()
  const free = spare.length > 0 ? spare.filter((thing) => random.uniform() < 0.5 || !isIn(next, thing)) : []
  if (free.length > 0 && kind < 0.35) {
    const list = next[pick(next.length)]!
    const thing = free[pick(free.length)]!
    if (!list.includes(thing)) list.splice(pick(list.length + 1), 0, thing)
    return next
  }
  if (places.length === 0) return next
  const from = places[pick(places.length)]!
  if (mayDrop && kind < 0.5) {
    next[from.l]!.splice(from.at, 1)
    return next
  }
  if (kind < 0.75) {
    const [thing] = next[from.l]!.splice(from.at, 1)
    const to = next[pick(next.length)]!
    if (!to.includes(thing!)) to.splice(pick(to.length + 1), 0, thing!)
    else next[from.l]!.splice(from.at, 0, thing!)
    return next
  }
  const other = places[pick(places.length)]!
  const a = next[from.l]![from.at]!
  const b = next[other.l]![other.at]!
  if (from.l !== other.l && (next[from.l]!.includes(b) || next[other.l]!.includes(a))) return next
  next[from.l]![from.at] = b
  next[other.l]![other.at] = a
  return next
}

const isIn = (lists: Lists, thing: number): boolean => lists.some((list) => list.includes(thing))
