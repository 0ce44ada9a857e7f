/** Accounts, invitations, sessions and tokens in the database. */
import type { Kysely, Selectable } from 'kysely'
import type { Account, ApiToken, AuditEntry, Invitation, PeopleStore, Role, Session } from '#app/people-port.ts'

export interface PeopleTables {
  account: AccountRow
  invitation: {
    digest: string
    farm_id: string
    role: Role
    language: Invitation['language']
    by: string
    ends_epoch_h: number
  }
  session: {
    digest: string
    farm_id: string
    account_id: string
    started_epoch_h: number
    ends_epoch_h: number
  }
  api_token: { digest: string; farm_id: string; name: string; role: Role; by: string; made_at_epoch_h: number }
  audit: { farm_id: string; at_epoch_h: number; by: string; deed: AuditEntry['deed']; about: string }
}

interface AccountRow {
  farm_id: string
  id: string
  name: string
  name_key: string
  role: Role
  language: Account['language']
  password_hash: string
  made_at_epoch_h: number
}

/** What two names must not share: letters in one case, composed alike. */
const nameKey = (name: string): string => name.normalize('NFKC').toLowerCase()

export function peopleStore<Tables extends PeopleTables>(shared: Kysely<Tables>): PeopleStore {
  const database = shared as unknown as Kysely<PeopleTables>
  return {
    async accounts(farmId) {
      const rows = await database
        .selectFrom('account')
        .selectAll()
        .where('farm_id', '=', farmId)
        .orderBy('made_at_epoch_h')
        .orderBy('id')
        .execute()
      return rows.map(toAccount)
    },

    async accountNamed(farmId, name) {
      const row = await database
        .selectFrom('account')
        .selectAll()
        .where('farm_id', '=', farmId)
        .where('name_key', '=', nameKey(name))
        .executeTakeFirst()
      return row && toAccount(row)
    },

    join: (digest, account) =>
      database.transaction().execute(async (transaction) => {
        const taken = await transaction
          .selectFrom('account')
          .select('id')
          .where('farm_id', '=', account.farmId)
          .where((eb) => eb.or([eb('name_key', '=', nameKey(account.name)), eb('id', '=', account.id)]))
          .executeTakeFirst()
        if (taken) return false
        const used = await transaction.deleteFrom('invitation').where('digest', '=', digest).executeTakeFirst()
        if (used.numDeletedRows === 0n) return false
        await transaction
          .insertInto('account')
          .values({
            farm_id: account.farmId,
            id: account.id,
            name: account.name,
            name_key: nameKey(account.name),
            role: account.role,
            language: account.language,
            password_hash: account.passwordHash,
            made_at_epoch_h: account.madeAtEpochH,
          })
          .execute()
        return true
      }),

    removeAccount: (farmId, id) =>
      database.transaction().execute(async (transaction) => {
        const owners = await transaction
          .selectFrom('account')
          .select('id')
          .where('farm_id', '=', farmId)
          .where('role', '=', 'owner')
          .execute()
        if (owners.length === 1 && owners[0]!.id === id) return false
        const { numDeletedRows } = await transaction
          .deleteFrom('account')
          .where('farm_id', '=', farmId)
          .where('id', '=', id)
          .executeTakeFirst()
        await transaction.deleteFrom('session').where('farm_id', '=', farmId).where('account_id', '=', id).execute()
        return numDeletedRows > 0n
      }),

    async invite({ farmId, digest, role, language, by, endsEpochH }) {
      await database
        .insertInto('invitation')
        .values({ digest, farm_id: farmId, role, language, by, ends_epoch_h: endsEpochH })
        .execute()
    },

    async invitation(digest) {
      const row = await database.selectFrom('invitation').selectAll().where('digest', '=', digest).executeTakeFirst()
      if (!row) return undefined
      const { farm_id: farmId, role, language, by, ends_epoch_h: endsEpochH } = row
      return { farmId, digest, role, language, by, endsEpochH }
    },

    async endInvitationsBy(farmId, by) {
      await database.deleteFrom('invitation').where('farm_id', '=', farmId).where('by', '=', by).execute()
    },

    async startSession({ farmId, digest, accountId, startedEpochH, endsEpochH }) {
      // Ended sessions go whenever a new one comes.
      await database.deleteFrom('session').where('ends_epoch_h', '<=', startedEpochH).execute()
      await database
        .insertInto('session')
        .values({
          digest,
          farm_id: farmId,
          account_id: accountId,
          started_epoch_h: startedEpochH,
          ends_epoch_h: endsEpochH,
        })
        .execute()
    },

    async session(digest) {
      const row = await database.selectFrom('session').selectAll().where('digest', '=', digest).executeTakeFirst()
      if (!row) return undefined
      const account = await database
        .selectFrom('account')
        .selectAll()
        .where('farm_id', '=', row.farm_id)
        .where('id', '=', row.account_id)
        .executeTakeFirst()
      return account && { session: toSession(row), account: toAccount(account) }
    },

    async endSession(digest) {
      await database.deleteFrom('session').where('digest', '=', digest).execute()
    },

    async addToken({ farmId, digest, name, role, by, madeAtEpochH }) {
      await database
        .insertInto('api_token')
        .values({ digest, farm_id: farmId, name, role, by, made_at_epoch_h: madeAtEpochH })
        .execute()
    },

    async token(digest) {
      const row = await database.selectFrom('api_token').selectAll().where('digest', '=', digest).executeTakeFirst()
      return row && toToken(row)
    },

    async tokens(farmId) {
      const rows = await database
        .selectFrom('api_token')
        .selectAll()
        .where('farm_id', '=', farmId)
        .orderBy('made_at_epoch_h')
        .orderBy('digest')
        .execute()
      return rows.map(toToken)
    },

    async endToken(farmId, digest) {
      const { numDeletedRows } = await database
        .deleteFrom('api_token')
        .where('farm_id', '=', farmId)
        .where('digest', '=', digest)
        .executeTakeFirst()
      return numDeletedRows > 0n
    },

    async audit({ farmId, atEpochH, by, deed, about }) {
      await database.insertInto('audit').values({ farm_id: farmId, at_epoch_h: atEpochH, by, deed, about }).execute()
    },

    async audited(farmId, most) {
      const rows = await database
        .selectFrom('audit')
        .selectAll()
        .where('farm_id', '=', farmId)
        .orderBy('at_epoch_h', 'desc')
        .limit(most)
        .execute()
      return rows.map(({ by, deed, about, at_epoch_h: atEpochH }) => ({ farmId, atEpochH, by, deed, about }))
    },
  }
}

const toAccount = (row: Selectable<AccountRow>): Account => ({
  farmId: row.farm_id,
  id: row.id,
  name: row.name,
  role: row.role,
  language: row.language,
  passwordHash: row.password_hash,
  madeAtEpochH: row.made_at_epoch_h,
})

const toSession = (row: Selectable<PeopleTables['session']>): Session => ({
  farmId: row.farm_id,
  digest: row.digest,
  accountId: row.account_id,
  startedEpochH: row.started_epoch_h,
  endsEpochH: row.ends_epoch_h,
})

const toToken = (row: Selectable<PeopleTables['api_token']>): ApiToken => ({
  farmId: row.farm_id,
  digest: row.digest,
  name: row.name,
  role: row.role,
  by: row.by,
  madeAtEpochH: row.made_at_epoch_h,
})
