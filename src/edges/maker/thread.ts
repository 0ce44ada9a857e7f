/** Work in another thread: asked here by name, done by the script there, given up when asked to. */
import { Worker } from 'node:worker_threads'
import { pack, unpack } from './pack.ts'

export type ThreadRequest =
  | { readonly kind: 'do'; readonly id: number; readonly what: string; readonly order: unknown }
  | { readonly kind: 'stop'; readonly id: number }

export type ThreadAnswer =
  | { readonly kind: 'done'; readonly id: number; readonly result: unknown }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string; readonly stack: string | undefined }
  | { readonly kind: 'log'; readonly line: string }

export interface Thread {
  /** @param order copied, not handed over. @throws the reason of the signal, or what failed there. */
  ask<T>(what: string, order: unknown, signal?: AbortSignal): Promise<T>
  /** Ends the thread; what is under way is rejected. The next asking starts another. */
  close(): Promise<void>
}

interface Waiting {
  readonly settle: (result: unknown) => void
  readonly fail: (reason: unknown) => void
}

/** @param script answers `ThreadRequest`s; started when first asked. @param log told what the thread has to say. */
export function openThread(script: URL, options: unknown, log: (line: string) => void): Thread {
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
      if (answer.kind === 'done') asked?.settle(unpack(answer.result))
      else asked?.fail(Object.assign(new Error(answer.message), { stack: answer.stack }))
    })
    started.on('error', lost)
    started.on('exit', () => lost(new Error('The thread has ended.')))
    return started
  }

  return {
    async ask<T>(what: string, order: unknown, signal?: AbortSignal): Promise<T> {
      signal?.throwIfAborted()
      worker ??= start()
      const asked = worker
      const id = nextId++
      const { promise, resolve, reject } = Promise.withResolvers<unknown>()
      const stop = () => {
        waiting.delete(id)
        asked.postMessage({ kind: 'stop', id } satisfies ThreadRequest)
        reject(signal?.reason)
      }
      waiting.set(id, { settle: resolve, fail: reject })
      signal?.addEventListener('abort', stop, { once: true })
      asked.postMessage({ kind: 'do', id, what, order: pack(order).value } satisfies ThreadRequest)
      try {
        return (await promise) as T
      } finally {
        signal?.removeEventListener('abort', stop)
      }
    },
    async close() {
      await worker?.terminate()
    },
  }
}
