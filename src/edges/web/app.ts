/** The pages, the day as JSON, and what whoever runs the service looks at. */
import { OpenAPIHono } from '@hono/zod-openapi'
import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { etag } from 'hono/etag'
import { HTTPException } from 'hono/http-exception'
import { routePath } from 'hono/route'
import { dayText } from '#app/day-json.ts'
import type { ForecastStore } from '#app/forecasts-port.ts'
import type { Log } from '#app/log.ts'
import type { DayMade } from '#app/morning.ts'
import type { People } from '#app/people.ts'
import type { PlanDesk } from '#app/plan-desk.ts'
import type { PlanStore } from '#app/plan-store.ts'
import { seasonFromBook } from '#app/season-report.ts'
import { type Service, shownBy } from '#app/service.ts'
import type { FarmSettings } from '#app/settings-port.ts'
import { skillReport } from '#app/skill.ts'
import { toldOfField } from '#app/told-of-field.ts'
import { plainMessage } from '#core/messages/plain.ts'
import { API_INFO, apiRoutes } from './api/api.ts'
import { type ApiDocument, docsPage } from './api/docs-page.ts'
import type { ApiParts } from './api/parts.ts'
import { ASSETS, manifestOf, WORKER } from './assets.ts'
import { type CabParts, cabRoutes } from './cab/routes.ts'
import { failure } from './errors.ts'
import { fieldPage } from './field-page.ts'
import { fieldsPage } from './fields-page.ts'
import { healthRoutes } from './health.ts'
import type { Markup, Viewer } from './layout.ts'
import { type LiveFeed, liveFeed, marksOf } from './live/feed.ts'
import { messagesRoutes } from './messages-routes.ts'
import { metricsOf } from './metrics.ts'
import { namesIn } from './names.ts'
import { hooksRoutes } from './reach/hooks-routes.ts'
import type { Reach } from './reach/reach.ts'
import { youRoutes } from './reach/you-routes.ts'
import { JSON_TYPE, RenderedPages, sendPacked } from './rendered.ts'
import { requestLog } from './request-log.ts'
import { seasonPage } from './season-page.ts'
import { securityHeaders } from './security.ts'
import { settingsPage } from './settings-page.ts'
import { guard, type WebEnv } from './sign-in/guard.ts'
import { signInRoutes } from './sign-in/routes.ts'
import { sameOrigin } from './sign-in/same-origin.ts'
import { skillPage } from './skill-page.ts'
import { type LiveSources, shownSources, sourcesPage } from './sources-page.ts'
import { originOf } from './tiles.ts'
import { todayPage } from './today-page.ts'
import { plansRoute, weekRoutes } from './week/routes.ts'
import { inLanguage } from './words/of.ts'

const FOR_EVER = 'public, max-age=31536000, immutable'
/** No form is larger [bytes]. */
const LARGEST_BODY = 64 * 1024
/** The outlines of all fields at once [bytes]. */
const OUTLINES = '/api/fields.geojson'
const LARGEST_OUTLINES = 4 * 1024 * 1024

export interface WebOptions {
  /** Who may sign in; nobody can when absent. */
  readonly people?: People
  /** Where what is told from a cab goes; without it nothing can be told. */
  readonly book?: Pick<CabParts, 'records' | 'outbox' | 'addresses'> & Pick<ApiParts, 'alerts' | 'outlines'>
  /** The farm file as it was understood; without it there is no page of settings. */
  readonly settings?: FarmSettings
  /** How the live sources are doing; absent where recorded weather stands in. */
  readonly sources?: LiveSources
  /** The forecasts kept each morning, to be held against the readings of the book. */
  readonly forecasts?: Pick<ForecastStore, 'forecasts'>
  /** How messages reach people and programs; without it nobody can sign up for anything. */
  readonly reach?: Reach
  /** The plans published so far, with what each was priced at. */
  readonly plans?: Pick<PlanStore, 'history'>
  /** The planner's desk; without it the week can only be looked at. */
  readonly desk?: PlanDesk
  /** Everybody may look without signing in; nobody unknown may change anything. */
  readonly openReading?: boolean
  /** Where happenings are told to who listens. */
  readonly live?: LiveFeed
  /** Told of every request, and of every bug that one met. */
  readonly log?: Log
}

