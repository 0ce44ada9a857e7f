/** Who does a deed that is kept with his name. */
import type { Context } from 'hono'
import type { Account } from '#app/people-port.ts'
import type { WebEnv } from './guard.ts'

/** Id of the person, name of the program's token, or empty: under it a deed is kept. */
export const nameIn = (context: Context<WebEnv>): string => context.get('who').name

/** The person who signed in, or the program with its token as if it were one. */
export function actorIn(context: Context<WebEnv>): Account {
  const { account, rights, name } = context.get('who')
  if (account) return account
  if (rights === 'stranger' || rights === 'onlooker') throw new Error('The guard let a stranger through')
  return { farmId: '', id: name, name, role: rights, language: 'en', passwordHash: '', madeAtEpochH: 0 }
}
