import { expect, it } from 'vitest'
import { chaos } from './chaos.ts'

const RUNS = 30

it(`loses no letter in ${RUNS} runs that are killed, and doubles one only where the answer was lost`, async () => {
  const figures = await chaos(RUNS, 2_026, 4)
  expect(figures).toMatchObject({ lost: 0, unexplained: 0, otherId: 0, letters: 2 * RUNS })
  // The trial itself must bite: processes were killed, and the server was in every mood.
  expect(figures.kills).toBeGreaterThan(RUNS / 2)
  for (const count of Object.values(figures.answers)) expect(count).toBeGreaterThan(0)
}, 900_000)
