import { describe, expect, it } from 'vitest'
import { webApp } from '#edges/web/app.ts'
import { standingOf } from '#edges/web/standing.ts'
import { demoService } from './support/demo-service.ts'
import { siteOf } from './support/people.ts'

describe('fields', () => {
  it('links every field from the map and from the table, and every link leads somewhere', async () => {
    const service = await demoService()
    const app = webApp(service)
    const page = await (await app.request('/fields')).text()
    for (const { id } of service.farm.fields) {
      expect(page.match(new RegExp(`href="/fields/${id}"`, 'g'))).toHaveLength(2)
      expect((await app.request(`/fields/${id}`)).status).toBe(200)
    }
  })

  it('draws the outline of a field in the proportions of the ground', async () => {
    // Mill Forty is a quarter of a quarter section: 40 acres, 1,320 ft square (US public land survey), so its sides
    // are alike on the drawing, whatever the projection does to degrees.
    const page = await (await webApp(await demoService()).request('/fields')).text()
    const path = /<a href="\/fields\/mill-forty"[^>]*><title>[^<]*<\/title><path class="[^"]*" d="M([^Z]*)Z"/.exec(
      page,
    )![1]!
    const points = path.split('L').map((point) => point.split(' ').map(Number))
    const side = (a: number, b: number) => Math.hypot(points[a]![0]! - points[b]![0]!, points[a]![1]! - points[b]![1]!)
    expect(side(0, 1) / side(1, 2)).toBeCloseTo(1, 1)
  })

  it('draws a farm of one field without outline', async () => {
    const service = await demoService({
      farm: (farm) => ({ ...farm, fields: farm.fields.filter(({ boundary }) => boundary === undefined).slice(0, 1) }),
    })
    const page = await (await webApp(service).request('/fields')).text()
    expect(page).toContain('stroke-dasharray')
    expect(page).not.toMatch(/NaN|Infinity/)
  })

  it('hatches a patch where it was drawn, inside its field', async () => {
    const service = await demoService({
      farm: (farm) => ({
        ...farm,
        fields: farm.fields.map((field) => {
          if (field.id !== 'mill-forty') return field
          const { lonDeg, latDeg } = field.centre
          const corner = (east: number, north: number) => [lonDeg + east, latDeg + north] as const
          const outline = [corner(0, 0), corner(0.001, 0), corner(0.001, 0.001), corner(0, 0.001), corner(0, 0)]
          const patch = {
            id: 'knoll',
            name: 'Knoll',
            share: 0.06,
            kind: 'green',
            laterDays: 3,
            handling: 'leave',
          } as const
          return { ...field, patches: [{ ...patch, outline }] }
        }),
      }),
    })
    const page = await (await webApp(service).request('/fields')).text()
    const within =
      /<a href="\/fields\/mill-forty"[^>]*><title>[^<]*<\/title><path class="field[^"]*" d="M([^Z]*)Z".*?<path class="patch" d="M([^Z]*)Z"/.exec(
        page,
      )!
    const xs = (path: string) => path.split('L').map((point) => Number(point.split(' ')[0]))
    const [field, patch] = [xs(within[1]!), xs(within[2]!)]
    expect(Math.min(...patch)).toBeGreaterThan(Math.min(...field))
    expect(Math.max(...patch)).toBeLessThan(Math.max(...field))
    expect(page.match(/class="patch"/g)).toHaveLength(1)
  })

  it('counts in its sentence what the plan says', async () => {
    const service = await demoService()
    const { day } = await service.current()
    const runs = service.farm.fields.filter(({ id }) => standingOf(day!, id).kind === 'run').length
    const page = await (await webApp(service).request('/fields')).text()
    expect(page).toContain(`<h1>${runs} to run today`)
  })

  it('colours a field that waits its turn by the grain as its window opens, not as it is by evening', async () => {
    const service = await demoService()
    const { day } = await service.current()
    const turns = day!.plan.waiting.filter(({ reason, part }) => reason === 'later-turn' && !part.patch)
    expect(turns.length).toBeGreaterThan(0)
    for (const { part } of turns) {
      const window = day!.outlooks.find(({ part: { key } }) => key === part.key)!.windows[0]!
      expect(window.startMoistureWb).toBeLessThanOrEqual(part.field.band.highWb)
      expect(standingOf(day!, part.key)).toMatchObject({ grain: 'fit' })
    }
  })

  it('answers 404 for a field that is not there, as a page or as a problem', async () => {
    const app = webApp(await demoService())
    const forPeople = await app.request('/fields/nowhere', { headers: { accept: 'text/html' } })
    expect([forPeople.status, forPeople.headers.get('content-type')]).toEqual([404, 'text/html; charset=UTF-8'])
    const forPrograms = await app.request('/fields/nowhere')
    expect(forPrograms.headers.get('content-type')).toBe('application/problem+json')
    expect(await forPrograms.json()).toMatchObject({ status: 404, type: '/api#not-found' })
  })

  it('shows each part of a field with its windows', async () => {
    const service = await demoService()
    const { day } = await service.current()
    const page = await (await webApp(service).request('/fields/creek-bottom')).text()
    const parts = day!.partOutlooks.filter(({ part }) => part.field.id === 'creek-bottom')
    expect(page.match(/class="moisture-chart"/g)).toHaveLength(parts.length)
    expect(parts.length).toBeGreaterThan(1)
    const windows = parts.reduce((sum, { windows }) => sum + windows.length, 0)
    expect(page.match(/<th scope="row">/g)).toHaveLength(windows)
  })

  it('lists what was told of a field, and of no other', async () => {
    // A service of its own: what is told makes the day anew.
    const site = await siteOf(await demoService({}))
    const reading = { field: 'creek-bottom/the-slump', moisture: '17.3', instrument: 'hand' }
    await site.post('spanish', '/cab/reading', reading)
    await site.post('crew', '/cab/cut', { field: 'creek-bottom', area: '12' })
    const page = await (await site.as('crew', '/fields/creek-bottom')).text()
    expect(page).toMatch(/Creek Bottom[ ,(]+The slump\)?: 17\.3%, a hand meter, Chayo Lindero/)
    expect(page).toContain('12 acres cut')
    expect(await (await site.as('crew', '/fields/mill-forty')).text()).not.toContain('17.3%')
  })
})
