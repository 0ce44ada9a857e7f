import { describe, expect, it } from 'vitest'
import { english } from '#edges/web/words/english.ts'
import { spanish } from '#edges/web/words/spanish.ts'
import { demoService } from './support/demo-service.ts'
import { siteOf } from './support/people.ts'

/** Every word of a language by its path, sentences with parameters called with plain ones. */
function texts(words: object, path = ''): Map<string, string> {
  const found = new Map<string, string>()
  for (const [name, value] of Object.entries(words)) {
    const here = `${path}/${name}`
    if (typeof value === 'string') found.set(here, value)
    else if (typeof value === 'object') for (const [at, text] of texts(value, here)) found.set(at, text)
  }
  return found
}

describe('Spanish pages', () => {
  it('have every word that the English ones have, and none left in English', () => {
    const [en, es] = [texts(english), texts(spanish)]
    expect([...es.keys()].toSorted()).toEqual([...en.keys()].toSorted())
    const same = [...en].filter(([path, text]) => es.get(path) === text).map(([path]) => path)
    // Words that are the same in both.
    expect(same).toEqual(['/cab/area/us', '/messages/channels/webhook'])
  })

  it('say of any plan, as the English ones do, that the bound is for who knew the weather beforehand', () => {
    for (const status of ['proven', 'good', 'fallback'] as const) {
      expect(english.plan.status[status]('$400')).toMatch(
        /even who knew today’s weather beforehand could save no more than \$400 of that\.$/,
      )
      expect(spanish.plan.status[status]('$400')).toMatch(
        /ni quien supiera de antemano el tiempo de hoy ahorraría más de \$400 de eso\.$/,
      )
    }
  })

  it('keep what the script puts in', () => {
    expect(spanish.cab.offline).toContain('{age}')
    expect(spanish.cab.waiting).toContain('{count}')
  })

  it('are shown to who chose Spanish, message and all, and to nobody else', async () => {
    const { as } = await siteOf(await demoService())
    const page = await (await as('spanish', '/')).text()
    expect(page).toContain('<html lang="es">')
    expect(page).toMatch(/<h1>[^<]*(Corte|soya|maíz)[^<]*<\/h1>/i)
    expect(page).toContain('El día, lote por lote')
    const other = await (await as('crew', '/')).text()
    expect(other).toContain('<html lang="en">')
    expect(other).toContain('The day, field by field')
    expect(await (await as('spanish', '/cab')).text()).toContain('Lectura')
  })
})
