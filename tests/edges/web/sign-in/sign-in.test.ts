import { describe, expect, it } from 'vitest'
import { invite, makeToken, ownerLink } from '#app/people.ts'
import { openLogs } from '#edges/logs/logs.ts'
import { machineSecrets } from '#edges/web/sign-in/secrets.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { PASSWORD, siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()
const site = () => siteOf(service)
const cookieIn = (response: Response) => response.headers.get('set-cookie') ?? ''

describe('the first owner', () => {
  it('gets a link only while the farm has none, and the older link ends', async () => {
    const { people } = await site()
    expect(await ownerLink(people)).toBeUndefined()
    for (const { id } of await people.store.accounts(service.farm.id)) {
      if (id !== 'ola-owner') await people.store.removeAccount(service.farm.id, id)
    }
    const bare = { ...people, farm: { ...people.farm, id: 'another-farm' } }
    const first = await ownerLink(bare)
    const second = await ownerLink(bare)
    expect(await bare.store.invitation(bare.secrets.digest(first!))).toBeUndefined()
    expect(await bare.store.invitation(bare.secrets.digest(second!))).toMatchObject({ role: 'owner' })
  })
})

describe('an invitation', () => {
  const invited = async (role: 'crew' | 'planner' = 'crew') => {
    const here = await site()
    const [owner] = await here.people.store.accounts(service.farm.id)
    return { ...here, token: await invite(here.people, role, 'en', owner!) }
  }

  it('is not used up by looking at it, works once, and signs in', async () => {
    const { as, post, token } = await invited()
    for (let looked = 0; looked < 3; looked++) expect((await as(undefined, `/join/${token}`)).status).toBe(200)
    const joined = await post(undefined, `/join/${token}`, { name: 'New Hand', password: PASSWORD })
    expect(joined.status).toBe(303)
    expect(cookieIn(joined)).toMatch(/^threshday_session=[^;]+;.*HttpOnly/i)
    expect(cookieIn(joined)).toMatch(/SameSite=Lax/i)
    expect((await as(undefined, `/join/${token}`)).status).toBe(404)
    expect((await post(undefined, `/join/${token}`, { name: 'Other Hand', password: PASSWORD })).status).toBe(404)
  })

  it('ends after a week', async () => {
    const { as, token, time } = await invited()
    time.laterH = 7 * 24 - 1
    expect((await as(undefined, `/join/${token}`)).status).toBe(200)
    time.laterH = 7 * 24 + 1
    expect((await as(undefined, `/join/${token}`)).status).toBe(404)
  })

  it('keeps its link when the name is taken or the password too short', async () => {
    const { post, token } = await invited()
    expect((await post(undefined, `/join/${token}`, { name: 'OLA  owner', password: PASSWORD })).status).toBe(422)
    expect((await post(undefined, `/join/${token}`, { name: 'New Hand', password: 'too short' })).status).toBe(422)
    expect((await post(undefined, `/join/${token}`, { name: ' ', password: PASSWORD })).status).toBe(422)
    expect((await post(undefined, `/join/${token}`, { name: 'New Hand', password: PASSWORD })).status).toBe(303)
  })

  it('gives two who use it at once one account', async () => {
    const { post, token, people } = await invited()
    const before = (await people.store.accounts(service.farm.id)).length
    const answers = await Promise.all(
      ['One', 'Two'].map((name) => post(undefined, `/join/${token}`, { name, password: PASSWORD })),
    )
    expect(answers.filter(({ status }) => status === 303)).toHaveLength(1)
    expect(await people.store.accounts(service.farm.id)).toHaveLength(before + 1)
  })
})

describe('signing in', () => {
  it('works whatever the letter case of the name, and lasts until signing out', async () => {
    const { app, post } = await site()
    const answer = await post(undefined, '/sign-in', { name: ' cal CREW', password: PASSWORD, next: '/fields' })
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/fields'])
    const [cookie] = cookieIn(answer).split(';')
    const look = () => app.request('/you', { headers: { cookie: cookie! } })
    expect((await look()).status).toBe(200)
    await app.request('/sign-out', { method: 'POST', headers: { cookie: cookie!, 'sec-fetch-site': 'same-origin' } })
    expect((await look()).status).toBe(401)
  })

  it('says the same for a wrong name and a wrong password', async () => {
    const { post } = await site()
    const name = await post(undefined, '/sign-in', { name: 'nobody', password: PASSWORD })
    const password = await post(undefined, '/sign-in', { name: 'Cal Crew', password: 'wrong' })
    expect([name.status, password.status]).toEqual([422, 422])
    expect(await name.text()).toBe(await password.text())
    expect(cookieIn(name) + cookieIn(password)).toBe('')
  })

  it('is refused after ten tries in a quarter of an hour, the right password too', async () => {
    const { post, time } = await site()
    const tries = (password: string) => post(undefined, '/sign-in', { name: 'Cal Crew', password })
    for (let tried = 0; tried < 10; tried++) expect((await tries('wrong')).status).toBe(422)
    expect((await tries(PASSWORD)).status).toBe(429)
    time.laterH = 0.3
    expect((await tries(PASSWORD)).status).toBe(303)
  })

  it('never leads to another site', async () => {
    const { post } = await site()
    for (const next of ['https://evil.example', '//evil.example', '/\\evil.example', 'javascript:alert(1)', '/a\nb']) {
      const answer = await post(undefined, '/sign-in', { name: 'Cal Crew', password: PASSWORD, next })
      expect(answer.headers.get('location')).toBe('/')
    }
  })

  it('ends after sixty days', async () => {
    const { as, time } = await site()
    time.laterH = 60 * 24 - 1
    expect((await as('crew', '/')).status).toBe(200)
    time.laterH = 60 * 24 + 1
    expect((await as('crew', '/')).status).toBe(401)
  })
})

