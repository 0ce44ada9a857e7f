/** The thread that makes days and answers the planner: the whole of the long work, with the solver beside it. */
import { parentPort, workerData } from 'node:worker_threads'
import { dayPlanner } from '#app/day-planner.ts'
import type { PlanOptions } from '#app/plan-week.ts'
import { seasonUnder } from '#app/season-ahead.ts'
import { weekWork } from '#app/week-work.ts'
import { type DayOrder, dataOf, PREPARE } from '#edges/maker/day-thread.ts'
import { pack, unpack } from '#edges/maker/pack.ts'
import { SEASON, type SeasonOrder } from '#edges/maker/season-thread.ts'
import type { ThreadAnswer, ThreadRequest } from '#edges/maker/thread.ts'
import {
  COST_OF_PINS,
  REPLAN,
  type ReplanOrder,
  type WeekOrder,
  WORTH_OF_MORE,
  wholeInput,
} from '#edges/maker/week-thread.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'

const port = parentPort
if (!port) throw new Error('This is the script of a thread')
const say = (answer: ThreadAnswer, transfer: readonly ArrayBuffer[] = []) => port.postMessage(answer, [...transfer])
const solver = createHighsSolver()
const planner = dayPlanner(solver, (line) => say({ kind: 'log', line }), workerData as PlanOptions)
const week = weekWork(solver)

const WORK: { readonly [what: string]: (order: unknown, signal: AbortSignal) => Promise<unknown> } = {
  [PREPARE]: async (order, signal) => {
    const { input, cuts, rules } = order as DayOrder
    return dataOf(await planner.prepare(input, cuts, rules, signal))
  },
  [REPLAN]: async (order, signal) => {
    const { input, before, changes } = order as ReplanOrder
    const { plan, difference } = await week.replan(wholeInput(input), before, changes, signal)
    return { plan, difference }
  },
  [COST_OF_PINS]: (order) => week.costOfPins(wholeInput((order as WeekOrder).input), (order as WeekOrder).week),
  [SEASON]: async (order) => await seasonUnder((order as SeasonOrder).day, (order as SeasonOrder).years),
  [WORTH_OF_MORE]: (order) => week.worthOfMore(wholeInput((order as WeekOrder).input)),
}
const underWay = new Map<number, AbortController>()

port.on('message', (request: ThreadRequest) => {
  if (request.kind === 'stop') underWay.get(request.id)?.abort()
  else void work(request)
})

async function work({ id, what, order }: ThreadRequest & { kind: 'do' }): Promise<void> {
  const stopping = new AbortController()
  underWay.set(id, stopping)
  try {
    const { value, transfer } = pack(await WORK[what]!(unpack(order), stopping.signal))
    say({ kind: 'done', id, result: value }, transfer)
  } catch (failure) {
    const { message, stack } = failure instanceof Error ? failure : new Error(String(failure))
    say({ kind: 'failed', id, message, stack })
  } finally {
    underWay.delete(id)
  }
}
