import { describe, expect, it } from 'vitest'
import { parcelKey } from '#work/outbox-port.ts'
import { demoService } from './support/demo-service.ts'
import { siteOf } from './support/people.ts'

const service = await demoService()
const name = {
  farmId: service.farm.id,
  kind: 'morning',
  subject: '',
  date: '2010-09-30',
  channel: 'mail',
  recipient: 'wim-tallow',
} as const

const withOne = async () => {
  const site = await siteOf(service)
  const now = service.clock()
  const parcel = { ...name, target: 'wim@example.org', body: '{}', urgent: false }
  await site.outbox.post([{ ...parcel, createdEpochH: now - 5, closesEpochH: now - 1 }])
  return { ...site, key: parcelKey(name) }
}

describe('messages', () => {
  it('shows what waits, and what lapsed with a way to send it again', async () => {
    const { as, post, outbox, key } = await withOne()
    expect(await (await as('planner', '/messages')).text()).toContain('0 sent, 1 waiting, none not through.')
    await outbox.lapse(service.clock())
    const page = await (await as('planner', '/messages')).text()
    expect(page).toContain('0 sent, none waiting, 1 not through.')
    expect(page).toContain('Send again: Morning message to Wim Tallow')
    expect((await post('planner', '/messages/resend', { key })).status).toBe(303)
    expect((await outbox.recent(service.farm.id, 10))[0]!.state).toBe('waiting')
    expect((await post('planner', '/messages/resend', { key })).status).toBe(409)
  })

  it('never resends the message of another farm', async () => {
    const { post, outbox } = await siteOf(service)
    const now = service.clock()
    const other = { ...name, farmId: 'another-farm', target: 'x@example.org', body: '{}', urgent: false }
    await outbox.post([{ ...other, createdEpochH: now - 5, closesEpochH: now - 1 }])
    await outbox.lapse(now)
    expect((await post('planner', '/messages/resend', { key: parcelKey(other) })).status).toBe(409)
    expect((await outbox.recent('another-farm', 1))[0]!.state).toBe('lapsed')
  })

  it('names everybody of the farm, and who can not be reached', async () => {
    const { as } = await siteOf({
      ...service,
      farm: {
        ...service.farm,
        people: service.farm.people.map(({ email, ...rest }, index) =>
          index === 0 || !email ? rest : { ...rest, email },
        ),
      },
    })
    const page = await (await as('owner', '/messages')).text()
    for (const person of service.farm.people) expect(page).toContain(person.name)
    expect(page.match(/not reached/g)).toHaveLength(1)
  })
})
