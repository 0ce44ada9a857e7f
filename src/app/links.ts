/** Links that do one thing for one person without a login: hard to forge, safe to follow by a scanner (GET only asks). */
export type LinkDeed =
  | { readonly deed: 'unsubscribe'; readonly farmId: string; readonly personId: string }
  | { readonly deed: 'acknowledge'; readonly farmId: string; readonly personId: string; readonly alert: string }
  | PersonalLink

/** A person's own link to his calendar, or to today's message as plain text. */
export interface PersonalLink {
  readonly deed: 'calendar' | 'text'
  readonly farmId: string
  readonly personId: string
  /** Which renewal it belongs to: earlier ones are ended. Links from before there were any bear none. */
  readonly nth?: number
}

export interface Links {
  /** Whether the service has a public address. */
  readonly reachable: boolean
  /** @returns the address on this service, from the slash on. */
  pathTo(deed: LinkDeed): string
  /** @returns the full address, or undefined where the service has no public address. */
  to(deed: LinkDeed): string | undefined
  /** @returns the deed behind a token, or undefined for one that is not ours. */
  read(token: string): LinkDeed | undefined
}

export const noLinks: Links = { reachable: false, pathTo: () => '/', to: () => undefined, read: () => undefined }
