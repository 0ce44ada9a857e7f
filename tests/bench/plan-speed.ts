/** Times, gaps and memory of the planner on random farms: node tests/bench/plan-speed.ts [jobs days crews members seeds] */

import { solveProblem } from '#app/plan-week.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { randomPlan } from '#tests/support/random-plan.ts'

const [jobs = 40, days = 14, crews = 3, members = 20, seeds = 3] = process.argv.slice(2).map(Number)
const solver = createHighsSolver()
const MB = 1_048_576
console.log(`${jobs} fields, ${days} days, ${crews} outfits, ${members} members`)
for (let seed = 1; seed <= seeds; seed++) {
  const problem = randomPlan({ seed, jobs, days, crews, members })
  const begun = performance.now()
  const cpu = process.cpuUsage()
  const { found } = await solveProblem(problem, solver)
  const seconds = (performance.now() - begun) / 1000
  const { user, system } = process.cpuUsage(cpu)
  const fallback = await solveProblem(problem, undefined)
  const gap = (loss: number, least: number) => `${((100 * (loss - least)) / loss).toFixed(2)} %`
  console.log(
    `seed ${seed}: ${found.status}, loss ${found.loss.toFixed(0)}, gap ${gap(found.loss, found.leastLoss)}, ` +
      `${seconds.toFixed(1)} s (CPU ${((user + system) / 1e6).toFixed(1)} s, solver ${found.seconds.toFixed(1)} s), ${Math.round(process.memoryUsage().rss / MB)} MB; ` +
      `by hand ${gap(fallback.found.loss, found.leastLoss)} of the solver's bound, ` +
      `${gap(fallback.found.loss, fallback.found.leastLoss)} of its own`,
  )
}
await solver.close()
