/** Push subscriptions, webhooks and who wants no mail, in the database. */
import { createHash, randomUUID } from 'node:crypto'
import type { Kysely } from 'kysely'
import { type Address, mailOf, type Subscriptions } from '#app/addresses.ts'

export interface SubscriptionTables {
  push_subscription: { id: string; farm_id: string; person_id: string; endpoint: string; p256dh: string; auth: string }
  webhook: { id: string; farm_id: string; url: string; secrets: string }
  mail_opt_out: { farm_id: string; person_id: string }
  personal_link: { farm_id: string; person_id: string; nth: number }
}

const ID_LENGTH = 22
const SECRETS_KEPT = 2

export function subscriptions<Tables extends SubscriptionTables>(shared: Kysely<Tables>): Subscriptions {
  const database = shared as unknown as Kysely<SubscriptionTables>

  async function hookSecrets(id: string): Promise<readonly string[]> {
    const row = await database.selectFrom('webhook').select('secrets').where('id', '=', id).executeTakeFirst()
    return row ? row.secrets.split(' ') : []
  }

  const pushesOf = (farmId: string, personId: string) =>
    database
      .selectFrom('push_subscription')
      .select(['id', 'endpoint'])
      .where('farm_id', '=', farmId)
      .where('person_id', '=', personId)
      .orderBy('id')
      .execute()

  async function renewLinks(farmId: string, personId: string): Promise<void> {
    await database
      .insertInto('personal_link')
      .values({ farm_id: farmId, person_id: personId, nth: 1 })
      .onConflict((conflict) =>
        conflict.columns(['farm_id', 'person_id']).doUpdateSet((eb) => ({ nth: eb('personal_link.nth', '+', 1) })),
      )
      .execute()
  }

  return {
    async addressesOf(farm, person, kind) {
      const optedOut =
        kind === 'morning' &&
        (await database
          .selectFrom('mail_opt_out')
          .select('person_id')
          .where('farm_id', '=', farm.id)
          .where('person_id', '=', person.id)
          .executeTakeFirst())
      const pushes = await pushesOf(farm.id, person.id)
      return [
        ...(optedOut ? [] : mailOf(person)),
        ...pushes.map(({ id, endpoint }): Address => ({ channel: 'push', recipient: id, target: endpoint })),
      ]
    },

    hooksOf: (farm) =>
      database.selectFrom('webhook').select(['id', 'url']).where('farm_id', '=', farm.id).orderBy('id').execute(),

    async forget({ channel, recipient, farmId }) {
      if (channel === 'mail') return
      const table = channel === 'push' ? 'push_subscription' : 'webhook'
      await database.deleteFrom(table).where('farm_id', '=', farmId).where('id', '=', recipient).execute()
    },

    async addPush(farmId, personId, { endpoint, p256dh, auth }) {
      const id = createHash('sha256').update(endpoint).digest('base64url').slice(0, ID_LENGTH)
      const row = { farm_id: farmId, person_id: personId, endpoint, p256dh, auth }
      await database
        .insertInto('push_subscription')
        .values({ id, ...row })
        .onConflict((conflict) => conflict.column('id').doUpdateSet(row))
        .execute()
      return id
    },

    async removePush(farmId, personId, id) {
      const { numDeletedRows } = await database
        .deleteFrom('push_subscription')
        .where('farm_id', '=', farmId)
        .where('person_id', '=', personId)
        .where('id', '=', id)
        .executeTakeFirst()
      return numDeletedRows > 0n
    },

    pushesOf,

    pushKeys: (id) =>
      database.selectFrom('push_subscription').select(['p256dh', 'auth']).where('id', '=', id).executeTakeFirst(),

    async addHook(farmId, url, secret) {
      const id = randomUUID()
      await database.insertInto('webhook').values({ id, farm_id: farmId, url, secrets: secret }).execute()
      return id
    },

    async removeHook(farmId, id) {
      await database.deleteFrom('webhook').where('farm_id', '=', farmId).where('id', '=', id).execute()
    },

    async changeSecret(farmId, id, secret) {
      const secrets = [secret, ...(await hookSecrets(id))].slice(0, SECRETS_KEPT).join(' ')
      const result = await database
        .updateTable('webhook')
        .set({ secrets })
        .where('farm_id', '=', farmId)
        .where('id', '=', id)
        .executeTakeFirst()
      return result.numUpdatedRows > 0n
    },

    hookSecrets,

    async linksNth(farmId, personId) {
      const row = await database
        .selectFrom('personal_link')
        .select('nth')
        .where('farm_id', '=', farmId)
        .where('person_id', '=', personId)
        .executeTakeFirst()
      return row?.nth ?? 0
    },

    renewLinks,

    async forgetPerson(farmId, personId) {
      await database
        .deleteFrom('push_subscription')
        .where('farm_id', '=', farmId)
        .where('person_id', '=', personId)
        .execute()
      await renewLinks(farmId, personId)
    },

    async setMorningMail(farmId, personId, wanted) {
      if (wanted) {
        await database
          .deleteFrom('mail_opt_out')
          .where('farm_id', '=', farmId)
          .where('person_id', '=', personId)
          .execute()
        return
      }
      await database
        .insertInto('mail_opt_out')
        .values({ farm_id: farmId, person_id: personId })
        .onConflict((conflict) => conflict.columns(['farm_id', 'person_id']).doNothing())
        .execute()
    },
  }
}
