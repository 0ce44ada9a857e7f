import { beforeAll, describe, expect, it } from 'vitest'
import type { RecordFault } from '#app/record-faults.ts'
import { english } from '#edges/web/words/english.ts'
import { spanish } from '#edges/web/words/spanish.ts'
import { FAULTS } from '#tests/support/record-faults.ts'
import { demoService } from './support/demo-service.ts'
import { type Site, siteOf } from './support/people.ts'

const chicago = { timeZone: 'America/Chicago', units: 'us' } as const
const metric = { timeZone: 'Europe/Vienna', units: 'metric' } as const

const SAID: { readonly [C in RecordFault['code']]: string } = {
  'unknown-field': 'Ningún lote se llama “Gama”. Lotes de aquí: Alpha y Beta.',
  'unknown-patch': 'Alpha no tiene ninguna parte que se llame “x”. Sus partes: Swale.',
  'unknown-outfit': 'Ningún equipo se llama “x”. Equipos de aquí: Main.',
  'unknown-record': 'Nada se anotó nunca con la clave “k9”.',
  'already-replaced': '“a” ya se corrigió con “b”',
  'key-taken': 'la anotó ann para el 20 sept a las 12:00',
  'moisture-impossible': '130% no es la humedad de un cultivo en pie: va de 3 a 85% en base húmeda.',
  'time-unreadable': '“soon” no es una hora.',
  'time-ahead': 'El 21 sept a las 12:00 todavía no llega; ahora es el 20 sept a las 12:00.',
  'before-planting': 'El 31 dic 1969 es antes de la siembra de este cultivo, el 2 may 2010.',
  'part-finished': 'Beta se terminó el 20 sept a las 12:00',
  'area-impossible': 'No se pueden cortar -10 acres',
  'area-too-large': '100 acres es más de lo que queda en pie ahí, 20 acres.',
  'mass-impossible': 'no pueden haber salido 9,999 t de grano',
  'offset-impossible': 'se admiten hasta 5',
  'error-impossible': 'más de 0 y no más de 5',
  'days-impossible': 'más de 0 y no más de 60',
  'who-missing': 'Diga quién lo cuenta.',
  'key-impossible': 'de 1 a 200 caracteres',
  'share-impossible': '1.4 no es una proporción que quepa',
  'patch-exists': 'Ya hay una parte que se llama “Swale”.',
  'patch-measured': '“Swale” tiene lecturas o cortes propios',
  'name-impossible': '“--” no es un nombre',
  'boundary-missing': 'Beta no tiene el contorno dibujado',
  'changed-meanwhile': 'Otra persona cambió Beta',
  'date-past': 'El 1 sept ya pasó.',
  'dates-turned': 'El 9 sept es después del 1 sept',
  'hours-impossible': 'La cuadrilla empieza antes de terminar',
  'weekday-impossible': '8 no es un día de la semana: 1 es lunes, 7 es domingo.',
  'outfit-exists': 'Ya hay un equipo que se llama “main”.',
  'nothing-stands': 'Ya no queda nada en pie de Beta',
  'cut-through': 'Beta (Swale) se corta de corrido con Beta',
  'row-unreadable': 'Una línea del archivo no se puede leer.',
}

describe('what does not hold up, told on a Spanish page', () => {
  it.each(Object.values(FAULTS))('is a plain sentence for $code', (fault) => {
    const said = spanish.refusal(fault, chicago)
    expect(said).toContain(SAID[fault.code])
    expect(said).toMatch(/^[“A-ZÁÉÍÓÚÑ0-9-].*\.$/)
    // How a time is to be written is shown as it is to be written.
    expect(said.replace('2010-09-28 14:05', '')).not.toMatch(/undefined|NaN|\[object|\d{4}-\d\d/)
    expect(said).not.toBe(english.refusal(fault, chicago))
  })

  it('is in the units and by the clock of the farm', () => {
    expect(spanish.refusal(FAULTS['area-too-large'], metric)).toBe('40.5 ha es más de lo que queda en pie ahí, 8.1 ha.')
    expect(spanish.refusal(FAULTS['part-finished'], metric)).toContain('20 sept a las 19:00')
  })

  it('says one o’clock as people do', () => {
    // 01:00 in Vienna.
    const night = { ...FAULTS['part-finished'], finishedEpochH: 356_951 }
    expect(spanish.refusal(night, metric)).toContain('21 sept a la 1:00')
  })

  it('knows a field without patches', () => {
    expect(spanish.refusal({ ...FAULTS['unknown-patch'], known: [] }, chicago)).toBe(
      'Alpha no tiene partes, así que ninguna se llama “x”.',
    )
  })
})

describe('who reads Spanish', () => {
  let site: Site
  beforeAll(async () => {
    site = await siteOf(await demoService())
  })
  const sent = (path: string, form: Record<string, string>, accept: string) =>
    site.as('spanish', path, {
      method: 'POST',
      body: new URLSearchParams(form),
      headers: { accept, 'sec-fetch-site': 'same-origin' },
    })
  const wet = { field: 'mill-forty', moisture: '124', instrument: 'hand' }
  const sentence = '124% no es la humedad de un cultivo en pie'

  it('is told in Spanish in the cab, by the page and by what the script shows', async () => {
    expect(await (await sent('/cab/reading', wet, 'text/html')).text()).toMatch(
      new RegExp(`role="alert"[^>]*>${sentence}`),
    )
    expect(await (await sent('/cab/reading', wet, 'application/json')).json()).toMatchObject({
      detail: expect.stringContaining(sentence),
    })
    const lost = { field: 'nowhere', kind: 'stuck', text: '' }
    expect(await (await sent('/cab/problem', lost, 'text/html')).text()).toContain('Ningún lote se llama “nowhere”.')
  })

  it('is told so of what can not be read at all, never by a bare number', async () => {
    const garbled = { ...wet, moisture: 'wet' }
    const page = await (await sent('/cab/reading', garbled, 'text/html')).text()
    expect(page).toContain('<html lang="es">')
    // The form itself again, not a page that leads away from it.
    expect(page).toContain('<h1>Lectura</h1>')
    expect(page).toMatch(/role="alert"[^>]*>Escriba un número mayor que 0, como 12\.5\.</)
    expect(page).toContain('name="moisture" value="wet"')
    const answer = await sent('/cab/reading', garbled, 'application/json')
    expect([answer.status, await answer.json()]).toMatchObject([
      400,
      { detail: 'Escriba un número mayor que 0, como 12.5.' },
    ])
    const strange = await sent('/cab/reading', { ...wet, key: '!' }, 'application/json')
    expect([strange.status, await strange.json()]).toMatchObject([400, { detail: 'Eso no se pudo leer.' }])
  })

  it('is told in Spanish that there is nothing at an address', async () => {
    const page = await site.as('spanish', '/nowhere', { headers: { accept: 'text/html' } })
    expect(await page.text()).toContain('<h1>Aquí no hay nada.</h1>')
  })

  it('is told by the API in English, as every program is', async () => {
    const answer = await site.as('spanish', '/api/readings', {
      method: 'POST',
      body: JSON.stringify({ field: 'mill-forty', moistureWb: 124, instrument: { kind: 'hand' } }),
      headers: { 'content-type': 'application/json', 'sec-fetch-site': 'same-origin' },
    })
    expect(await answer.json()).toMatchObject({ detail: expect.stringContaining('124 % is not the moisture') })
  })
})
