import { expect, it } from 'vitest'
import { everybody } from '#app/everybody.ts'
import type { Account } from '#app/people-port.ts'
import { demoFarm } from '#tests/app/support/demo.ts'

const account = (id: string): Account => ({
  farmId: 'farm',
  id,
  name: id.toUpperCase(),
  role: 'crew',
  language: 'es',
  passwordHash: '',
  madeAtEpochH: 0,
})

it('is who stands in the farm file, as it says of him, and who joined beside', async () => {
  const farm = await demoFarm()
  const people = everybody(farm, [account('wim-tallow'), account('new-hand')])
  expect(people.slice(0, -1)).toEqual(farm.people)
  expect(people.at(-1)).toEqual({ id: 'new-hand', name: 'NEW-HAND', role: 'crew', language: 'es' })
})
