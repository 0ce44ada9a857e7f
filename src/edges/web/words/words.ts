/** What a language must supply for the pages. */

import type { Channel, ParcelState } from '#app/outbox-port.ts'
import type { JoinFault } from '#app/people.ts'
import type { AuditEntry, Role } from '#app/people-port.ts'
import type { ProblemKind } from '#app/problems.ts'
import type { RecordFault, Spoken } from '#app/record-faults.ts'
import type { SourceFault } from '#app/source-fault.ts'
import type { Lack, SourceState } from '#app/source-states.ts'
import type { CallKind } from '#app/weather-store.ts'
import type { Patch, UnitSystem } from '#core/operation/farm.ts'
import type { Holdback } from '#core/outlook/holdback.ts'
import type { CropName } from '#core/science/crop.ts'
import type { ToldKind } from '#edges/web/cab/forms.ts'
import type { ProblemType } from '#edges/web/errors.ts'
import type { OtherReasons } from '#edges/web/standing.ts'
import type { FieldWords } from './field.ts'
import type { LiveWords } from './live.ts'
import type { PlanWords } from './plan-words.ts'
import type { ReachWords } from './reach-words.ts'
import type { SeasonWords } from './season.ts'
import type { SettingsWords } from './settings.ts'
import type { WrongWords } from './wrong.ts'

