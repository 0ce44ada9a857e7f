/** What was typed on the command line. */
import { parseArgs } from 'node:util'
import { epochHoursOf } from '#core/units/time.ts'
import { BACKUP_USAGE, type BackupCommand, type RestoreCommand, readBackup, readRestore } from './backup.ts'
import { CUT_USAGE, type CutCommand, readCut } from './cut.ts'
import { EVENT_USAGE, type EventCommand, readEvent } from './event.ts'
import { HELLO_USAGE, type HelloCommand, readHello } from './hello.ts'
import { PATCH_USAGE, type PatchCommand, readPatch } from './patch.ts'
import { READING_USAGE, type ReadingCommand, readReading } from './reading.ts'
import { readSeason, SEASON_USAGE, type SeasonCommand } from './season.ts'
import { readSkill, SKILL_USAGE, type SkillCommand } from './skill.ts'
import { readSources, SOURCES_USAGE, type SourcesCommand } from './sources.ts'

export type Command =
  | { readonly name: 'serve' }
  | ({ readonly name: 'today' | 'week' } & Moment)
  | { readonly name: 'check'; readonly file: string }
  | ReadingCommand
  | CutCommand
  | EventCommand
  | PatchCommand
  | SeasonCommand
  | SkillCommand
  | SourcesCommand
  | HelloCommand
  | BackupCommand
  | RestoreCommand
  | { readonly name: 'help'; readonly fault: string | undefined }

/** A day asked for: of which farm, at which moment, in which shape. */
interface Moment {
  readonly farm: string | undefined
  /** Hours since the epoch. */
  readonly now: number | undefined
  readonly json: boolean
}

export const USAGE = `Threshday

  npm start                                        the service, on the demo farm until THRESHDAY_FARM is set
  npm run today -- [--farm FILE] [--now TIME] [--json]
                                                   today's message; TIME is ISO 8601, such as 2010-09-28T05:30-05:00
  npm run week -- [--farm FILE] [--now TIME] [--json]
                                                   the days ahead: when each field is likely cut, and how sure that is
  npm run check -- FILE                            checks a farm file and prints what it understood
${READING_USAGE}${CUT_USAGE}${EVENT_USAGE}${PATCH_USAGE}${SEASON_USAGE}${SKILL_USAGE}${SOURCES_USAGE}${HELLO_USAGE}${BACKUP_USAGE}`

export function readCommand(words: readonly string[]): Command {
  const [name, ...rest] = words
  try {
    switch (name) {
      case undefined:
      case 'serve':
        parseArgs({ args: rest, options: {} })
        return { name: 'serve' }
      case 'today':
      case 'week':
        return { name, ...readMoment(rest) }
      case 'check':
        return readCheck(rest)
      case 'reading':
        return readReading(rest)
      case 'cut':
        return readCut(rest)
      case 'event':
        return readEvent(rest)
      case 'patch':
        return readPatch(rest)
      case 'season':
        return readSeason(rest)
      case 'skill':
        return readSkill(rest)
      case 'sources':
        return readSources(rest)
      case 'hello':
        return readHello(rest)
      case 'backup':
        return readBackup(rest)
      case 'restore':
        return readRestore(rest)
      case 'help':
      case '--help':
        return { name: 'help', fault: undefined }
      default:
        return { name: 'help', fault: `"${name}" is not a command` }
    }
  } catch (fault) {
    return { name: 'help', fault: fault instanceof Error ? fault.message : String(fault) }
  }
}

function readMoment(args: readonly string[]): Moment {
  const { values } = parseArgs({
    args: [...args],
    options: { farm: { type: 'string' }, now: { type: 'string' }, json: { type: 'boolean', default: false } },
  })
  return {
    farm: values.farm,
    now: values.now === undefined ? undefined : timeOf(values.now),
    json: values.json,
  }
}

function readCheck(args: readonly string[]): Command {
  const { positionals } = parseArgs({ args: [...args], allowPositionals: true, options: {} })
  const [file, ...more] = positionals
  if (file === undefined || more.length > 0) throw new Error('check takes one file: npm run check -- FILE')
  return { name: 'check', file }
}

/** @returns hours since the epoch of an ISO 8601 time with an offset or `Z`. */
function timeOf(text: string): number {
  try {
    return epochHoursOf(Temporal.Instant.from(text))
  } catch {
    throw new Error(
      `--now "${text}" is not a time with its offset; write it like 2010-09-28T05:30-05:00 or 2010-09-28T10:30Z`,
    )
  }
}
