import { describe, expect, it } from 'vitest'
import type { FileNow } from '#app/settings-port.ts'
import { demoService } from './support/demo-service.ts'
import { siteOf } from './support/people.ts'

const service = await demoService()
const LINES = [
  { text: 'A Farm', depth: 0, line: 2 },
  { text: 'US units', depth: 1, line: 3 },
  { text: '', depth: 0 },
  { text: 'Fields: 1', depth: 0, line: 5 },
  { text: 'Alpha <b>', depth: 1, line: 6 },
  { text: 'Cut at 10 to 13 %', depth: 2, line: 9 },
  { text: '', depth: 0 },
  { text: 'Fire: care', depth: 0, line: 20 },
  { text: 'Morning message at 05:30', depth: 0 },
]
const pageFor = async (now: FileNow, warnings: readonly string[] = [], role: 'planner' | 'owner' = 'planner') => {
  const settings = { understood: 'A Farm', lines: LINES, warnings, fileNow: () => Promise.resolve(now) }
  const site = await siteOf(service, { settings })
  return { page: await (await site.as(role, '/settings')).text(), site }
}

describe('the settings', () => {
  it('show each thing with its line, under what it belongs to', async () => {
    const { page } = await pageFor({ kind: 'same' })
    expect(page).toContain('<h1>The farm file as it was understood.</h1>')
    expect(page).toContain('<h2>Fields: 1</h2>')
    expect(page).toMatch(/<li class="depth-0"><span>Alpha &lt;b&gt;<\/span> <small>line 6<\/small>/)
    expect(page).toMatch(/<li class="depth-1"><span>Cut at 10 to 13 %<\/span> <small>line 9<\/small>/)
    expect(page).toMatch(/<li class="depth-0"><span>Morning message at 05:30<\/span><\/li>/)
  })

  it('say what is wrong with the file by now, as the loader says it, and that the service still runs on the old one', async () => {
    const fault = 'farm.yaml:31:14 outfits[Main].width: 350 is above 80. A number in ft, 4 to 80.'
    const { page } = await pageFor({ kind: 'faulty', faults: [fault, 'farm.yaml:40:3 other'] })
    expect(page).toContain('<h1>The farm file has been changed and has 2 faults.</h1>')
    expect(page).toContain(`<li>${fault}</li>`)
    expect(page).toContain('It would not start on the new one')
    const changed = await pageFor({ kind: 'changed', warnings: [] })
    expect(changed.page).toContain('<h1>The farm file has been changed since the start.</h1>')
  })

  it('show what gives pause', async () => {
    const { page } = await pageFor({ kind: 'same' }, ['farm.yaml:3:1 language: looks odd'])
    expect(page).toContain('1 thing gives pause')
    expect(page).toContain('<li>farm.yaml:3:1 language: looks odd</li>')
  })

  it('give a program the same', async () => {
    const { site } = await pageFor({ kind: 'faulty', faults: ['farm.yaml:31:14 a fault'] })
    const said = await (await site.as('planner', '/api/settings')).json()
    expect(said).toMatchObject({ fileNow: 'faulty', faults: ['farm.yaml:31:14 a fault'], warnings: [] })
    expect((said as { lines: unknown[] }).lines).toEqual(
      LINES.map(({ line, ...rest }) => ({ ...rest, line: line ?? null })),
    )
  })

  it('are those of the demo, whole', async () => {
    const site = await siteOf(service)
    const page = await (await site.as('planner', '/settings')).text()
    for (const { name } of [...service.farm.fields, ...service.farm.buyers, ...service.farm.people]) {
      expect(page).toContain(name)
    }
    expect(page.match(/<small>line \d+<\/small>/g)!.length).toBeGreaterThan(60)
  })
})
