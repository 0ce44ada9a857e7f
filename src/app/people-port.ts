/** Who may do what: accounts, the invitations that make them, sessions, and tokens for programs. Secrets only as digests. */
import type { Language, Person } from '#core/operation/farm.ts'

export type Role = Person['role']

export interface Account {
  readonly farmId: string
  readonly id: string
  /** What is typed to sign in; unlike any other's on the farm, whatever the letter case. */
  readonly name: string
  readonly role: Role
  readonly language: Language
  readonly passwordHash: string
  readonly madeAtEpochH: number
}

export interface Invitation {
  readonly farmId: string
  /** Digest of the token in the link. */
  readonly digest: string
  readonly role: Role
  readonly language: Language
  /** Account id of who invites; `start` for the owner's link of the first start. */
  readonly by: string
  readonly endsEpochH: number
}

export interface Session {
  readonly farmId: string
  readonly digest: string
  readonly accountId: string
  readonly startedEpochH: number
  readonly endsEpochH: number
}

export interface ApiToken {
  readonly farmId: string
  readonly digest: string
  /** What it is for, as its maker called it. */
  readonly name: string
  readonly role: Role
  readonly by: string
  readonly madeAtEpochH: number
}

/** Who did what to whom; never a secret. */
export interface AuditEntry {
  readonly farmId: string
  readonly atEpochH: number
  readonly by: string
  readonly deed: 'joined' | 'signed-in' | 'signed-out' | 'invited' | 'removed' | 'token-made' | 'token-ended'
  readonly about: string
}

export interface PeopleStore {
  accounts(farmId: string): Promise<readonly Account[]>
  accountNamed(farmId: string, name: string): Promise<Account | undefined>
  /** Uses up the invitation and adds the account, both or neither; false when the link is used up or the name taken. */
  join(digest: string, account: Account): Promise<boolean>
  /** Ends its sessions too. The last owner can't be removed. @returns whether it was. */
  removeAccount(farmId: string, id: string): Promise<boolean>

  invite(invitation: Invitation): Promise<void>
  invitation(digest: string): Promise<Invitation | undefined>
  /** Ends every open invitation made by this one. */
  endInvitationsBy(farmId: string, by: string): Promise<void>

  startSession(session: Session): Promise<void>
  /** The session with its account, if both still stand. */
  session(digest: string): Promise<{ readonly session: Session; readonly account: Account } | undefined>
  endSession(digest: string): Promise<void>

  addToken(token: ApiToken): Promise<void>
  token(digest: string): Promise<ApiToken | undefined>
  tokens(farmId: string): Promise<readonly ApiToken[]>
  endToken(farmId: string, digest: string): Promise<boolean>

  audit(entry: AuditEntry): Promise<void>
  /** Newest first. */
  audited(farmId: string, most: number): Promise<readonly AuditEntry[]>
}

/** Chance and secrecy, as the machine does them. */
export interface Secrets {
  /** A token that can't be guessed, fit for a link or a cookie. */
  token(): string
  /** What is kept of a token. */
  digest(token: string): string
  hash(password: string): Promise<string>
  verify(password: string, hash: string): Promise<boolean>
}
