import { describe, expect, it } from 'vitest'
import { type Circuit, CLOSED } from '#app/circuit.ts'
import { parcelKey } from '#app/outbox-port.ts'
import { invite, join } from '#app/people.ts'
import { demoService } from './support/demo-service.ts'
import { PASSWORD, siteOf } from './support/people.ts'

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

  it('tells times and dates as people say them, in the language of who reads', async () => {
    const { as, people, app } = await withOne()
    expect(await (await as('planner', '/messages')).text()).toContain(
      '<th scope="row"><time datetime="2010-09-30T00:30-05:00">Sep 30 0:30</time></th>\n<td>Morning message<small><time datetime="2010-09-30">Sep 30</time></small>',
    )
    const owner = (await people.store.accounts(service.farm.id)).find(({ role }) => role === 'owner')!
    const joined = await join(people, await invite(people, 'planner', 'es', owner), 'Pilar', PASSWORD)
    if (joined.kind === 'refused') throw new Error(joined.fault)
    const spanish = await app.request('/messages', { headers: { cookie: `threshday_session=${joined.session}` } })
    expect(await spanish.text()).toContain('<time datetime="2010-09-30T00:30-05:00">30 sept 0:30</time>')
  })

  it('names who is written to, though he joined and stands in no farm file', async () => {
    const { as, outbox } = await siteOf(service)
    const now = service.clock()
    const parcel = { ...name, recipient: 'pat-planner', target: 'pat@example.org', body: '{}', urgent: false }
    await outbox.post([{ ...parcel, createdEpochH: now, closesEpochH: now + 1 }])
    expect(await (await as('planner', '/messages')).text()).toContain('<td>Pat Planner<small>')
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

  it('tells by what each way goes and whether it works: a circuit that is open, until when', async () => {
    const { as } = await siteOf(service)
    const page = await (await as('planner', '/messages')).text()
    expect(page).toContain(
      'Mail by mail.example.org:587, from Farm &lt;farm@example.org&gt;, signed for example.org: works',
    )
    expect(page).toContain('Webhooks: none: works')
    const now = service.clock()
    const { reach } = await siteOf(service)
    const open: Circuit = { failures: 4, openUntilEpochH: now + 0.1 }
    const broken = await siteOf(service, { reach: { ...reach, circuitOf: (way) => (way === 'mail' ? open : CLOSED) } })
    const told = await (await broken.as('planner', '/messages')).text()
    expect(told).toMatch(
      /signed for example\.org: paused until <time datetime="2010-09-30T05:36-05:00">Sep 30 5:36<\/time> after 4 failures in a row; fire stops are still tried/,
    )
    const over: Circuit = { failures: 4, openUntilEpochH: now - 0.1 }
    const half = await siteOf(service, { reach: { ...reach, circuitOf: () => over } })
    expect(await (await half.as('planner', '/messages')).text()).toContain('trying again after 4 failures in a row')
  })

  it('sends a test to a person, and says how many ways it goes', async () => {
    const { as, post, outbox } = await siteOf(service)
    const tested = await post('planner', '/messages/test', { person: 'wim-tallow' })
    expect(await (await as('planner', tested.headers.get('location')!)).text()).toContain('on its way, one way.')
    expect(await outbox.recent(service.farm.id, 9)).toMatchObject([{ kind: 'test', recipient: 'wim-tallow' }])
    const none = await post('planner', '/messages/test', { person: 'cal-crew' })
    expect(await (await as('planner', none.headers.get('location')!)).text()).toContain('no way to reach them')
    expect((await post('planner', '/messages/test', { person: 'nobody' })).status).toBe(400)
  })

  it('ends the morning mail of a person and begins it again', async () => {
    const { as, post } = await siteOf(service)
    expect((await post('planner', '/messages/mail', { person: 'wim-tallow', wanted: 'no' })).status).toBe(303)
    const page = await (await as('planner', '/messages')).text()
    expect(page).toContain('wim@example.org; no morning mail')
    expect(page).toContain('Send the morning mail to Wim Tallow again')
    await post('planner', '/messages/mail', { person: 'wim-tallow', wanted: 'yes' })
    expect(await (await as('planner', '/messages')).text()).not.toContain('no morning mail')
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
    // Beside the one without an address, the three who joined under names that the farm file does not know.
    expect(page.match(/not reached/g)).toHaveLength(4)
  })
})
