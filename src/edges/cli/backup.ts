/** `backup` and `restore`: a copy of the farm's book, and a copy put back. */
import { parseArgs } from 'node:util'

export interface BackupCommand {
  readonly name: 'backup'
  /** File to write; a name with the moment in it, in the data folder, when not told. */
  readonly to: string | undefined
}

export interface RestoreCommand {
  readonly name: 'restore'
  readonly from: string
  readonly replace: boolean
}

export const BACKUP_USAGE = `  npm run backup -- [--to FILE]                    copies the farm's book while the service runs, and proves the copy
  npm run restore -- FILE [--replace]              puts a copy back; --replace moves the book that is there aside
`

/** @throws with what is wrong. */
export function readBackup(args: readonly string[]): BackupCommand {
  const { values } = parseArgs({ args: [...args], options: { to: { type: 'string' } } })
  return { name: 'backup', to: values.to }
}

/** @throws with what is wrong. */
export function readRestore(args: readonly string[]): RestoreCommand {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { replace: { type: 'boolean', default: false } },
  })
  const [from, ...more] = positionals
  if (from === undefined || more.length > 0) throw new Error('restore takes one file: npm run restore -- FILE')
  return { name: 'restore', from, replace: values.replace }
}

/** A name that sorts by time: `threshday-20100930T053000Z.sqlite`. */
export const backupName = (now: Temporal.Instant): string => `threshday-${stamp(now)}.sqlite`

/** Where the book goes that a restored one takes the place of. */
export const asideName = (book: string, now: Temporal.Instant): string => `${book}.before-${stamp(now)}`

const stamp = (now: Temporal.Instant): string => now.toString({ smallestUnit: 'second' }).replaceAll(/[-:]/g, '')
