/** The page of the week, and the forms on it: try a change, keep it, take it back. */
import { randomUUID } from 'node:crypto'
import { type Context, Hono } from 'hono'
import type { DayMade } from '#app/morning.ts'
import type { People } from '#app/people.ts'
import type { Decided, NoPlan, PlanDesk, Refused } from '#app/plan-desk.ts'
import { type Service, shownBy } from '#app/service.ts'
import { failure, wantsPage } from '#edges/web/errors.ts'
import type { Markup, Viewer } from '#edges/web/layout.ts'
import { namesIn } from '#edges/web/names.ts'
import { publishedPage } from '#edges/web/published.ts'
import type { Sent } from '#edges/web/refused-form.ts'
import { nameIn } from '#edges/web/sign-in/actor.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { inLanguage, wordsOf } from '#edges/web/words/of.ts'
import { plansPage } from './plans-page.ts'
import { changeOfForm, unwrapped } from './week-form.ts'
import { type WeekShown, weekPage } from './week-page.ts'
import { notTaken, notValid } from './week-refused.ts'

export interface WeekParts {
  readonly service: Service
  /** Absent where nothing plans the week. */
  readonly desk: PlanDesk | undefined
  readonly people: People | undefined
  readonly viewerOf: (context: Context<WebEnv>) => Viewer
  /** A page that shows the day, kept ready for each kind of viewer. */
  readonly dayPage: (
    context: Context<WebEnv>,
    name: string,
    page: (made: DayMade, viewer: Viewer) => Markup,
  ) => Promise<Response>
}

const PLANS_A_PAGE = 20

export const plansRoute =
  (desk: PlanDesk, { service, people, viewerOf }: Omit<WeekParts, 'desk' | 'dayPage'>) =>
  async (context: Context<WebEnv>) => {
    const { made } = await shownBy(service)
    const viewer = viewerOf(context)
    const before = Number(context.req.query('before') ?? Number.NaN)
    const page = plansPage(made.day?.farm ?? service.farm, inLanguage(made, viewer.language), viewer, {
      ...(await publishedPage(desk, PLANS_A_PAGE, Number.isNaN(before) ? undefined : before)),
      nameOf: await namesIn(service.farm, people),
    })
    return context.html(page, 200, { 'cache-control': 'private, no-cache' })
  }

export function weekRoutes({ service, desk, people, viewerOf, dayPage }: WeekParts): Hono<WebEnv> {
  const routes = new Hono<WebEnv>()
  const farmOf = ({ day }: DayMade) => day?.farm ?? service.farm

  /** What the page shows of the day at hand: a newer one that is being made is not waited for. */
  const shownOf = async ({ day }: DayMade): Promise<WeekShown> => {
    if (!desk || !day?.planned) return { desk: undefined }
    const [standing, [newest], pinsCost] = await Promise.all([
      desk.standing(day),
      desk.history(1),
      desk.costOfPins(day.planned),
    ])
    return { desk: standing, newest, pinsCost, nameOf: await namesIn(service.farm, people) }
  }

  routes.get('/', async (context) => {
    const { day } = (await shownBy(service)).made
    const asked = context.req.query('part')
    const part = day?.outlooks.find((outlook) => outlook.part.key === asked)?.part.key
    const wanted = context.req.query('like')
    const { farm } = (wanted !== undefined && (await desk?.standing(day))) || {}
    const like = farm?.outfits.find(({ id }) => id === wanted)?.id
    const wantsMore = desk !== undefined && context.req.query('more') !== undefined
    return await dayPage(context, `/week ${part ?? ''} ${like ?? ''} ${wantsMore}`, async (made, viewer) => {
      const more = wantsMore ? await desk.worthOfMore(made.day?.planned) : undefined
      return weekPage(farmOf(made), made, viewer, { ...(await shownOf(made)), part, like, more })
    })
  })
  if (!desk) return routes

  /** The page with what came of a form on it; never kept. */
  const answer = async (context: Context<WebEnv>, status: 200 | 422, more: Partial<WeekShown>) => {
    const made = await service.current()
    const viewer = viewerOf(context)
    const page = weekPage(farmOf(made), inLanguage(made, viewer.language), viewer, {
      ...(await shownOf(made)),
      ...more,
    })
    return context.html(page, status, { 'cache-control': 'no-store' })
  }
  const wordsFor = (context: Context<WebEnv>) => wordsOf(viewerOf(context).language)
  const notDone = (context: Context<WebEnv>, sent: Sent, answered: Refused | NoPlan) =>
    answered.kind === 'no-plan'
      ? failure(context, service.farm, 'no-weather')
      : answer(context, 422, {
          refused: notTaken(unwrapped(sent), answered.fault, service.farm, wordsFor(context)),
        })
  const notRead = async (context: Context<WebEnv>, sent: Sent) => {
    const { made } = await shownBy(service)
    if (!wantsPage(context) || !made.day?.planned) return await failure(context, service.farm, 'not-valid')
    return await answer(context, 422, { refused: notValid(unwrapped(sent), farmOf(made), wordsFor(context)) })
  }
  const done = (context: Context<WebEnv>, sent: Sent, answered: Decided) =>
    answered.kind === 'decided' ? context.redirect('/week', 303) : notDone(context, sent, answered)

  const changeIn = async (context: Context<WebEnv>) => {
    const sent = await context.req.parseBody({ all: true })
    const farm = (await desk.standing())?.farm ?? service.farm
    return { sent, change: changeOfForm(sent, farm) }
  }

  routes.post('/try', async (context) => {
    const { sent, change } = await changeIn(context)
    if (!change) return await notRead(context, sent)
    const { signal } = context.req.raw
    try {
      const tried = await desk.tryOut([change], signal)
      if (tried.kind !== 'tried') return await notDone(context, sent, tried)
      return await answer(context, 200, { trial: { tried, change, typed: sent, key: randomUUID() } })
    } catch (bug) {
      // Who asked has gone, and nobody sees this.
      if (signal.aborted) return context.body(null, 204)
      throw bug
    }
  })

  routes.post('/keep', async (context) => {
    const { sent, change } = await changeIn(context)
    const { key } = sent
    if (!change || typeof key !== 'string') return await notRead(context, sent)
    return await done(context, sent, await desk.decide(change, nameIn(context), key))
  })

  routes.post('/undo', async (context) => {
    const sent = await context.req.parseBody({ all: true })
    const { key } = sent
    if (typeof key !== 'string') return await notRead(context, sent)
    return await done(context, sent, await desk.undo(nameIn(context), key))
  })
  return routes
}
