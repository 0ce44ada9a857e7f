/** node tests/faults/chaos-run.ts [runs] [seed] [at once]: prints what `chaos` counts; 500 runs take about ten minutes. */
import { chaos } from './chaos.ts'

const [runs = '500', seed = '1', atOnce = '4'] = process.argv.slice(2)
const figures = await chaos(Number(runs), Number(seed), Number(atOnce))
process.stdout.write(`${JSON.stringify(figures, undefined, 2)}\n`)
process.exitCode = figures.lost + figures.unexplained + figures.otherId > 0 ? 1 : 0