export function webApp(service: Service, options: WebOptions = {}): Hono<WebEnv> {
  const {
    people,
    book,
    settings,
    sources,
    forecasts,
    plans,
    reach,
    desk,
    openReading = people === undefined,
    log = () => {},
    live = liveFeed(),
  } = options
  const { farm } = service
  const app = new Hono<WebEnv>()
  const rendered = new RenderedPages()
  const metrics = metricsOf(service, { outbox: book?.outbox, sources })

  app.use(requestLog(log))
  app.use(metrics.timed)
  app.use(securityHeaders(farm.baseMap ? [originOf(farm.baseMap)] : []))
  const limited = (maxSize: number) =>
    bodyLimit({ maxSize, onError: (context) => failure(context, farm, 'bad-request') })
  const [forms, outlines] = [limited(LARGEST_BODY), limited(LARGEST_OUTLINES)]
  app.use((context, next) => (context.req.path === OUTLINES ? outlines : forms)(context, next))
  app.use(sameOrigin(farm))
  app.use(guard({ farm, people, openReading }))
  app.notFound((context) => failure(context, farm, 'not-found'))
  app.onError((bug, context) => {
    // Thrown by the framework for a body that is not what its type says.
    if (bug instanceof HTTPException && bug.status < 500) return failure(context, farm, 'bad-request')
    log(`${context.req.method} ${routePath(context, -1)} met a bug: ${bug.message}`, {
      event: 'request-failed',
      level: 'error',
      requestId: context.get('requestId'),
      stack: bug.stack,
    })
    return failure(context, farm, 'bug')
  })

  const viewerOf = (context: Context<WebEnv>): Viewer => ({
    language: context.get('who').account?.language ?? farm.language,
    rights: context.get('who').rights,
    canSignIn: people !== undefined,
    canTell: book !== undefined,
    hasSettings: settings !== undefined,
  })
  /** A page that shows the day, kept ready for each kind of viewer. */
  const dayPage = async (context: Context<WebEnv>, name: string, page: (made: DayMade, viewer: Viewer) => Markup) => {
    const { made, outdated, version } = await shownBy(service)
    const viewer = { ...viewerOf(context), shown: { ...marksOf(made), outdated } }
    const kept = `${name} ${viewer.rights} ${viewer.language} ${version} ${outdated}`
    return rendered.send(context, made, kept, () => page(inLanguage(made, viewer.language), viewer))
  }

  /** The farm with its fields as they are known by now. */
  const known = ({ day }: DayMade) => day?.farm ?? farm
  app.get('/', (context) => dayPage(context, '/', (made, viewer) => todayPage(known(made), made, viewer)))
  app.route('/week', weekRoutes({ service, desk, people, viewerOf, dayPage }))
  if (desk) app.get('/plans', plansRoute(desk, { service, people, viewerOf }))
  app.get('/fields', (context) => dayPage(context, '/fields', (made, viewer) => fieldsPage(known(made), made, viewer)))
  app.get('/fields/:id', async (context) => {
    const { fields } = known((await shownBy(service)).made)
    const field = fields.find(({ id }) => id === context.req.param('id'))
    if (!field) return context.notFound()
    return dayPage(context, `/fields/${field.id}`, async (made, viewer) => {
      const told = await toldOfField(farm.id, field, book?.records, forecasts)
      const nameOf = await namesIn(farm, people)
      return fieldPage(known(made), field, made, viewer, { ...told, nameOf })
    })
  })
  const seasonStores = { records: book?.records, forecasts, plans }
  app.get('/season', (context) =>
    dayPage(context, '/season', async (made, viewer) => {
      const week = made.day?.planned?.week
      const report = await seasonFromBook(known(made), seasonStores, week, service.clock())
      return seasonPage(known(made), made, viewer, report)
    }),
  )
  app.get('/skill', (context) =>
    dayPage(context, '/skill', async (made, viewer) => {
      const report =
        book && forecasts ? await skillReport(farm.id, book.records, forecasts, service.clock()) : undefined
      return skillPage(known(made), made, viewer, report)
    }),
  )
  app.get('/sources', async (context) => {
    const nowEpochH = service.clock()
    const shown = sources && (await shownSources(sources, nowEpochH))
    return context.html(sourcesPage(farm, viewerOf(context), nowEpochH, shown), 200, { 'cache-control': 'no-store' })
  })
  if (book) app.route('/cab', cabRoutes({ service, viewerOf, ...book, everyone: reach?.everyone }))
  if (book) {
    const api = apiRoutes(
      {
        ...book,
        everyone: reach?.everyone,
        rendered,
        service,
        people,
        forecasts,
        plans,
        sources,
        settings,
        desk,
        reach,
      },
      live,
    )
    // Made once: the whole of it is known from the start. Paths as callers write them.
    const served = new OpenAPIHono<WebEnv>()
    served.route('/api', api)
    const document = served.getOpenAPI31Document(API_INFO)
    app.get('/api', (context) => context.html(docsPage(farm, viewerOf(context), document as unknown as ApiDocument)))
    app.get('/api/openapi.json', (context) => context.json(document))
    app.route('/api', api)
  }
  if (book) app.route('/messages', messagesRoutes({ service, viewerOf, ...book, reach }))
  if (reach) {
    const parts = { farm, clock: service.clock, reach, viewerOf }
    app.route('/messages/hooks', hooksRoutes(parts))
    app.route('/you/messages', youRoutes(parts))
  }
  if (settings) {
    app.get('/settings', async (context) =>
      context.html(await settingsPage(farm, viewerOf(context), settings), 200, { 'cache-control': 'no-store' }),
    )
  }
  app.get('/sw.js', (context) =>
    context.body(WORKER, 200, { 'content-type': 'text/javascript; charset=utf-8', 'cache-control': 'no-cache' }),
  )
  app.get('/manifest.webmanifest', (context) =>
    context.body(manifestOf(farm.name), 200, { 'content-type': 'application/manifest+json' }),
  )
  app.get('/assets/:name', (context) => {
    const asset = ASSETS.get(context.req.path)
    if (!asset) return context.notFound()
    const about = { 'content-type': asset.type, 'cache-control': FOR_EVER, vary: 'accept-encoding' }
    return sendPacked(context, asset.packed, about)
  })
  app.route('/health', healthRoutes(service))
  app.get('/metrics', async (context) => context.body(await metrics.text(), 200, { 'content-type': metrics.type }))
  app.get('/today.txt', etag({ weak: true }), async (context) => {
    const { message } = await service.current()
    const isShort = context.req.query('short') !== undefined
    return context.text(plainMessage(message, viewerOf(context).language, isShort), 200, {
      'cache-control': 'private, no-cache',
    })
  })
  app.get('/today.json', async (context) => {
    const { made } = await shownBy(service)
    return await rendered.send(context, made, '/today.json', () => dayText(farm, made), JSON_TYPE)
  })
  if (people) app.route('/', signInRoutes(people, viewerOf))
  return app
}
