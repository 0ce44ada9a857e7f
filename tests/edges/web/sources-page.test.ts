import { describe, expect, it } from 'vitest'
import {
  type SourceFailure,
  SourceRefused,
  SourceTooOld,
  SourceTooThin,
  SourceUnitUnknown,
  SourceUnreachable,
  SourceUnreadable,
} from '#app/failures.ts'
import { keptFault, readFault } from '#app/source-fault.ts'
import type { SourceState } from '#app/source-states.ts'
import { escapeHtml } from '#core/messages/render-html.ts'
import { webApp } from '#edges/web/app.ts'
import type { LiveSources } from '#edges/web/sources-page.ts'
import { demoService } from './support/demo-service.ts'
import { siteOf } from './support/people.ts'

const service = await demoService()
const now = service.clock()
const well: SourceState = {
  sourceId: 'one',
  name: 'First Service',
  kind: 'forecast',
  state: 'well',
  ageH: 2.25,
  lastAskedEpochH: now - 0.5,
  lastGoodEpochH: now - 0.5,
  lastFailure: undefined,
  lastFailureEpochH: Number.NaN,
  calls: 40,
  failedShare: 0.05,
}
const unknown = { ageH: Number.NaN, lastAskedEpochH: Number.NaN, lastGoodEpochH: Number.NaN }
const live: LiveSources = {
  states: async () => [
    well,
    {
      ...well,
      kind: 'observations',
      state: 'down',
      ageH: 9,
      lastFailure: 'First Service: <no answer>.',
      lastFailureEpochH: now - 1,
    },
    {
      ...well,
      ...unknown,
      sourceId: 'two',
      name: 'Second Service',
      state: 'never-asked',
      calls: 0,
      failedShare: Number.NaN,
    },
  ],
  lacks: [],
  credits: [
    { id: 'one', name: 'First Service', attribution: 'Weather by the First', licence: 'CC BY 4.0' },
    { id: 'one', name: 'First Service', attribution: 'Weather by the First', licence: 'CC BY 4.0' },
    { id: 'two', name: 'Second Service', attribution: 'Weather by the Second', licence: 'public domain' },
  ],
}

