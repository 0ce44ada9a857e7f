/** Everybody who is told things: the people of the farm file, and who joined under a name that does not stand in it. */
import type { Farm, Person } from '#core/operation/farm.ts'
import type { Account } from './people-port.ts'

export function everybody({ people }: Farm, accounts: readonly Account[]): Person[] {
  const known = new Set(people.map(({ id }) => id))
  const joined = accounts.filter(({ id }) => !known.has(id))
  return [...people, ...joined.map(({ id, name, role, language }): Person => ({ id, name, role, language }))]
}
