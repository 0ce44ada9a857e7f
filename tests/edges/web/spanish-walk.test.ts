/** What a Spanish-speaking hand meets on the way from the invitation to the cab. */
import { beforeAll, describe, expect, it } from 'vitest'
import { invite } from '#app/people.ts'
import { english } from '#edges/web/words/english.ts'
import { spanish } from '#edges/web/words/spanish.ts'
import { demoService } from './support/demo-service.ts'
import { type Site, siteOf } from './support/people.ts'

let site: Site
beforeAll(async () => {
  site = await siteOf(await demoService())
})
const sent = (role: Parameters<Site['as']>[0], path: string, form: Record<string, string>) =>
  site.as(role, path, {
    method: 'POST',
    body: new URLSearchParams(form),
    headers: { accept: 'text/html', 'sec-fetch-site': 'same-origin' },
  })

describe('who is invited in Spanish', () => {
  it('joins on a page in Spanish, and is told in Spanish what is wrong with a password', async () => {
    const { people } = site
    const owner = (await people.store.accounts(people.farm.id)).find(({ role }) => role === 'owner')!
    const path = `/join/${await invite(people, 'crew', 'es', owner)}`
    const page = await (await site.as(undefined, path)).text()
    expect(page).toContain('<html lang="es">')
    expect(page).toContain(`<h1>Unirse a ${people.farm.name} como cuadrilla.</h1>`)
    const short = await sent(undefined, path, { name: 'Luz', password: 'corta' })
    expect(await short.text()).toContain('Esa contraseña es muy corta.')
  })

  it('reads in Spanish who joined as what', async () => {
    const { people } = site
    const owner = (await people.store.accounts(people.farm.id)).find(({ role }) => role === 'owner')!
    const { join } = await import('#app/people.ts')
    const joined = await join(people, await invite(people, 'owner', 'es', owner), 'Dora', 'cuatro palabras mias')
    if (joined.kind === 'refused') throw new Error(joined.fault)
    const page = await site.app.request('/people', { headers: { cookie: `threshday_session=${joined.session}` } })
    const text = await page.text()
    expect(text).toContain('Dora se unió como dueño')
    expect(text).toContain('Ola Owner invitó a alguien como dueño')
    expect(text).not.toMatch(/ como (owner|planner|crew)/)
  })
})

describe('who has not signed in', () => {
  const signIn = async (language: string, path = '/sign-in') =>
    await (await site.app.request(path, { headers: { accept: 'text/html', 'accept-language': language } })).text()

  it('signs in on a page in the language of his browser, where it is one of ours, else in that of the farm', async () => {
    for (const language of ['es', 'es-MX,es;q=0.9,en;q=0.8', 'fr,es;q=0.7,en;q=0.3', 'en;q=0.2,es-US']) {
      expect(await signIn(language)).toContain('<html lang="es">')
    }
    for (const language of ['en-US,en;q=0.9,es;q=0.8', 'fr', '', '*', ';;q=x']) {
      expect(await signIn(language)).toContain('<html lang="en">')
    }
    expect(await signIn('es')).toContain('<h1>Entrar</h1>')
  })

  it('is told so of a wrong password, and of a link that is used up', async () => {
    const wrong = await site.app.request('/sign-in', {
      method: 'POST',
      body: new URLSearchParams({ name: 'Luz', password: 'no' }),
      headers: { accept: 'text/html', 'accept-language': 'es', 'sec-fetch-site': 'same-origin' },
    })
    expect(await wrong.text()).toContain('El nombre o la contraseña no es correcto.')
    expect(await signIn('es', '/join/used-up')).toContain('Aquí no hay nada.')
  })

  it('but once signed in reads his own language, whatever the browser asks for', async () => {
    const page = await site.as('spanish', '/nowhere', { headers: { accept: 'text/html', 'accept-language': 'en' } })
    expect(await page.text()).toContain('<html lang="es">')
  })
})

describe('the words of the pages', () => {
  it('name recorded weather in the language of who reads', async () => {
    expect(await (await site.as('spanish', '/')).text()).toMatch(/Tiempo de hace menos de 1 h, tiempo grabado;/)
    expect(await (await site.as('spanish', '/cab')).text()).not.toContain('recorded weather')
    expect(await (await site.as('crew', '/')).text()).toContain('recorded weather;')
  })

  it('ask for the area where none was told, and never speak of NaN', async () => {
    const cut = { field: 'mill-forty', area: '' }
    expect(await (await sent('spanish', '/cab/cut', cut)).text()).toContain(
      'Diga cuánto se cortó, o que está todo cortado.',
    )
    expect(await (await sent('crew', '/cab/cut', cut)).text()).toContain('Say how much was cut, or that all of it is.')
  })

  it('call a field done, not fit, by its deadline', () => {
    expect(spanish.plan.deadlineForm).toBe('Tener un lote terminado')
    expect(spanish.plan.change.deadline('Far Half', 'martes')).toBe('Far Half terminado a más tardar el martes')
  })

  it('name days off, chances and areas as people say them', () => {
    expect(spanish.plan.change.daysOff('Main outfit', ['lunes', 'domingo'])).toBe(
      'Main outfit descansa el lunes y el domingo',
    )
    expect(spanish.plan.day('sábado', 'casi imposible', false)).toBe('sábado: listo, casi imposible')
    expect(spanish.season.likelyLeft('148 acres', 'viernes')).toBe(
      'lo más probable es que después del viernes queden cerca de 148 acres.',
    )
    expect(spanish.field.closes('sin cuadrilla')).toBe('luego: sin cuadrilla')
    expect([english.plan.visits(['Far Half']), spanish.plan.visits(['Far Half'])]).toEqual([
      'That day Far Half.',
      'Ese día Far Half.',
    ])
  })

  it('say on the page of settings that the file is told in English', () => {
    expect(spanish.settings.help).toMatch(/en inglés\.$/)
  })
})