describe('sources', () => {
  it('says of recorded weather that it stands in, and whose it is', async () => {
    const page = await (await webApp(service).request('/sources')).text()
    const recorded = service.farm.weather.find(({ kind }) => kind === 'recorded')
    if (recorded?.kind !== 'recorded') throw new Error('The demo has no recorded weather')
    expect(page).toContain('<h1>Recorded weather stands in.</h1>')
    expect(page).toContain('Do not cut by it.')
    expect(page).toContain(recorded.credit)
    expect(page).toContain(`Licence: ${recorded.licence}.`)
    expect(page).not.toContain('<table')
  })

  it('shows state, age, failed share and last error of each live source, and each credit once', async () => {
    const page = await (await webApp(service, { sources: live }).request('/sources')).text()
    expect(page).toContain('<h1>1 of 3 weather sources answer.</h1>')
    expect(page).toContain('<td>2.3 h</td>')
    expect(page).toContain('<td>5%<small>of 40 calls</small></td>')
    expect(page).toMatch(
      /<td>down<small>asked <time datetime="2010-09-30T05:00-05:00">Sep 30 5:00<\/time><\/small><\/td>/,
    )
    expect(page).toContain('<li><time datetime="2010-09-30T04:30-05:00">Sep 30 4:30</time>, ')
    // Never asked: nothing is known of it, and nothing else is said.
    expect(page).toContain('<td>never asked</td>\n<td>–</td>\n<td>–</td>')
    expect(page).toContain('First Service: &lt;no answer&gt;.')
    expect(page.match(/Weather by the First/g)).toHaveLength(1)
    expect(page).toContain('Licence: <span lang="en">public domain</span>')
    expect(page).not.toMatch(/NaN|undefined|<script|style=/)
  })

  it('says so when all answer and nothing failed', async () => {
    const sources = { ...live, states: async () => [well] }
    const page = await (await webApp(service, { sources }).request('/sources')).text()
    expect(page).toContain('<h1>Every weather source answers.</h1>')
    expect(page).toContain('None on record.')
  })

  it('says plainly what no source of the farm gives, in both languages', async () => {
    const plain = await (await webApp(service, { sources: live }).request('/sources')).text()
    expect(plain).not.toContain('Not at hand')
    const sources = { ...live, lacks: ['history', 'observations', 'warnings'] as const }
    const page = await (await webApp(service, { sources }).request('/sources')).text()
    expect(page).toContain('<h2 id="lacks">Not at hand</h2>')
    expect(page).toContain('<li>The past. A new farm starts with the week that stations remember')
    expect(page).toContain('<li>Official warnings. Watch your own service for them.</li>')
    const site = await siteOf(service, { sources })
    const spanish = await (await site.as('spanish', '/sources')).text()
    expect(spanish).toContain('<h2 id="lacks">Lo que falta</h2>')
    expect(spanish).toContain('<li>El pasado. Una finca nueva')
  })

  it('is never kept by a cache, and asks how they are at the time of asking', async () => {
    const asked: number[] = []
    const sources = {
      ...live,
      states: async (nowEpochH: number) => {
        asked.push(nowEpochH)
        return [well]
      },
    }
    const response = await webApp(service, { sources }).request('/sources')
    expect(response.headers.get('cache-control')).toBe('no-store')
    expect(asked).toEqual([now])
  })

  it('speaks Spanish', async () => {
    const site = await siteOf(service, { sources: live })
    const page = await (await site.as('spanish', '/sources')).text()
    expect(page).toContain('<html lang="es">')
    expect(page).toContain('<h1>Responde 1 de 3 fuentes del tiempo.</h1>')
    expect(page).toContain('nunca preguntada')
    expect(page).toContain('<time datetime="2010-09-30T04:30-05:00">30 sept 4:30</time>')
  })

  it('says in Spanish what failed, from what was kept with the call', async () => {
    const told = { source: 'First Service', where: 'https://example.org/forecast' }
    const failures: readonly (readonly [SourceFailure, string])[] = [
      [new SourceUnreachable('x', { ...told, silence: { why: 'slow', afterS: 30 } }), 'tardó más de 30 s en total'],
      [new SourceUnreachable('cannot be reached, ECONNREFUSED', told), 'no se puede alcanzar'],
      [new SourceRefused(503, '<busy>', told), 'respondió 503, “&lt;busy&gt;”'],
      [new SourceRefused(404, '', told), 'Revise las coordenadas'],
      [new SourceUnreadable('its answer is no JSON', told), 'su respuesta no se puede leer'],
      [new SourceUnreadable('x', { ...told, why: 'no-station' }), 'no conoce ninguna estación'],
      [new SourceUnitUnknown('windSpeed', 'furlong', told), 'windSpeed viene en una unidad desconocida, “furlong”'],
      [new SourceTooOld(50.4, 36, told), 'lo que tiene es de hace 50 h, el límite es de 36 h'],
      [new SourceTooThin('humidity', 0.499, told), 'solo en el 49% de las horas se conoce la humedad'],
    ]
    for (const [failure, said] of failures) {
      const { text, fault } = readFault(keptFault(failure))
      expect(text).toBe(failure.message)
      const states = async () => [{ ...well, lastFailure: text, lastFault: fault, lastFailureEpochH: now - 1 }]
      const site = await siteOf(service, { sources: { ...live, states } })
      const page = await (await site.as('spanish', '/sources')).text()
      expect(page).toContain(`First Service: `)
      expect(page).toContain(said)
      expect(page).not.toMatch(/asked again|Nothing of it|Check the|undefined|NaN/)
      expect(await (await site.as('crew', '/sources')).text()).toContain(`<span lang="en">${escapeHtml(text)}</span>`)
    }
  })

  it('shows a failure that an older version kept as it was kept', async () => {
    expect(readFault('answered 503')).toEqual({ text: 'answered 503' })
    const site = await siteOf(service, { sources: live })
    expect(await (await site.as('spanish', '/sources')).text()).toContain(
      '<span lang="en">First Service: &lt;no answer&gt;.</span>',
    )
  })

  it('is linked from the source line of today and from the settings', async () => {
    const site = await siteOf(service)
    expect(await (await site.as('crew', '/')).text()).toMatch(/<div class="source">.*href="\/sources"/)
    const settings = await (await site.as('planner', '/settings')).text()
    expect(settings).toContain('href="/sources"')
    expect(settings).toContain('href="/skill"')
  })
})
