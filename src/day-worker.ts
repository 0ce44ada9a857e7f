/** The thread that makes the day: the whole of the long work, with the solver beside it. */
import { parentPort, workerData } from 'node:worker_threads'
import { type DayOrder, dataOf, type ThreadAnswer, type ThreadRequest } from '#edges/maker/day-thread.ts'
import { pack, unpack } from '#edges/maker/pack.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { dayPlanner } from '#work/day-planner.ts'
import type { PlanOptions } from '#work/plan-week.ts'

const port = parentPort
if (!port) throw new Error('This is the script of a thread')
const say = (answer: ThreadAnswer, transfer: readonly ArrayBuffer[] = []) => port.postMessage(answer, [...transfer])
const planner = dayPlanner(createHighsSolver(), (line) => say({ kind: 'log', line }), workerData as PlanOptions)
const underWay = new Map<number, AbortController>()

port.on('message', (request: ThreadRequest) => {
  if (request.kind === 'stop') underWay.get(request.id)?.abort()
  else void prepare(request.id, unpack<DayOrder>(request.order))
})

async function prepare(id: number, { input, cuts, rules }: DayOrder): Promise<void> {
  const stopping = new AbortController()
  underWay.set(id, stopping)
  try {
    const prepared = await planner.prepare(input, cuts, rules, stopping.signal)
    const { value, transfer } = pack(dataOf(prepared))
    say({ kind: 'prepared', id, prepared: value }, transfer)
  } catch (failure) {
    const { message, stack } = failure instanceof Error ? failure : new Error(String(failure))
    say({ kind: 'failed', id, message, stack })
  } finally {
    underWay.delete(id)
  }
}
