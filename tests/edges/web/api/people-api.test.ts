import { describe, expect, it } from 'vitest'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { asked, PASSWORD, type Site, siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()
type Items = { items: Record<string, string>[]; next: string | null }
const list = async (site: Site, path: string) => (await (await asked(site, 'owner', `GET ${path}`)).json()) as Items

describe('people', () => {
  it('are listed without what lets them in, removed, and the last owner stays', async () => {
    const site = await siteOf(service)
    const { items } = await list(site, '/api/people')
    expect(items.map(({ id, role }) => `${id} ${role}`)).toContain('cal-crew crew')
    expect(JSON.stringify(items)).not.toContain('quick:')
    expect((await asked(site, 'owner', 'DELETE /api/people?id=cal-crew')).status).toBe(204)
    expect((await asked(site, 'crew', 'GET /api/day')).status).toBe(401)
    expect((await asked(site, 'owner', 'DELETE /api/people?id=cal-crew')).status).toBe(409)
    expect((await asked(site, 'owner', 'DELETE /api/people?id=ola-owner')).status).toBe(409)
  })

  it('join by an invitation made here', async () => {
    const site = await siteOf(service)
    const made = await asked(site, 'owner', 'POST /api/invitations', { role: 'crew', language: 'es' })
    expect([made.status, made.headers.get('cache-control')]).toEqual([201, 'no-store'])
    const { link } = (await made.json()) as { link: string }
    const joined = await site.post(undefined, new URL(link).pathname, { name: 'New Hand', password: PASSWORD })
    expect(joined.status).toBe(303)
    const { items } = await list(site, '/api/people')
    expect(items.find(({ id }) => id === 'new-hand')).toMatchObject({ role: 'crew', language: 'es' })
    expect((await asked(site, 'owner', 'POST /api/invitations', { role: 'king' })).status).toBe(422)
  })
})

describe('tokens', () => {
  it('are shown once, open what their role may, and end', async () => {
    const site = await siteOf(service)
    const made = await asked(site, 'owner', 'POST /api/tokens', { name: 'scale house', role: 'crew' })
    const { token } = (await made.json()) as { token: string }
    const ask = async (path: string) =>
      (await site.app.request(path, { headers: { authorization: `Bearer ${token}` } })).status
    expect([await ask('/api/day'), await ask('/api/people')]).toEqual([200, 403])
    const { items } = await list(site, '/api/tokens')
    expect(items).toMatchObject([{ name: 'scale house', role: 'crew', by: 'ola-owner' }])
    expect(JSON.stringify(items)).not.toContain(`"${token}"`)
    expect((await asked(site, 'owner', `DELETE /api/tokens?id=${items[0]!.id}`)).status).toBe(204)
    expect((await asked(site, 'owner', `DELETE /api/tokens?id=${items[0]!.id}`)).status).toBe(404)
    expect(await ask('/api/day')).toBe(401)
    const { items: deeds } = await list(site, '/api/audit')
    expect(
      deeds
        .slice(0, 2)
        .map(({ by, deed }) => `${by} ${deed}`)
        .toSorted(),
    ).toEqual(['ola-owner token-ended', 'ola-owner token-made'])
  })
})
