/** What a language must supply for the pages. */
import type { GrainState } from '#core/messages/ribbon.ts'
import type { Holdback } from '#core/outlook/holdback.ts'

export type PageName = 'today' | 'fields'

export interface Words {
  readonly skip: string
  readonly pages: { readonly [P in PageName]: string }
  readonly pagesLabel: string
  readonly theDay: string
  readonly run: string
  readonly fitToday: string
  readonly dewOff: (time: string) => string
  readonly dewBack: (time: string) => string
  readonly dark: (time: string) => string
  readonly ribbonLabel: (name: string, parts: readonly string[]) => string
  readonly fitSpan: (from: string, to: string, chance: string) => string
  readonly heldSpan: (from: string, to: string, reason: string) => string
  readonly moistureSpan: (from: string, to: string) => string
  readonly notKnown: string
  readonly states: { readonly [S in GrainState]: string }
  readonly key: {
    readonly wet: string
    readonly fit: string
    readonly brittle: string
    readonly held: string
    readonly thickness: string
    readonly line: string
    readonly band: string
    readonly run: string
  }
  /** Small words under a ribbon. */
  readonly held: { readonly [H in Holdback]: string }
  readonly alsoToday: string
  readonly moreParts: (count: number) => string
  readonly areaOf: (some: string, all: string) => string
}