export type PageName = 'today' | 'week' | 'fields' | 'cab' | 'messages' | 'season' | 'settings' | 'people'

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
  readonly failures: { readonly [P in ProblemType]: { readonly title: string; readonly text: string } }
  /** Why what was told was not taken: a sentence or two. */
  readonly refusal: (fault: RecordFault, farm: Spoken) => string
  /** Why a part waits, where no holdback says it. */
  readonly reasons: OtherReasons
  readonly mapLabel: string
  readonly numbersAre: string
  readonly column: {
    readonly field: string
    readonly now: string
    readonly today: string
    readonly window: string
    readonly chance: string
    readonly moisture: string
  }
  readonly fieldsSummary: (count: FieldCounts) => string
  readonly done: string
  readonly runSpan: (from: string, to: string) => string
  readonly noWindow: string
  readonly fieldDone: (name: string) => string
  readonly fieldSentence: (name: string, crop: string, moisture: string, today: string) => string
  readonly chartLabel: (name: string, moisture: string) => string
  readonly chartKey: string
  readonly mainHeading: (area: string) => string
  readonly patchHeading: (name: string, kind: string, area: string) => string
  readonly patchKinds: { readonly [K in Patch['kind']]: string }
  readonly nowSentence: (moisture: string, range: string) => string
  readonly windows: string
  readonly facts: string
  readonly fact: {
    readonly crop: string
    readonly band: string
    readonly planted: string
    readonly mature: string
    readonly buyer: string
  }
  /** `7 in 10`, as the message says it. */
  readonly chance: (share: number) => string
  readonly crop: (name: CropName) => string
  readonly cab: {
    readonly tell: string
    readonly runUntil: (name: string, until: string) => string
    readonly runFrom: (name: string, from: string, until: string) => string
    readonly expect: (now: string, end: string) => string
    readonly buttons: { readonly [K in ToldKind]: string }
    readonly told: { readonly [K in ToldKind]: string }
    /** With `{age}` in it. */
    readonly offline: string
    /** With `{count}` in it. */
    readonly waiting: string
    readonly kept: string
    readonly signInAgain: string
    readonly send: string
    readonly moisture: string
    readonly instrument: string
    readonly instruments: { readonly combine: string; readonly hand: string; readonly ticket: string }
    readonly area: { readonly [U in UnitSystem]: string }
    readonly fieldDone: string
    readonly what: string
    readonly words: string
    readonly problems: { readonly [K in ProblemKind]: string }
    readonly emergency: string
    readonly nobodyReached: string
  }
  readonly messages: {
    readonly sentence: (sent: number, waiting: number, failed: number) => string
    readonly resent: string
    readonly test: string
    readonly tested: (ways: number) => string
    readonly reachedTitle: string
    readonly notReached: string
    readonly column: { readonly when: string; readonly what: string; readonly to: string; readonly state: string }
    /** By kind of parcel; a kind without a word shows its own name. */
    readonly kinds: { readonly [kind: string]: string }
    readonly channels: { readonly [C in Channel]: string }
    readonly states: { readonly [S in ParcelState]: string }
    readonly resend: string
    readonly resendNamed: (what: string, name: string) => string
  }
  readonly reach: ReachWords
  readonly toldTitle: string
  readonly cutSaid: (area: string, done: boolean) => string
  readonly week: {
    readonly sentence: (fit: number, all: number, days: number) => string
    readonly window: (day: string, from: string, to: string, chance: string) => string
    readonly help: string
  }
  readonly field: FieldWords
  readonly plan: PlanWords
  readonly season: SeasonWords
  readonly live: LiveWords
  readonly wrong: WrongWords
  readonly settings: SettingsWords
  readonly sources: {
    readonly title: string
    readonly sentence: (well: number, all: number) => string
    readonly recorded: string
    readonly recordedText: string
    readonly none: string
    readonly column: { readonly source: string; readonly state: string; readonly age: string; readonly failed: string }
    readonly kinds: { readonly [K in CallKind]: string }
    readonly states: { readonly [S in SourceState['state']]: string }
    readonly asked: (when: string) => string
    readonly ofCalls: (count: number) => string
    readonly ageHelp: (days: number) => string
    readonly errors: string
    readonly noErrors: string
    /** Absent where a failure is kept in this language. */
    readonly fault: ((fault: SourceFault) => string) | undefined
    readonly lacksTitle: string
    readonly lacks: { readonly [L in Lack]: string }
    readonly credits: string
    readonly licence: string
  }
  readonly skill: {
    readonly title: string
    readonly nothing: string
    readonly nothingHelp: string
    readonly poor: string
    /** Root mean square of the last two weeks, in points, and which way they leaned. */
    readonly off: (points: string, lean: 'wet' | 'dry' | 'even') => string
    readonly recent: (inside90: string, checks: number) => string
    readonly noRecent: string
    readonly column: { readonly lead: string; readonly bias: string; readonly error: string; readonly score: string }
    readonly checks: (count: number) => string
    readonly help: string
    readonly meters: string
    readonly noMeters: string
    /** Off by so much, with what the true offset may be either way. */
    readonly tooHigh: (points: string, giveOrTake: string) => string
    readonly tooLow: (points: string, giveOrTake: string) => string
    readonly setRight: string
    readonly readings: (count: number) => string
    readonly doubted: (place: string, when: string, read: string, low: string, high: string) => string
    readonly secondSample: string
  }
  readonly roles: { readonly [R in Role]: string }
  readonly signIn: {
    readonly title: string
    readonly name: string
    readonly password: string
    readonly button: string
    readonly help: string
    readonly faults: { readonly wrong: string; readonly 'too-many': string }
  }
  readonly joining: {
    readonly title: string
    readonly sentence: (farm: string, role: string) => string
    readonly passwordHelp: (shortest: number) => string
    readonly button: string
    readonly faults: { readonly [F in JoinFault]: string }
  }
  readonly you: {
    readonly title: string
    readonly sentence: (name: string, role: string) => string
    readonly signOut: string
  }
  readonly people: {
    readonly sentence: (count: number) => string
    readonly name: string
    readonly role: string
    readonly language: string
    readonly remove: string
    readonly removeNamed: (name: string) => string
    readonly inviteTitle: string
    readonly inviteButton: string
    readonly linkMade: string
    readonly tokensTitle: string
    readonly tokensHelp: string
    readonly tokenName: string
    readonly tokenButton: string
    readonly tokenMade: string
    readonly auditTitle: string
    readonly deeds: { readonly [D in AuditEntry['deed']]: string }
  }
  readonly matureOn: (date: string, days: number) => string
}

export interface FieldCounts {
  readonly run: number
  readonly fit: number
  readonly waiting: number
  readonly done: number
}
