/** The thread in which HiGHS blocks: takes one request after the other, answers each. */
import { parentPort } from 'node:worker_threads'
import highsModule from 'highs'
import { type RunAnswer, type RunRequest, runHighs } from './highs-run.ts'

export interface WorkerRequest {
  readonly id: number
  readonly run: RunRequest
}

export type WorkerAnswer =
  | { readonly id: number; readonly answer: RunAnswer; readonly seconds: number; readonly heapMb: number }
  | { readonly id: number; readonly error: string }

const BYTES_PER_MB = 1_048_576
const MS_PER_S = 1000

if (!parentPort) throw new Error('This file is the body of a worker thread.')
const port = parentPort
// The package declares a CommonJS shape; as an ES module its default export is the loader itself.
const loadHighs = highsModule as unknown as typeof highsModule.default
const highs = await loadHighs()

port.on('message', ({ id, run }: WorkerRequest) => {
  try {
    const begun = performance.now()
    const answer = runHighs(highs, run)
    const seconds = (performance.now() - begun) / MS_PER_S
    port.postMessage({ id, answer, seconds, heapMb: heapMb() } satisfies WorkerAnswer)
  } catch (error) {
    port.postMessage({ id, error: String(error) } satisfies WorkerAnswer)
  }
})

/** Memory outside the JavaScript heap, most of it HiGHS's own. */
function heapMb(): number {
  return process.memoryUsage().external / BYTES_PER_MB
}
