/** Taking programs on, trying them, changing their secrets and letting them go. */
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import type { Hook } from '#app/addresses.ts'
import { addHook, removeHook, renewSecret } from '#app/hooks.ts'
import { postHookTest } from '#app/test-message.ts'
import { failure } from '#edges/web/errors.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { type HooksShown, hooksPage } from './hooks-page.ts'
import type { YouParts } from './you-routes.ts'

const addForm = z.object({ url: z.string().max(10_000) })
const hookForm = z.object({ id: z.string().max(100) })
const HERE = '/messages/hooks'

export function hooksRoutes({ farm, clock, reach, viewerOf }: YouParts): Hono<WebEnv> {
  const { subscriptions } = reach
  const routes = new Hono<WebEnv>()
  const show = async (context: Context<WebEnv>, more: Omit<HooksShown, 'hooks'> = {}, status: 200 | 422 = 200) =>
    context.html(hooksPage(farm, viewerOf(context), { hooks: await subscriptions.hooksOf(farm), ...more }), status, {
      'cache-control': 'no-store',
    })

  routes.get('/', (context) => show(context, { tested: context.req.query('tested') !== undefined }))
  routes.post('/', async (context) => {
    const form = addForm.safeParse(await context.req.parseBody()).data
    if (!form) return failure(context, farm, 'bad-request')
    const added = await addHook(farm, form.url, reach)
    if (added.kind === 'refused') return show(context, { refused: { url: form.url, fault: added.fault } }, 422)
    return show(context, { secret: { url: added.hook.url, text: added.secret } })
  })
  routes.post('/secret', async (context) => {
    const hook = await hookIn(context)
    if (!hook) return failure(context, farm, 'conflict')
    const text = await renewSecret(farm, hook.id, reach)
    return text === undefined ? failure(context, farm, 'conflict') : show(context, { secret: { url: hook.url, text } })
  })
  routes.post('/remove', async (context) => {
    const hook = await hookIn(context)
    const removed = hook && (await removeHook(farm, hook.id, reach))
    return removed ? context.redirect(HERE, 303) : failure(context, farm, 'conflict')
  })
  routes.post('/test', async (context) => {
    const hook = await hookIn(context)
    if (!hook) return failure(context, farm, 'conflict')
    await postHookTest(farm, { outbox: reach.outbox, addresses: subscriptions }, clock(), reach.newId(), hook.id)
    return context.redirect(`${HERE}?tested`, 303)
  })

  async function hookIn(context: Context<WebEnv>): Promise<Hook | undefined> {
    const form = hookForm.safeParse(await context.req.parseBody()).data
    return form && (await subscriptions.hooksOf(farm)).find(({ id }) => id === form.id)
  }
  return routes
}
