/** Everybody who is told things: the people of the farm file, and who joined under a name that does not stand in it. */
import type { Farm, Person } from '#core/operation/farm.ts'
import type { Account } from './people-port.ts'

/** Owner and planner, who are told what is to be decided; the crew is told by alerts. */
export const deciders = (people: readonly Person[]): readonly Person[] => people.filter(({ role }) => role !== 'crew')

export function everybody({ people }: Farm, accounts: readonly Account[]): Person[] {
  const known = new Set(people.map(({ id }) => id))
  const joined = accounts.filter(({ id }) => !known.has(id))
  return [...people, ...joined.map(({ id, name, role, language }): Person => ({ id, name, role, language }))]
}
