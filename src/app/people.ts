/** Use-cases of sign-in: the owner's first link, invitations, joining, signing in and out, tokens for programs. */
import type { Farm, Language } from '#core/operation/farm.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Account, ApiToken, Invitation, PeopleStore, Role, Secrets } from './people-port.ts'

export interface People {
  readonly farm: Farm
  readonly store: PeopleStore
  readonly secrets: Secrets
  readonly clock: () => number
  /** Told of who was removed: his devices and links end too. */
  readonly removed?: (id: string) => Promise<void>
}

/** A harvest lasts some weeks; signing in anew each spring is no burden [h]. */
const SESSION_H = 60 * HOURS_PER_DAY
const INVITATION_H = 7 * HOURS_PER_DAY
const FIRST_START = 'start'
/** NIST SP 800-63B (2025), 3.1.1.2: at least 8 for a password used with nothing else is 15; no rule on its letters. */
export const SHORTEST_PASSWORD = 15
const LONGEST_PASSWORD = 200
const LONGEST_NAME = 60

export type JoinFault = 'link-used' | 'name-missing' | 'name-taken' | 'password-short' | 'password-long'

/** The owner's link while the farm has no owner: made anew at each start, so that an old log opens nothing. */
export async function ownerLink(people: People): Promise<string | undefined> {
  const { farm, store } = people
  const accounts = await store.accounts(farm.id)
  if (accounts.some(({ role }) => role === 'owner')) return undefined
  await store.endInvitationsBy(farm.id, FIRST_START)
  return await makeInvitation(people, 'owner', farm.language, FIRST_START)
}

/** @returns the token of the link, shown once and kept nowhere. */
export async function invite(people: People, role: Role, language: Language, by: Account): Promise<string> {
  const token = await makeInvitation(people, role, language, by.id)
  await note(people, by.id, 'invited', role)
  return token
}

async function makeInvitation({ farm, store, secrets, clock }: People, role: Role, language: Language, by: string) {
  const token = secrets.token()
  await store.invite({
    farmId: farm.id,
    digest: secrets.digest(token),
    role,
    language,
    by,
    endsEpochH: clock() + INVITATION_H,
  })
  return token
}

/** The invitation behind a link, while it can be used. */
export async function openInvitation(people: People, token: string): Promise<Invitation | undefined> {
  const found = await people.store.invitation(people.secrets.digest(token))
  return found && found.farmId === people.farm.id && found.endsEpochH > people.clock() ? found : undefined
}

export type Joined =
  | { readonly kind: 'joined'; readonly session: string; readonly account: Account }
  | { readonly kind: 'refused'; readonly fault: JoinFault }

export async function join(people: People, token: string, name: string, password: string): Promise<Joined> {
  const refused = (fault: JoinFault): Joined => ({ kind: 'refused', fault })
  const invitation = await openInvitation(people, token)
  if (!invitation) return refused('link-used')
  const clean = name.trim().replaceAll(/\s+/g, ' ')
  if (clean === '' || clean.length > LONGEST_NAME || /\p{Cc}/u.test(clean)) return refused('name-missing')
  if ([...password].length < SHORTEST_PASSWORD) return refused('password-short')
  if (password.length > LONGEST_PASSWORD) return refused('password-long')
  if (await people.store.accountNamed(people.farm.id, clean)) return refused('name-taken')
  const account: Account = {
    farmId: people.farm.id,
    id: people.farm.people.find((person) => person.name.toLowerCase() === clean.toLowerCase())?.id ?? idOf(clean),
    name: clean,
    role: invitation.role,
    language: invitation.language,
    passwordHash: await people.secrets.hash(password),
    madeAtEpochH: people.clock(),
  }
  if (!(await people.store.join(invitation.digest, account))) return refused('name-taken')
  await note(people, account.id, 'joined', account.role)
  return { kind: 'joined', session: await startSession(people, account), account }
}

const idOf = (name: string): string =>
  name
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^\p{Letter}\p{Number}]+/gu, '-')
    .replaceAll(/^-|-$/g, '') || 'person'

/** @returns the session's token, or undefined for a wrong name or password: which of the two is not told. */
export async function signIn(people: People, name: string, password: string): Promise<string | undefined> {
  const account = await people.store.accountNamed(people.farm.id, name.trim().replaceAll(/\s+/g, ' '))
  // Hashed for an unknown name too: the time taken must not tell which names there are.
  const hash = account?.passwordHash ?? (await nobody(people.secrets))
  const right = await people.secrets.verify(password.slice(0, LONGEST_PASSWORD + 1), hash)
  if (!account || !right) return undefined
  await note(people, account.id, 'signed-in', '')
  return await startSession(people, account)
}

const nobodies = new WeakMap<Secrets, Promise<string>>()
function nobody(secrets: Secrets): Promise<string> {
  const known = nobodies.get(secrets) ?? secrets.hash(secrets.token())
  nobodies.set(secrets, known)
  return known
}

async function startSession({ farm, store, secrets, clock }: People, account: Account): Promise<string> {
  const token = secrets.token()
  await store.startSession({
    farmId: farm.id,
    digest: secrets.digest(token),
    accountId: account.id,
    startedEpochH: clock(),
    endsEpochH: clock() + SESSION_H,
  })
  return token
}

export async function accountOf(people: People, sessionToken: string): Promise<Account | undefined> {
  const found = await people.store.session(people.secrets.digest(sessionToken))
  if (!found || found.session.farmId !== people.farm.id) return undefined
  return found.session.endsEpochH > people.clock() ? found.account : undefined
}

export async function signOut(people: People, sessionToken: string): Promise<void> {
  const account = await accountOf(people, sessionToken)
  await people.store.endSession(people.secrets.digest(sessionToken))
  if (account) await note(people, account.id, 'signed-out', '')
}

/** @returns the token, shown once and kept nowhere. */
export async function makeToken(people: People, name: string, role: Role, by: Account): Promise<string> {
  const token = people.secrets.token()
  await people.store.addToken({
    farmId: people.farm.id,
    digest: people.secrets.digest(token),
    name: name.trim().slice(0, LONGEST_NAME),
    role,
    by: by.id,
    madeAtEpochH: people.clock(),
  })
  await note(people, by.id, 'token-made', name.trim().slice(0, LONGEST_NAME))
  return token
}

export async function tokenOf(people: People, token: string): Promise<ApiToken | undefined> {
  const found = await people.store.token(people.secrets.digest(token))
  return found?.farmId === people.farm.id ? found : undefined
}

export async function endToken(people: People, digest: string, by: Account): Promise<boolean> {
  const ended = await people.store.endToken(people.farm.id, digest)
  if (ended) await note(people, by.id, 'token-ended', digest.slice(0, 8))
  return ended
}

export async function removeAccount(people: People, id: string, by: Account): Promise<boolean> {
  const removed = await people.store.removeAccount(people.farm.id, id)
  if (!removed) return false
  await people.removed?.(id)
  await note(people, by.id, 'removed', id)
  return true
}

const note = (
  { farm, store, clock }: People,
  by: string,
  deed: Parameters<PeopleStore['audit']>[0]['deed'],
  about: string,
): Promise<void> => store.audit({ farmId: farm.id, atEpochH: clock(), by, deed, about })
