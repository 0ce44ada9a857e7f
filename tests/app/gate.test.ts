import { expect, test } from 'vitest'
import { gate } from '#app/gate.ts'

test('no more than so many inside, all get through, also after failures', async () => {
  const door = gate(3)
  let inside = 0
  let most = 0
  const done = await Promise.allSettled(
    Array.from({ length: 50 }, (_, n) =>
      door.through(async () => {
        most = Math.max(most, ++inside)
        await new Promise((resolve) => setImmediate(resolve))
        inside--
        if (n % 7 === 0) throw new Error('no')
        return n
      }),
    ),
  )
  expect(most).toBe(3)
  expect(done.filter(({ status }) => status === 'fulfilled')).toHaveLength(42)
})
