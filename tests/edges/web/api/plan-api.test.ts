import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Role } from '#app/people-port.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { changeFrom, changeJson } from '#edges/web/api/plan-changes.ts'
import { Decision, More, PublishedPlan, StandingPlan, Tried } from '#edges/web/api/plan-schemas.ts'
import { Problem } from '#edges/web/api/schemas.ts'
import { asked } from '#tests/edges/web/support/people.ts'
import { type PlanningSite, planningSite } from '#tests/edges/web/support/planning-site.ts'
import { DEMO_NOW } from '#tests/support/demo-day.ts'
import { smallOutfit } from '#tests/support/small-outlook.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())

let here: PlanningSite
beforeAll(async () => {
  here = await planningSite(solver)
}, 60_000)

const ask = (role: Role | undefined, request: string, body?: unknown, key?: string) =>
  asked(here.site, role, request, body, key)
const get = async (path: string) => (await (await ask('crew', `GET ${path}`)).json()) as never
const refusal = async (answer: Promise<Response>) => {
  const response = await answer
  expect(response.headers.get('content-type')).toBe('application/problem+json')
  return Problem.parse(await response.json())
}
/** A field that today's plan leaves for later. */
const waiting = async () => {
  const { parts, visits } = StandingPlan.parse(await get('/api/plan'))
  return parts.find(({ partKey }) => !visits.some((visit) => visit.partKey === partKey))!.partKey
}
interface Page {
  readonly items: readonly { readonly publishedAt: string }[]
  readonly next: string | null
}
const published = async (query = ''): Promise<Page> => await get(`/api/plans${query}`)
const TODAY = '2010-09-30'

