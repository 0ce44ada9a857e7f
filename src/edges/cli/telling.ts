/** Runs the commands that write in the farm's book. */
import { readFile } from 'node:fs/promises'
import { userInfo } from 'node:os'
import type { Book } from '#app/records.ts'
import { type CutCommand, runCut } from './cut.ts'
import { type EventCommand, runEvent } from './event.ts'
import { type PatchCommand, runPatch } from './patch.ts'
import { type ReadingCommand, runReading } from './reading.ts'
import type { Printed } from './records.ts'

export async function runTelling(
  command: ReadingCommand | CutCommand | EventCommand | PatchCommand,
  book: Book,
): Promise<Printed> {
  // Who does not say his name is named by the account he works under.
  const by = command.by ?? userInfo().username
  switch (command.name) {
    case 'reading':
      return await runReading(command, book, by, readText)
    case 'cut':
      return await runCut(command, book, by)
    case 'event':
      return await runEvent(command, book, by)
    case 'patch':
      return await runPatch(command, book, by, readText)
  }
}

async function readText(file: string): Promise<string | undefined> {
  try {
    return await readFile(file, 'utf8')
  } catch {
    return undefined
  }
}
