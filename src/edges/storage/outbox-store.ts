/** The outbox in the database. Each change is one statement, so that two processes never take the same parcel. */
import type { ExpressionBuilder, Kysely, Selectable } from 'kysely'
import { type Claim, type KeptParcel, type OutboxStore, type Parcel, parcelKey } from '#app/outbox-port.ts'

export interface OutboxTables {
  outbox: OutboxRow
}

interface OutboxRow {
  key: string
  farm_id: string
  kind: string
  subject: string
  date: string
  channel: KeptParcel['channel']
  recipient: string
  target: string
  body: string
  urgent: number
  created_epoch_h: number
  closes_epoch_h: number
  state: KeptParcel['state']
  attempts: number
  next_epoch_h: number
  touched_epoch_h: number
  owner: string
  last_reason: string
  reference: string
}

/** A row touched so long in the future was touched before the clock was set back [h]. */
const CLOCK_SLACK_H = 1 / 60

export function outboxStore<Tables extends OutboxTables>(shared: Kysely<Tables>): OutboxStore {
  const database = shared as unknown as Kysely<OutboxTables>
  return {
    async post(parcels) {
      if (parcels.length === 0) return 0
      const result = await database
        .insertInto('outbox')
        .values(parcels.map(toRow))
        .onConflict((conflict) => conflict.column('key').doNothing())
        .executeTakeFirst()
      return Number(result.numInsertedOrUpdatedRows ?? 0n)
    },

    async posted(farmId, kind, subject, date) {
      const row = await database
        .selectFrom('outbox')
        .select('key')
        .where('farm_id', '=', farmId)
        .where('kind', '=', kind)
        .where('subject', '=', subject)
        .where('date', '=', date)
        .limit(1)
        .executeTakeFirst()
      return row !== undefined
    },

    async claim({ channel, urgentOnly, owner, nowEpochH, leaseH }: Claim) {
      const due = dueAt(nowEpochH)
      const row = await database
        .updateTable('outbox')
        .set((eb) => ({
          state: 'sending' as const,
          owner,
          attempts: eb('attempts', '+', 1),
          touched_epoch_h: nowEpochH,
          next_epoch_h: nowEpochH + leaseH,
        }))
        .where('key', '=', (eb) =>
          eb
            .selectFrom('outbox')
            .select('key')
            .where('channel', '=', channel)
            .where('urgent', '>=', urgentOnly ? 1 : 0)
            .where('closes_epoch_h', '>', nowEpochH)
            .where(due)
            .orderBy('urgent', 'desc')
            .orderBy('created_epoch_h')
            .orderBy('key')
            .limit(1),
        )
        // Said twice: a server of many connections looks at the row again once it holds it, not at the inner question.
        .where(due)
        .returningAll()
        .executeTakeFirst()
      return row && fromRow(row)
    },

    async settleSent(key, reference, atEpochH) {
      await database
        .updateTable('outbox')
        .set({ state: 'sent', reference, last_reason: '', touched_epoch_h: atEpochH })
        .where('key', '=', key)
        .execute()
    },

    async settleFailed(key, owner, { state, nextEpochH, atEpochH, reason }) {
      await database
        .updateTable('outbox')
        .set({ state, next_epoch_h: nextEpochH, last_reason: reason, touched_epoch_h: atEpochH })
        .where('key', '=', key)
        .where('state', '=', 'sending')
        .where('owner', '=', owner)
        .execute()
    },

    async lapse(atEpochH) {
      const rows = await database
        .updateTable('outbox')
        .set({ state: 'lapsed', touched_epoch_h: atEpochH })
        .where('closes_epoch_h', '<=', atEpochH)
        .where(({ eb, or, and }) =>
          or([eb('state', '=', 'waiting'), and([eb('state', '=', 'sending'), eb('next_epoch_h', '<=', atEpochH)])]),
        )
        .returningAll()
        .execute()
      return rows.map(fromRow)
    },

    undelivered: (farmId, most) => list(farmId, ['dead', 'lapsed'], most),
    recent: (farmId, most) => list(farmId, ['waiting', 'sending', 'sent', 'dead', 'lapsed'], most),

    async resend(key, atEpochH, closesEpochH) {
      const result = await database
        .updateTable('outbox')
        .set({ state: 'waiting', attempts: 0, next_epoch_h: atEpochH, closes_epoch_h: closesEpochH })
        .where('key', '=', key)
        .where('state', 'in', ['dead', 'lapsed'])
        .executeTakeFirst()
      return result.numUpdatedRows > 0n
    },
  }

  async function list(farmId: string, states: KeptParcel['state'][], most: number) {
    const rows = await database
      .selectFrom('outbox')
      .selectAll()
      .where('farm_id', '=', farmId)
      .where('state', 'in', states)
      .orderBy('created_epoch_h', 'desc')
      .orderBy('key')
      .limit(most)
      .execute()
    return rows.map(fromRow)
  }
}

/** Waiting and its time has come, or claimed by a process that did not come back. */
const dueAt =
  (nowEpochH: number) =>
  ({ eb, and, or }: ExpressionBuilder<OutboxTables, 'outbox'>) =>
    and([
      eb('outbox.state', 'in', ['waiting', 'sending']),
      or([
        eb('outbox.next_epoch_h', '<=', nowEpochH),
        // The clock was set back since: waiting for it to come round again could take hours.
        eb('outbox.touched_epoch_h', '>', nowEpochH + CLOCK_SLACK_H),
      ]),
    ])

const toRow = (parcel: Parcel): OutboxRow => ({
  key: parcelKey(parcel),
  farm_id: parcel.farmId,
  kind: parcel.kind,
  subject: parcel.subject,
  date: parcel.date,
  channel: parcel.channel,
  recipient: parcel.recipient,
  target: parcel.target,
  body: parcel.body,
  urgent: parcel.urgent ? 1 : 0,
  created_epoch_h: parcel.createdEpochH,
  closes_epoch_h: parcel.closesEpochH,
  state: 'waiting',
  attempts: 0,
  next_epoch_h: parcel.createdEpochH,
  touched_epoch_h: parcel.createdEpochH,
  owner: '',
  last_reason: '',
  reference: '',
})

const fromRow = (row: Selectable<OutboxRow>): KeptParcel => ({
  key: row.key,
  farmId: row.farm_id,
  kind: row.kind,
  subject: row.subject,
  date: row.date,
  channel: row.channel,
  recipient: row.recipient,
  target: row.target,
  body: row.body,
  urgent: row.urgent === 1,
  createdEpochH: row.created_epoch_h,
  closesEpochH: row.closes_epoch_h,
  state: row.state,
  attempts: row.attempts,
  nextEpochH: row.next_epoch_h,
  touchedEpochH: row.touched_epoch_h,
  lastReason: row.last_reason,
  reference: row.reference,
})
