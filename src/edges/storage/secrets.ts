/** Keys that the service makes for itself at its first start and keeps: for links, for pushes. */
import type { Kysely } from 'kysely'

export interface SecretTables {
  service_secret: { name: string; value: string }
}

/** @returns what is kept under the name, made now where there is nothing yet; two instances get the same. */
export async function keptSecret<Tables extends SecretTables>(
  shared: Kysely<Tables>,
  name: string,
  make: () => string,
): Promise<string> {
  const database = shared as unknown as Kysely<SecretTables>
  const find = () => database.selectFrom('service_secret').select('value').where('name', '=', name).executeTakeFirst()
  const found = await find()
  if (found) return found.value
  await database
    .insertInto('service_secret')
    .values({ name, value: make() })
    .onConflict((conflict) => conflict.column('name').doNothing())
    .execute()
  return (await find())!.value
}
