/** The long work of a day in a thread of its own, so that nobody waits for it: asked here, done by the script there. */
import { Worker } from 'node:worker_threads'
import type { Cut } from '#core/field/cut.ts'
import type { PlanRules } from '#core/planning/optimiser/plan-rules.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import type { CropName } from '#core/science/crop.ts'
import type { DayPlanner, Prepared } from '#work/day-planner.ts'
import type { DayInput, Foreseen, ToTell } from '#work/make-day.ts'
import type { PlanOptions } from '#work/plan-week.ts'
import { pack, unpack } from './pack.ts'

export interface DayOrder {
  readonly input: DayInput
  readonly cuts: readonly Cut[]
  readonly rules: PlanRules
}

/** What a prepared day is without the functions in it, which don't travel. */
export interface PreparedData {
  readonly foreseen: Omit<Foreseen, 'input' | 'waterMmOf'>
  readonly waterMm: ReadonlyMap<CropName, Float32Array>
  readonly day: ToTell['day']
  readonly planned: (Omit<NonNullable<ToTell['planned']>, 'input'> & { readonly input: object }) | undefined
}

export type ThreadRequest =
  | { readonly kind: 'prepare'; readonly id: number; readonly order: unknown }
  | { readonly kind: 'stop'; readonly id: number }

export type ThreadAnswer =
  | { readonly kind: 'prepared'; readonly id: number; readonly prepared: unknown }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string; readonly stack: string | undefined }
  | { readonly kind: 'log'; readonly line: string }

export interface DayThread extends Pick<DayPlanner, 'prepare'> {
  /** Ends the thread; what is under way is rejected. */
  close(): Promise<void>
}

interface Waiting {
  readonly settle: (prepared: PreparedData) => void
  readonly fail: (reason: unknown) => void
}

/** @param script answers `ThreadRequest`s. @param log told what the thread has to say. */
export function openDayThread(script: URL, options: PlanOptions, log: (line: string) => void): DayThread {
  let worker: Worker | undefined
  let nextId = 0
  const waiting = new Map<number, Waiting>()

  function start(): Worker {
    const started = new Worker(script, { workerData: options })
    const lost = (reason: unknown) => {
      if (worker !== started) return
      worker = undefined
      for (const { fail } of waiting.values()) fail(reason)
      waiting.clear()
    }
    started.on('message', (answer: ThreadAnswer) => {
      if (answer.kind === 'log') return log(answer.line)
      const asked = waiting.get(answer.id)
      waiting.delete(answer.id)
      if (answer.kind === 'prepared') asked?.settle(unpack<PreparedData>(answer.prepared))
      else asked?.fail(Object.assign(new Error(answer.message), { stack: answer.stack }))
    })
    started.on('error', lost)
    started.on('exit', () => lost(new Error('The thread that makes the day has ended.')))
    return started
  }

  const ask = (order: DayOrder, signal: AbortSignal | undefined): Promise<PreparedData> =>
    new Promise((settle, fail) => {
      worker ??= start()
      const asked = worker
      const id = nextId++
      const stop = () => {
        waiting.delete(id)
        asked.postMessage({ kind: 'stop', id } satisfies ThreadRequest)
        fail(signal?.reason)
      }
      const done = () => signal?.removeEventListener('abort', stop)
      waiting.set(id, {
        settle: (prepared) => {
          done()
          settle(prepared)
        },
        fail: (reason) => {
          done()
          fail(reason)
        },
      })
      signal?.addEventListener('abort', stop, { once: true })
      // Copied, not handed over: the weather is still needed here.
      asked.postMessage({ kind: 'prepare', id, order: pack(order).value } satisfies ThreadRequest)
    })

  return {
    async prepare(input, cuts, rules, signal) {
      signal?.throwIfAborted()
      return whole(await ask({ input, cuts, rules }, signal), input)
    },
    async close() {
      const old = worker
      await old?.terminate()
    },
  }
}

/** With its functions again. */
function whole({ foreseen, waterMm, day, planned }: PreparedData, input: DayInput): Prepared {
  const waterMmOf = (crop: CropName): Float32Array => {
    const found = waterMm.get(crop)
    if (!found) throw new RangeError(`No water was reckoned for ${crop}`)
    return found
  }
  const whole = { ...foreseen, input, waterMmOf }
  if (!planned) return { foreseen: whole, planned: { day } }
  const planInput = { ...planned.input, rateOf: rateIn(foreseen.farm) } as NonNullable<ToTell['planned']>['input']
  return { foreseen: whole, planned: { day, planned: { ...planned, input: planInput } } }
}

/** @returns what can travel of a prepared day. */
export function dataOf({ foreseen, planned }: Prepared): PreparedData {
  const { input: _, waterMmOf, ...rest } = foreseen
  // The crops whose dew may be told of: those that stand, and the one taken where nothing does.
  const crops = new Set<CropName>(['soybean', ...foreseen.outlooks.map(({ part }) => part.field.crop)])
  const waterMm = new Map([...crops].map((crop) => [crop, waterMmOf(crop)]))
  if (!planned.planned) return { foreseen: rest, waterMm, day: planned.day, planned: undefined }
  const { rateOf: __, ...planInput } = planned.planned.input
  return { foreseen: rest, waterMm, day: planned.day, planned: { ...planned.planned, input: planInput } }
}
