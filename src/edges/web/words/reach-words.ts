/** What a language must supply for the pages of how messages reach people and programs. */
import type { HookAdded } from '#app/hooks.ts'

export interface ReachWords {
  readonly title: string
  readonly sentence: (byMail: boolean, devices: number) => string
  readonly test: string
  readonly tested: (ways: number) => string
  readonly notesTitle: string
  readonly notesHelp: string
  readonly turnOn: string
  readonly turnOff: string
  readonly pushStates: {
    readonly [S in 'on' | 'off' | 'denied' | 'unsupported' | 'failed' | 'noScript']: string
  }
  readonly device: (n: number, host: string) => string
  readonly remove: string
  readonly removeDevice: (n: number) => string
  readonly mailTitle: string
  readonly mailOn: string
  readonly mailOff: string
  readonly mailEnd: string
  readonly mailBegin: string
  readonly linksTitle: string
  readonly linksHelp: string
  readonly calendar: string
  readonly text: string
  readonly shortText: string
  readonly renewLinks: string
  readonly hooks: {
    readonly title: string
    readonly sentence: (count: number) => string
    readonly help: string
    readonly address: string
    readonly add: string
    readonly secretOnce: (url: string) => string
    readonly deeds: { readonly [D in 'test' | 'secret' | 'remove']: string }
    readonly named: (deed: string, url: string) => string
    readonly tested: string
    readonly faults: { readonly [F in Extract<HookAdded, { kind: 'refused' }>['fault']]: string }
  }
  /** The ways out of the house, on the page of messages. */
  readonly ways: {
    readonly title: string
    readonly mailBy: (server: string, from: string) => string
    readonly mailPrinted: string
    readonly signedFor: (domain: string) => string
    readonly unsigned: string
    readonly hooks: (count: number) => string
    readonly works: string
    readonly paused: (until: string, failures: number) => string
    readonly trying: (failures: number) => string
    readonly testTo: string
    readonly morningMail: (wanted: boolean) => string
    readonly morningMailNamed: (wanted: boolean, name: string) => string
    readonly noMorningMail: string
  }
}
