/** Programs that get every message of the farm, signed: taking one on, giving it a new secret, letting it go. */
import type { Farm } from '#core/operation/farm.ts'
import type { Hook, Subscriptions } from './addresses.ts'

export interface HookTools {
  readonly subscriptions: Pick<Subscriptions, 'hooksOf' | 'addHook' | 'removeHook' | 'changeSecret'>
  /** Why an address may not be asked; undefined where it may. */
  readonly faultOf: (url: string) => string | undefined
  readonly newSecret: () => string
}

/** Each gets every message: more than this is a mistake. */
export const MOST_HOOKS = 20
const LONGEST_URL = 2000

export type HookAdded =
  | { readonly kind: 'added'; readonly hook: Hook; readonly secret: string }
  | { readonly kind: 'refused'; readonly fault: 'address' | 'known' | 'too-many'; readonly reason: string }

/** @returns the secret too: it is shown this once. */
export async function addHook(farm: Farm, text: string, tools: HookTools): Promise<HookAdded> {
  const typed = text.trim()
  const reason = typed.length > LONGEST_URL ? 'too long' : tools.faultOf(typed)
  if (reason !== undefined) return { kind: 'refused', fault: 'address', reason }
  const url = new URL(typed).href
  const hooks = await tools.subscriptions.hooksOf(farm)
  if (hooks.some((hook) => hook.url === url)) return { kind: 'refused', fault: 'known', reason: 'on the list already' }
  if (hooks.length >= MOST_HOOKS) return { kind: 'refused', fault: 'too-many', reason: `${MOST_HOOKS} at most` }
  const secret = tools.newSecret()
  return { kind: 'added', hook: { id: await tools.subscriptions.addHook(farm.id, url, secret), url }, secret }
}

/** Both secrets sign until the next change. @returns the new one, shown this once; undefined where there is no such hook. */
export async function renewSecret(farm: Farm, id: string, tools: HookTools): Promise<string | undefined> {
  const secret = tools.newSecret()
  return (await tools.subscriptions.changeSecret(farm.id, id, secret)) ? secret : undefined
}

/** @returns whether there was such a hook. */
export async function removeHook(farm: Farm, id: string, tools: HookTools): Promise<boolean> {
  if (!(await tools.subscriptions.hooksOf(farm)).some((hook) => hook.id === id)) return false
  await tools.subscriptions.removeHook(farm.id, id)
  return true
}