describe('requests that change something', () => {
  const from = (headers: Record<string, string>) => async () => {
    const { app, cookies } = await site()
    const { status } = await app.request('http://farm.example/people/invite', {
      method: 'POST',
      body: new URLSearchParams({ role: 'crew', language: 'en' }),
      headers: { cookie: cookies.owner, ...headers },
    })
    return status
  }

  it('are refused from another site, and without a sign of where they come from', async () => {
    expect(await from({ 'sec-fetch-site': 'cross-site' })()).toBe(403)
    expect(await from({ 'sec-fetch-site': 'same-site' })()).toBe(403)
    expect(await from({ origin: 'https://evil.example', host: 'farm.example' })()).toBe(403)
    expect(await from({ origin: 'null', host: 'farm.example' })()).toBe(403)
    expect(await from({})()).toBe(403)
  })

  it('pass from here', async () => {
    expect(await from({ 'sec-fetch-site': 'same-origin' })()).toBe(200)
    expect(await from({ origin: 'http://farm.example', host: 'farm.example' })()).toBe(200)
  })
})

describe('the owner', () => {
  it('removes a person, whose session ends at once, and never the last owner', async () => {
    const { as, post } = await site()
    expect((await as('crew', '/')).status).toBe(200)
    expect((await post('owner', '/people/remove', { id: 'cal-crew' })).status).toBe(303)
    expect((await as('crew', '/')).status).toBe(401)
    expect((await post('owner', '/people/remove', { id: 'ola-owner' })).status).toBe(409)
    expect((await as('owner', '/people')).status).toBe(200)
  })

  it('makes a token for a program, which can do what its role can until it is ended', async () => {
    const { app, post, people } = await site()
    const page = await (await post('owner', '/people/tokens', { name: 'scale house', role: 'crew' })).text()
    const [, token] = /<code>([^<]+)<\/code>/.exec(page)!
    const ask = (path: string) => app.request(path, { headers: { authorization: `Bearer ${token}` } })
    expect((await ask('/today.json')).status).toBe(200)
    expect((await ask('/people')).status).toBe(403)
    const [kept] = await people.store.tokens(service.farm.id)
    await post('owner', '/people/tokens/end', { digest: kept!.digest })
    expect((await ask('/today.json')).status).toBe(401)
  })

  it('reads who did what', async () => {
    const { post, as } = await site()
    await post('owner', '/people/invite', { role: 'planner', language: 'en' })
    const page = await (await as('owner', '/people')).text()
    expect(page).toContain('Ola Owner invited somebody as planner')
  })
})

describe('secrets', () => {
  it('appear on no page, in no problem and in no log, but for the one that is shown once', async () => {
    const told: string[] = []
    // Told nothing of what is secret, and of every request.
    const log = openLogs({ level: 'debug', format: 'json', secrets: [], write: (line) => told.push(line) })
    const here = await siteOf(service, { log }, machineSecrets())
    const [owner] = await here.people.store.accounts(service.farm.id)
    const invitation = await invite(here.people, 'crew', 'en', owner!)
    const token = await makeToken(here.people, 'scale house', 'crew', owner!)
    const planted = [PASSWORD, invitation, token, ...Object.values(here.cookies).map((cookie) => cookie.split('=')[1]!)]
    for (const { passwordHash } of await here.people.store.accounts(service.farm.id)) planted.push(passwordHash)
    const texts: string[] = []
    const read = async (response: Response) => {
      const isStream = response.headers.get('content-type') === 'text/event-stream'
      if (isStream) await response.body?.cancel()
      texts.push(isStream ? '' : await response.text(), JSON.stringify([...response.headers]))
    }
    for (const { method, path } of here.app.routes) {
      if (method === 'ALL' || path === '/sign-out') continue
      const asked = path.replace(':id', 'mill-forty').replace(':token', invitation)
      for (const role of ['owner', 'crew', undefined] as const) {
        const headers = { 'sec-fetch-site': 'same-origin', authorization: `Bearer ${token}` }
        // An empty body: refused, and nothing is changed or made.
        await read(await here.as(role, asked, method === 'GET' ? {} : { method, headers, body: '' }))
      }
    }
    await read(await here.app.request(`/?token=${token}&x=1`, { headers: { authorization: `Bearer ${token}x` } }))
    await read(await here.post(undefined, '/sign-in', { name: 'Cal Crew', password: `${PASSWORD}!` }))
    await read(await here.post(undefined, `/join/${invitation}`, { name: '', password: PASSWORD }))
    const requests = told.filter((line) => JSON.parse(line).event === 'request')
    expect(requests.length).toBeGreaterThan(100)
    expect(texts.length).toBeGreaterThan(200)
    for (const text of [...texts, ...told]) for (const secret of planted) expect(text).not.toContain(secret)
  })

  it('are kept as digests', async () => {
    const { people, cookies } = await site()
    const session = cookies.crew.split('=')[1]!
    expect(await people.store.session(session)).toBeUndefined()
    expect(await people.store.session(people.secrets.digest(session))).toBeDefined()
  })
})
