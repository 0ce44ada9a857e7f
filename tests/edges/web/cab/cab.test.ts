import { describe, expect, it } from 'vitest'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()
const KEY = '0123456789abcdef0123456789abcdef'
const reading = { field: 'mill-forty', moisture: '12.4', instrument: 'combine' }

describe('the cab page', () => {
  it('says what runs, until when, the moisture to expect, wind and fire', async () => {
    const { app } = await siteOf(service, { openReading: true })
    const page = await (await app.request('/cab')).text()
    const { day } = await service.current()
    expect(page).toContain(day!.plan.runs[0]!.part.field.name)
    // Before it begins, the figures of the morning message.
    const [first] = day!.plan.runs
    const said = (wb: number) => `${wb.toFixed(1)}%`
    expect(page).toContain(`Expect ${said(first!.startMoistureWb)}, ${said(first!.endMoistureWb)} at the end.`)
    expect(page).toMatch(/Wind |Fire/)
    expect(page.match(/class="big" href="\/cab\//g)).toHaveLength(3)
  })
})

describe('a reading', () => {
  it('is kept under the name of who signed in, at the moment it was typed', async () => {
    const { post, records } = await siteOf(service)
    const answer = await post('crew', '/cab/reading', { ...reading, key: KEY, agoS: '3600' })
    expect(answer.status).toBe(201)
    const [kept] = await records.current(service.farm.id, 'reading')
    expect(kept).toMatchObject({ key: KEY, by: 'cal-crew', body: { moistureWb: 12.4, partKey: 'mill-forty' } })
    expect(kept!.atEpochH).toBeCloseTo(service.clock() - 1, 5)
  })

  it('sent again by the queue, later and together, counts once', async () => {
    const { post, records } = await siteOf(service)
    const answers = await Promise.all(
      ['10', '40', '75'].map((agoS) => post('crew', '/cab/reading', { ...reading, key: KEY, agoS })),
    )
    answers.push(await post('crew', '/cab/reading', { ...reading, key: KEY, agoS: '500' }))
    expect(await records.current(service.farm.id, 'reading')).toHaveLength(1)
    expect(answers.map(({ status }) => status)).toContain(201)
    expect(answers.at(-1)!.status).toBe(201)
  })

  it('that can not be is refused with a sentence, and nothing is kept', async () => {
    const { post, records } = await siteOf(service)
    const answer = await post('crew', '/cab/reading', { ...reading, moisture: '124' })
    expect(answer.status).toBe(422)
    expect(await answer.json()).toMatchObject({ detail: expect.stringContaining('124') })
    for (const bad of [{ ...reading, moisture: 'wet' }, { ...reading, instrument: 'guess' }, {}]) {
      expect((await post('crew', '/cab/reading', bad as Record<string, string>)).status).toBe(400)
    }
    expect((await post('crew', '/cab/reading', { ...reading, field: 'nowhere' })).status).toBe(422)
    expect(await records.history(service.farm.id, 'reading')).toHaveLength(0)
  })

  it('is taken from a plain form, which leads back to the cab', async () => {
    const { as } = await siteOf(service)
    const answer = await as('crew', '/cab/reading', {
      method: 'POST',
      body: new URLSearchParams({ ...reading, moisture: '12,4' }),
      headers: { accept: 'text/html', 'sec-fetch-site': 'same-origin' },
    })
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/cab?told=reading'])
  })

  it('makes the day anew', async () => {
    let changes = 0
    const site = await siteOf({
      ...service,
      changed: () => {
        changes++
      },
    })
    await site.post('crew', '/cab/reading', { ...reading, key: KEY })
    await site.post('crew', '/cab/reading', { ...reading, moisture: '999' })
    expect(changes).toBe(1)
  })
})

describe('acres done', () => {
  it('are turned into hectares', async () => {
    const { post, records } = await siteOf(service)
    expect((await post('crew', '/cab/cut', { field: 'mill-forty', area: '10', key: KEY })).status).toBe(201)
    const [kept] = await records.current(service.farm.id, 'cut')
    // 1 international acre = 0.40468564224 ha (NIST Handbook 44, appendix C).
    expect(kept!.body.areaHa).toBeCloseTo(4.0468564224, 9)
  })

  it('may be left out where the field is done', async () => {
    const { post, records } = await siteOf(service)
    expect((await post('crew', '/cab/cut', { field: 'mill-forty', area: '', done: 'yes', key: KEY })).status).toBe(201)
    expect((await records.current(service.farm.id, 'cut'))[0]!.body.done).toBe(true)
    expect((await post('crew', '/cab/cut', { field: 'mill-forty', area: '' })).status).toBe(422)
  })
})

describe('a problem', () => {
  it('reaches an owner who joined under a name that the farm file does not know, on his phone', async () => {
    const site = await siteOf(await demoService())
    const { farm } = site.people
    await site.reach.subscriptions.addPush(farm.id, 'ola-owner', {
      endpoint: 'https://push.example.org/o',
      p256dh: 'p',
      auth: 'a',
    })
    await site.post('crew', '/cab/problem', {
      field: 'mill-forty',
      kind: 'stuck',
      text: 'By the ditch',
      key: KEY,
      agoS: '5',
    })
    const pushed = (await site.outbox.recent(farm.id, 20)).filter(({ channel }) => channel === 'push')
    expect(pushed.map(({ kind, target }) => [kind, target])).toEqual([['problem', 'https://push.example.org/o']])
  })

  it('goes to owner and planner at once, urgent, and once', async () => {
    const { post, outbox } = await siteOf(service)
    const told = { field: 'mill-forty', kind: 'breakdown', text: 'Feeder house <chain> off', key: KEY, agoS: '5' }
    expect((await post('crew', '/cab/problem', told)).status).toBe(201)
    expect((await post('crew', '/cab/problem', { ...told, agoS: '65' })).status).toBe(201)
    const posted = await outbox.recent(service.farm.id, 10)
    const reached = service.farm.people.filter(({ role, email }) => role !== 'crew' && email !== undefined)
    expect(posted.map(({ target }) => target).toSorted()).toEqual(reached.map(({ email }) => email!).toSorted())
    for (const { urgent, body } of posted) {
      expect(urgent).toBe(true)
      const letter = JSON.parse(body)
      expect(letter.subject).toBe('Problem: Breakdown, Mill Forty')
      expect(letter.text).toContain('Feeder house <chain> off')
      expect(letter.html).toContain('&lt;chain&gt;')
    }
  })

  it('says so where nobody can be reached', async () => {
    const lonely = await demoService({ farm: (farm) => ({ ...farm, people: [] }) })
    const { post } = await siteOf(lonely)
    const answer = await post('crew', '/cab/problem', { field: 'mill-forty', kind: 'stuck', text: '' })
    expect(answer.status).toBe(422)
  })
})

describe('a form of the cab that is refused', () => {
  const send = async (kind: string, form: Readonly<Record<string, string>>, role: 'crew' | 'spanish' = 'crew') => {
    const { as } = await siteOf(service)
    const answer = await as(role, `/cab/${kind}`, {
      method: 'POST',
      body: new URLSearchParams(form),
      headers: { accept: 'text/html', 'sec-fetch-site': 'same-origin' },
    })
    expect(answer.status).toBe(422)
    return await answer.text()
  }
  const whyAt = (page: string, name: string) => {
    const [, id] = new RegExp(` name="${name}"[^>]* aria-invalid="true" aria-describedby="([^"]+)"`).exec(page)!
    return new RegExp(`id="${id}"[^>]*>([^<]*)<`).exec(page)![1]!
  }

  it('comes back as it was typed, with the reason at what is wrong', async () => {
    const wet = await send('reading', { field: 'far-half', moisture: '99,5', instrument: 'ticket' })
    expect(whyAt(wet, 'moisture')).toContain('not the moisture of a standing crop')
    expect(wet).toContain('value="99,5"')
    expect(wet).toContain('<option value="far-half" selected>')
    expect(wet).toContain('<option value="ticket" selected>')

    const word = await send('reading', { field: 'far-half', moisture: 'wet <b>', instrument: 'hand' })
    expect(whyAt(word, 'moisture')).toMatch(/^Write a number above 0/)
    expect(word).toContain('value="wet &lt;b&gt;"')
    expect(word).toContain('<option value="hand" selected>')

    const acres = await send('cut', { field: 'mill-forty', area: '9000', done: 'yes' })
    expect(whyAt(acres, 'area')).toMatch(/^9000 acres is more than/)
    expect(acres).toMatch(/name="done" value="yes" checked/)

    const told = { field: 'nowhere', kind: 'fire', text: 'By the <ditch>\nsouth end' }
    const gone = await send('problem', told)
    expect(whyAt(gone, 'field')).toMatch(/^No field is called/)
    expect(gone).toContain('<option value="nowhere" selected>nowhere</option>')
    expect(gone).toContain('<option value="fire" selected>')
    expect(gone).toContain('By the &lt;ditch&gt;\nsouth end</textarea>')
    const long = await send('problem', { ...told, field: 'mill-forty', text: 'x'.repeat(501) })
    expect(whyAt(long, 'text')).toBe('At most 500 characters.')
    expect(long).toContain('x'.repeat(501))
  })

  it('is told in the language of who sent it', async () => {
    const page = await send('reading', { field: 'far-half', moisture: 'seco', instrument: 'hand' }, 'spanish')
    expect(whyAt(page, 'moisture')).toMatch(/^Escriba un número mayor que 0/)
  })
})
