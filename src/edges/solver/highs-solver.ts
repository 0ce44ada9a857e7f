/** HiGHS behind the solver port: one worker thread, restarted when it has grown, cancelled by ending it. */
import { Worker } from 'node:worker_threads'
import { type Solved, type SolveOptions, type Solver, SolverFailure } from '#app/solver-port.ts'
import { faultsOf, type LinearModel, objectiveOf, violationOf } from '#core/planning/optimiser/linear/linear-model.ts'
import type { WorkerAnswer, WorkerRequest } from './worker.ts'

export interface HighsSolver extends Solver {
  /** Ends the thread; a solve that is under way is rejected. */
  close(): Promise<void>
}

/** WebAssembly memory never shrinks: beyond this the thread is replaced after the solve [MB]. */
const RECYCLE_ABOVE_MB = 256
/** Largest overstepping of a row or column taken for rounding; HiGHS itself works to 1e-6 or 1e-7. */
const VIOLATION_LIMIT = 1e-5
/** A bound above the objective by less than this share is rounding. */
const BOUND_SLACK = 1e-6

/** @param soon it will be asked soon: its thread starts at once, beside what comes first. */
export function createHighsSolver({ soon = false } = {}): HighsSolver {
  const start = () => new Worker(new URL('./worker.ts', import.meta.url))
  let worker: Worker | undefined = soon ? start() : undefined
  worker?.unref()
  let nextId = 0
  let queue: Promise<unknown> = Promise.resolve()

  const drop = async (): Promise<void> => {
    const old = worker
    worker = undefined
    await old?.terminate()
  }

  const ask = (request: WorkerRequest, signal: AbortSignal | undefined): Promise<WorkerAnswer> => {
    worker ??= start()
    const current = worker
    return new Promise((resolve, reject) => {
      const done = (settle: () => void) => {
        current.off('message', onMessage)
        current.off('error', onError)
        current.off('exit', onExit)
        signal?.removeEventListener('abort', onAbort)
        current.unref()
        settle()
      }
      const onMessage = (answer: WorkerAnswer) => {
        if (answer.id === request.id) done(() => resolve(answer))
      }
      const onError = (error: unknown) => {
        worker = undefined
        done(() => reject(new SolverFailure(`The solver's thread failed: ${String(error)}`, { cause: error })))
      }
      const onExit = () => done(() => reject(new SolverFailure("The solver's thread ended.")))
      const onAbort = () => {
        done(() => reject(signal!.reason))
        void drop()
      }
      current.on('message', onMessage)
      current.on('error', onError)
      current.on('exit', onExit)
      signal?.addEventListener('abort', onAbort)
      current.ref()
      current.postMessage(request)
    })
  }

  const solveNow = async (model: LinearModel, options: SolveOptions): Promise<Solved> => {
    options.signal?.throwIfAborted()
    const { signal, start, ...limits } = options
    const whole = start?.length === model.cols
    const sound = start !== undefined && (!whole || violationOf(model, start) <= VIOLATION_LIMIT)
    const reply = await ask({ id: nextId++, run: { model, ...limits, ...(sound ? { start } : {}) } }, signal)
    if ('error' in reply) {
      await drop()
      throw new SolverFailure(reply.error)
    }
    if (reply.heapMb > RECYCLE_ABOVE_MB) await drop()
    return checked(model, reply)
  }

  return {
    solve(model, options = {}) {
      const faults = faultsOf(model)
      if (faults.length > 0) return Promise.reject(new SolverFailure(`Unsound model: ${faults.slice(0, 3).join('; ')}`))
      const turn = queue.then(() => solveNow(model, options))
      queue = turn.catch(() => undefined)
      return turn
    },
    close: drop,
  }
}

/** Never a solution that does not hold up against the model, nor a bound that contradicts it. */
function checked(model: LinearModel, reply: Extract<WorkerAnswer, { answer: unknown }>): Solved {
  const { answer, seconds, heapMb } = reply
  if (answer.status === 'failed') throw new SolverFailure(`The solver gave up (status ${answer.code}).`)
  const { values } = answer
  const base = { status: answer.status, nodes: answer.nodes, seconds, heapMb, rowPrices: answer.rowPrices }
  const lowest = Number.isNaN(answer.bound) ? Number.NEGATIVE_INFINITY : answer.bound
  if (!values) {
    if (answer.status === 'optimal') throw new SolverFailure('The solver says optimal and gives no solution.')
    return { ...base, values, objective: Number.NaN, bound: lowest }
  }
  for (let j = 0; j < model.cols; j++) if (model.integer[j] === 1) values[j] = Math.round(values[j]!)
  const violation = violationOf(model, values)
  if (!(violation <= VIOLATION_LIMIT))
    throw new SolverFailure(`The solver's solution breaks the model by ${violation}.`)
  const objective = objectiveOf(model, values)
  if (lowest > objective + BOUND_SLACK * Math.max(1, Math.abs(objective))) {
    throw new SolverFailure(`The solver's bound ${lowest} lies above its solution ${objective}.`)
  }
  return { ...base, values, objective, bound: Math.min(lowest, objective) }
}
