import { describe, expect, it } from 'vitest'
import { webApp } from '#edges/web/app.ts'
import { ROUTES } from '#edges/web/sign-in/roles.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { siteOf } from '#tests/edges/web/support/people.ts'

const site = await siteOf(await demoService())
const open = await siteOf(await demoService(), { openReading: true })
/** Signing out comes last, it ends a session. */
const routes = site.app.routes
  .filter(({ method }) => method !== 'ALL')
  .filter(
    (route, index, all) =>
      all.findIndex(({ method, path }) => method === route.method && path === route.path) === index,
  )
  .toSorted((a, b) => Number(a.path === '/sign-out') - Number(b.path === '/sign-out'))
const here = { 'sec-fetch-site': 'same-origin' }

/** A path of the route, with something in the place of each parameter. */
const pathOf = (route: string) => route.replace(':id', 'mill-forty').replace(/:\w+/, 'x')

/** What the table must say, written again by hand: the table is not its own truth. */
const MAY = {
  anyone:
    /^(GET (\/assets\/:name|\/health.*|\/sign-in|\/sw\.js|\/manifest\.webmanifest|\/join\/:token)|POST (\/sign-in|\/join\/:token))$/,
  plannersToo:
    /^((GET|POST) \/(messages|settings)|POST \/week\/|(GET|POST) \/api\/(messages|settings)|PUT \/api\/morning-mail|PUT \/api\/fields\.geojson|(POST|DELETE) \/api\/(patches|plan))/,
  ownerOnly:
    /^((GET|POST) \/(people|messages\/hooks)|(GET|POST|DELETE) \/api\/(people|invitations|tokens|audit|hooks(\/secret)?)$)/,
}

describe('roles', () => {
  it('are stated for every route there is, and for none that is not', () => {
    const served = routes.map(({ method, path }) => `${method} ${path}`)
    expect(served.toSorted()).toEqual(Object.keys(ROUTES).toSorted())
  })

  for (const { method, path } of routes) {
    const route = `${method} ${path}`
    it(`hold for ${route}`, async () => {
      const ask = async (which: typeof site, role: 'owner' | 'planner' | 'crew' | undefined) => {
        // The form is empty, so that nothing is changed: what is asked is whether the guard lets it pass.
        const { status, body } = await which.as(role, pathOf(path), {
          method,
          headers: here,
          ...(method === 'POST' ? { body: new URLSearchParams() } : {}),
        })
        // A stream would go on.
        await body?.cancel()
        return status === 401 || status === 403 ? 'refused' : 'passed'
      }
      const signsOut = path === '/sign-out'
      const anyone = MAY.anyone.test(route)
      expect(await ask(site, undefined)).toBe(anyone ? 'passed' : 'refused')
      expect(await ask(site, 'planner')).toBe(MAY.ownerOnly.test(route) ? 'refused' : 'passed')
      if (signsOut) return
      expect(await ask(site, 'crew')).toBe(
        MAY.ownerOnly.test(route) || MAY.plannersToo.test(route) ? 'refused' : 'passed',
      )
      expect(await ask(site, 'owner')).toBe('passed')
      const lookable =
        method === 'GET' && !MAY.ownerOnly.test(route) && !/^(\/you|\/api\/push$)/.test(path) && !/^\/cab\/./.test(path)
      expect(await ask(open, undefined)).toBe(anyone || lookable ? 'passed' : 'refused')
    })
  }

  it('answer a HEAD like the GET of its route', async () => {
    expect((await site.as(undefined, '/fields', { method: 'HEAD' })).status).toBe(401)
    expect((await site.as('crew', '/fields', { method: 'HEAD' })).status).toBe(200)
    expect((await site.as('crew', '/people', { method: 'HEAD' })).status).toBe(403)
  })

  it('refuse a route that the table does not list', async () => {
    const app = webApp(await demoService())
    app.get('/forgotten', (context) => context.text('seen'))
    const response = await app.request('/forgotten')
    expect(response.status).toBe(500)
    expect(await response.text()).not.toContain('seen')
  })

  it('send a stranger who wants a page to sign in, and back to where he was', async () => {
    const response = await site.app.request('/fields/mill-forty', { headers: { accept: 'text/html' } })
    expect(response.status).toBe(303)
    expect(response.headers.get('location')).toBe('/sign-in?next=%2Ffields%2Fmill-forty')
  })
})
