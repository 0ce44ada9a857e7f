/** The service's log: one line an event, as JSON for programs or as text for a terminal, without secrets. */
import { pino, stdTimeFunctions } from 'pino'
import type { Log, LogLevel } from '#app/log.ts'
import { scrubber } from './scrub.ts'
import { textOf } from './text-line.ts'

export interface LogSettings {
  readonly level: LogLevel | 'silent'
  readonly format: 'json' | 'text'
  /** What is known to be secret: taken out of every line. */
  readonly secrets: readonly string[]
  /** Takes a whole line with its end. */
  readonly write: (line: string) => void
}

/** Facts of these names are never written, whatever they hold. */
const REDACTED = ['password', 'token', 'secret', 'authorization', 'cookie', 'privateKey', 'apiKey', 'auth']

export function openLogs({ level, format, secrets, write }: LogSettings): Log {
  const scrub = scrubber(secrets)
  const logger = pino(
    {
      level,
      base: null,
      messageKey: 'text',
      timestamp: stdTimeFunctions.isoTime,
      formatters: { level: (label) => ({ level: label }) },
      redact: { paths: REDACTED, censor: '[hidden]' },
    },
    {
      write: (line: string) => {
        const clean = scrub(line)
        write(format === 'json' ? clean : textOf(clean))
      },
    },
  )
  return (text, facts) => {
    const { level: told = 'info', ...rest } = facts ?? {}
    logger[told](rest, text)
  }
}

/** Passwords in the addresses that the machine's settings hold, and the settings that are secret as a whole. */
export function secretsIn(settings: readonly (string | undefined)[]): string[] {
  return settings.flatMap((setting) => {
    if (setting === undefined) return []
    const password = URL.canParse(setting) ? new URL(setting).password : ''
    return password === '' ? [setting] : [setting, password, decodeURIComponent(password)]
  })
}
