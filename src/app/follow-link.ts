/** Does what a link in a message stands for. Only on POST: programs that scan mail follow every link by GET. */
import type { Subscriptions } from './addresses.ts'
import type { AlertStore } from './alert-store.ts'
import type { LinkDeed, Links } from './links.ts'

export interface LinkTools {
  readonly links: Links
  readonly subscriptions: Pick<Subscriptions, 'setMorningMail'>
  readonly alerts: Pick<AlertStore, 'acknowledge'>
}

/** @returns what was done, to be said on the page; undefined for a link that is not ours or only shows something. */
export async function followLink(token: string, tools: LinkTools, nowEpochH: number): Promise<LinkDeed | undefined> {
  const deed = tools.links.read(token)
  if (!deed) return undefined
  switch (deed.deed) {
    case 'unsubscribe':
      await tools.subscriptions.setMorningMail(deed.farmId, deed.personId, false)
      return deed
    case 'acknowledge':
      await tools.alerts.acknowledge(deed.farmId, deed.alert, deed.personId, nowEpochH)
      return deed
    case 'calendar':
    case 'text':
      return undefined
  }
}