describe('the plan in the API', () => {
  it('is given in the shape that it states, with nothing decided yet', async () => {
    const plan = StandingPlan.strict().parse(await get('/api/plan'))
    expect(plan.date).toBe(TODAY)
    expect(plan.leastLoss).toBeLessThanOrEqual(plan.loss)
    expect(plan.gap).toBeCloseTo((plan.loss - plan.leastLoss) / plan.loss, 6)
    expect([plan.pins, plan.decisions, plan.costOfPins]).toEqual([[], [], 0])
    for (const { days, areaHa, leftHa } of plan.parts) {
      expect(days.reduce((sum, { meanHa }) => sum + meanHa, leftHa)).toBeCloseTo(areaHa, 1)
    }
    expect(plan.choices.length).toBeGreaterThan(0)
  })

  it('is not sent again while it stands', async () => {
    const first = await ask('crew', 'GET /api/plan')
    const again = await here.site.as('crew', '/api/plan', { headers: { 'if-none-match': first.headers.get('etag')! } })
    expect(again.status).toBe(304)
  })

  it('is tried with a change, by name too, and nothing is kept', async () => {
    const part = await waiting()
    const { name } = here.planning.farm.fields.find(({ id }) => id === part.split('/')[0])!
    const change = { kind: 'pin', part, date: TODAY }
    const tried = Tried.parse(await (await ask('planner', 'POST /api/plan/tries', { changes: [change] })).json())
    expect(tried.plan.pins).toEqual([{ part, date: TODAY }])
    expect(tried.difference.moved.find(({ partKey }) => partKey === part)!.now!.date).toBe(TODAY)
    if (part === part.split('/')[0]) {
      const byName = await ask('planner', 'POST /api/plan/tries', { changes: [{ ...change, part: name }] })
      expect(Tried.parse(await byName.json())).toEqual(tried)
    }
    expect(StandingPlan.parse(await get('/api/plan')).pins).toEqual([])
  })

  it('is decided once under a key, kept with its reason, and taken back once', async () => {
    const part = await waiting()
    const before = StandingPlan.parse(await get('/api/plan'))
    here.planning.setClock(DEMO_NOW + 0.01)
    const change = { kind: 'pin', part, date: TODAY }
    const first = await ask('planner', 'POST /api/plan/decisions', change, 'k-1')
    expect(first.status).toBe(201)
    const { key, plan, difference } = Decision.parse(await first.json())
    expect(key).toBe('k-1')
    expect(plan.visits.map(({ partKey }) => partKey)).toContain(part)
    expect(plan.decisions).toMatchObject([{ key: 'k-1', by: 'pat-planner', change }])
    const again = await ask('planner', 'POST /api/plan/decisions', change, 'k-1')
    expect([again.status, Decision.parse(await again.json()).difference.moved]).toEqual([200, []])
    expect(
      (await refusal(ask('planner', 'POST /api/plan/decisions', { ...change, date: '2010-10-01' }, 'k-1'))).status,
    ).toBe(409)

    here.planning.setClock(DEMO_NOW + 0.02)
    const undone = await ask('owner', 'DELETE /api/plan/decisions?key=k-1')
    expect(undone.status).toBe(200)
    const back = Decision.parse(await undone.json())
    expect(back.plan.visits).toEqual(before.visits)
    expect(back.difference.money).toBeCloseTo(-difference.money, 4)
    expect((await ask('owner', 'DELETE /api/plan/decisions?key=k-1')).status).toBe(200)

    const kept = PublishedPlan.array().parse((await published()).items)
    expect(kept.map(({ reason }) => [reason.kind, reason.by])).toEqual([
      ['planner', 'ola-owner'],
      ['planner', 'pat-planner'],
      ['first', undefined],
    ])
    expect(kept[1]!.reason.changes).toEqual([change])
    expect(kept[0]!.reason).toMatchObject({ changes: [], takenBack: [change] })
    expect(kept[1]!.difference!.money).toBeCloseTo(difference.money, 4)
  })

  it('the plans published come page by page, each once', async () => {
    const seen: string[] = []
    let after: string | null = null
    do {
      const page = await published(`?limit=2${after === null ? '' : `&after=${after}`}`)
      seen.push(...page.items.map(({ publishedAt }) => publishedAt))
      after = page.next
    } while (after !== null)
    expect(seen).toEqual((await published()).items.map(({ publishedAt }) => publishedAt))
    expect(new Set(seen).size).toBe(seen.length)
    expect((await refusal(ask('crew', 'GET /api/plans?after=nowhere'))).status).toBe(422)
  })

  it('says what one more of each would be worth', async () => {
    const { items } = More.parse(await get('/api/plan/more'))
    expect(items.map(({ what }) => what).sort()).toEqual(['cart', 'hour', 'truck'])
    for (const { money } of items) expect(money).toBeGreaterThanOrEqual(0)
  })

  it.each([
    [{ kind: 'pin', part: 'nowhere', date: TODAY }, 404, 'Mill Forty'],
    [{ kind: 'pin', part: 'mill-forty', date: '2010-09-29' }, 422, 'has passed'],
    [{ kind: 'pin', part: 'home-place', date: TODAY }, 422, 'Nothing of Home Place stands'],
    [{ kind: 'pin', part: 'mill-forty', date: TODAY, areaHa: 4000 }, 422, 'more than'],
    [{ kind: 'pin', part: 'mill-forty', date: TODAY, outfit: 'nobody' }, 404, 'main-outfit'],
    [{ kind: 'hours', outfit: 'main-outfit', start: '20:00', end: '08:00' }, 422, 'starts before it ends'],
    [{ kind: 'keep-off', part: 'mill-forty', from: '2010-10-03', to: '2010-10-01' }, 422, 'is after'],
  ])('refuses %j with its place and its cure', async (change, status, piece) => {
    const tried = await refusal(ask('planner', 'POST /api/plan/tries', { changes: [change] }))
    expect(tried).toMatchObject({ status, detail: expect.stringContaining(piece) })
    expect(await refusal(ask('planner', 'POST /api/plan/decisions', change))).toEqual(tried)
  })

  it.each([
    [{ kind: 'pin', part: 'mill-forty', date: '2010-02-30' }, '/changes/0/date'],
    [{ kind: 'pin', part: 'mill-forty', date: TODAY, more: 1 }, '/changes/0'],
    [{ kind: 'hours', outfit: 'main-outfit', start: '7', end: '08:00' }, '/changes/0/start'],
    [{ kind: 'days-off', outfit: 'main-outfit', daysOff: [8] }, '/changes/0/daysOff/0'],
    [{ kind: 'sell-it' }, '/changes/0/kind'],
  ])('refuses the shape of %j and points at it', async (change, pointer) => {
    const { status, errors } = await refusal(ask('planner', 'POST /api/plan/tries', { changes: [change] }))
    expect([status, errors![0]!.pointer]).toEqual([422, pointer])
  })

  it('is read by the crew, and changed by none of them', async () => {
    const change = { kind: 'pin', part: 'mill-forty', date: TODAY }
    expect((await ask('crew', 'GET /api/plan')).status).toBe(200)
    expect((await ask('crew', 'POST /api/plan/tries', { changes: [change] })).status).toBe(403)
    expect((await ask('crew', 'POST /api/plan/decisions', change)).status).toBe(403)
    expect((await ask('crew', 'DELETE /api/plan/decisions?key=k')).status).toBe(403)
    expect((await ask(undefined, 'GET /api/plan')).status).toBe(401)
  })

  it('without weather there is none, and that is said', async () => {
    const { site } = await planningSite(undefined, { noWeather: true })
    expect((await asked(site, 'crew', 'GET /api/plan')).status).toBe(503)
    const change = { kind: 'pin', part: 'mill-forty', date: TODAY }
    expect((await asked(site, 'planner', 'POST /api/plan/decisions', change)).status).toBe(503)
    expect(await (await asked(site, 'crew', 'GET /api/plan/more')).json()).toEqual({ items: [] })
  })
})

describe('a change in JSON', () => {
  it('comes back as it was told', () => {
    const farm = here.planning.farm
    const { crewHours: _, ...outfit } = smallOutfit('hired')
    for (const json of [
      { kind: 'pin', part: 'mill-forty', date: TODAY, outfit: 'main-outfit', areaHa: 4 },
      { kind: 'pin', part: 'long-eighty/north-end', date: TODAY },
      { kind: 'unpin', part: 'mill-forty' },
      { kind: 'keep-off', part: 'mill-forty', from: TODAY, to: '2010-10-02' },
      { kind: 'allow', part: 'mill-forty' },
      { kind: 'deadline', part: 'mill-forty', date: TODAY },
      { kind: 'hours', outfit: 'main-outfit', start: '06:05', end: '24:00' },
      { kind: 'days-off', outfit: 'main-outfit', daysOff: [6, 7] },
      { kind: 'drop-outfit', outfit: 'main-outfit' },
      { kind: 'add-cart', outfit: 'main-outfit', cart: { name: 'a', capacityL: 3e4, unloadLPerS: 200 } },
      { kind: 'add-truck', outfit: 'main-outfit', truck: { name: 'a', capacityL: 3e4, roadSpeedMs: 17 } },
      { kind: 'add-outfit', outfit: { ...outfit, start: '08:00', end: '21:00' } },
    ] as Parameters<typeof changeFrom>[0][]) {
      expect(changeJson(changeFrom(json, farm))).toEqual(json)
    }
  })
})
