/** Links that do one thing for one person without a login: hard to forge, safe to follow by a scanner (GET only asks). */
export type LinkDeed =
  | { readonly deed: 'unsubscribe'; readonly farmId: string; readonly personId: string }
  | { readonly deed: 'acknowledge'; readonly farmId: string; readonly personId: string; readonly alert: string }
  | { readonly deed: 'calendar'; readonly farmId: string; readonly personId: string }

export interface Links {
  /** Whether the service has a public address. */
  readonly reachable: boolean
  /** @returns the full address, or undefined where the service has no public address. */
  to(deed: LinkDeed): string | undefined
  /** @returns the deed behind a token, or undefined for one that is not ours. */
  read(token: string): LinkDeed | undefined
}

export const noLinks: Links = { reachable: false, to: () => undefined, read: () => undefined }
