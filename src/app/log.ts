/** What the running service tells of itself: a sentence for people, and facts under steady names for programs. */
export type LogLevel = 'debug' | 'info' | 'warn' | 'error'

/** What can happen that is worth a line of its own. */
export const LOG_EVENTS = [
  'started',
  'stopped',
  'request',
  'request-failed',
  'plan-made',
  'plan-kept',
  'morning-posted',
  'evening-posted',
  'message-sent',
  'message-postponed',
  'message-dead',
  'message-lapsed',
  'alert',
  'source-failed',
  'farm-file-changed',
  'tick-failed',
] as const
export type LogEvent = (typeof LOG_EVENTS)[number]

export interface LogFacts {
  readonly event: LogEvent
  /** `info` when not told. */
  readonly level?: LogLevel
  /** Ids, counts and times; never a secret, an address or the text of a message. */
  readonly [fact: string]: string | number | boolean | undefined
}

export type Log = (text: string, facts?: LogFacts) => void
