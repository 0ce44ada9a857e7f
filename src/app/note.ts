/** What a phone shows of a message before it is opened. */
export interface Note {
  readonly title: string
  readonly body: string
  /** A newer note of the same tag takes the place of the older one. */
  readonly tag: string
  /** Page that a tap opens, relative to the service. */
  readonly path: string
  /** Stays on the screen until somebody has dealt with it. */
  readonly urgent?: boolean
}
