/** The commands: each reads what was typed and set, chooses the edges it needs, and ends cleanly. */
import { dirname, join } from 'node:path'
import { SourceFailure } from '#app/failures.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { type Command, readCommand, USAGE } from '#edges/cli/arguments.ts'
import { type Environment, EnvironmentError, readEnvironment } from '#edges/config/environment.ts'
import { FarmFileError } from '#edges/config/faults.ts'
import { loadFarm, type ReadFarm } from '#edges/config/load.ts'
import type { OpenBook } from './book.ts'

const ROOT = dirname(import.meta.dirname)
const DEMO_FARM = join(ROOT, 'config/demo/farm.yaml')
const FAULT_EXIT = 2

async function run(words: readonly string[]): Promise<void> {
  const command = readCommand(words)
  const environment = readEnvironment(process.env)
  switch (command.name) {
    case 'help':
      if (command.fault) process.stderr.write(`${command.fault}\n\n`)
      process.stdout.write(USAGE)
      process.exitCode = command.fault ? FAULT_EXIT : 0
      return
    case 'check':
      return await check(command.file)
    case 'today':
      return await today(command, environment)
    case 'week':
      return await week(command, environment)
    case 'reading':
    case 'cut':
    case 'event':
    case 'patch':
      return await tell(command, environment)
    case 'season':
      return await season(command, environment)
    case 'skill':
      return await skill(command, environment)
    case 'sources':
      return await sources(command, environment)
    case 'hello':
      return await sendHello(command, environment)
    case 'backup':
    case 'restore':
      return await keep(command, environment)
    case 'serve': {
      const { serve } = await import('./serve.ts')
      const { settingsOf } = await import('#edges/config/settings.ts')
      const read = await readFarm(environment.THRESHDAY_FARM)
      return await serve(environment, read.farm, settingsOf(read, environment.THRESHDAY_FARM ?? DEMO_FARM))
    }
  }
}

const farmAt = async (path: string | undefined): Promise<Farm> => (await readFarm(path)).farm

/** The farm; what in its file gives pause is told at once. */
async function readFarm(path: string | undefined): Promise<ReadFarm> {
  const read = await loadFarm(path ?? DEMO_FARM)
  for (const { file, line, path: place, problem, cure } of read.warnings) {
    process.stderr.write(`${file}:${line}: ${place} ${problem}. ${cure}\n`)
  }
  return read
}

async function check(file: string): Promise<void> {
  const { describeFarm } = await import('#edges/config/describe.ts')
  process.stdout.write(describeFarm(await farmAt(file)))
}

type DayCommand = Command & { name: 'today' | 'week' }

async function today(command: DayCommand, environment: Environment): Promise<void> {
  const { dayAsked } = await import('./day-asked.ts')
  const { printToday } = await import('#edges/cli/today.ts')
  const file = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const { farm, made } = await dayAsked(file, environment, { now: command.now, withYesterday: true, withSeason: false })
  process.stdout.write(printToday(farm, made, command.json))
}

async function week(command: DayCommand, environment: Environment): Promise<void> {
  const { dayAsked } = await import('./day-asked.ts')
  const { printWeek } = await import('#edges/cli/week.ts')
  const file = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const asked = { now: command.now, withYesterday: false, withSeason: true }
  const { farm, made, season } = await dayAsked(file, environment, asked)
  process.stdout.write(printWeek(farm, made, season, command.json))
}

/** What is done with the farm's book, which is opened for it and closed after. */
async function withBook(
  command: { readonly farm: string | undefined },
  environment: Environment,
  use: (book: OpenBook) => Promise<void>,
): Promise<void> {
  const { openBook } = await import('./book.ts')
  const file = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const book = await openBook(file, environment, (line) => process.stderr.write(`${line}\n`))
  try {
    await use(book)
  } finally {
    await book.close()
  }
}

async function tell(
  command: Command & { name: 'reading' | 'cut' | 'event' | 'patch' },
  environment: Environment,
): Promise<void> {
  const { runTelling } = await import('#edges/cli/telling.ts')
  await withBook(command, environment, async (book) => {
    const { text, refused } = await runTelling(command, book)
    process.stdout.write(text)
    if (refused) process.exitCode = FAULT_EXIT
  })
}

/** The plan is the one that the service published last. */
async function season(command: Command & { name: 'season' }, environment: Environment): Promise<void> {
  const { printSeason } = await import('#edges/cli/season.ts')
  const { seasonFromBook } = await import('#app/season-report.ts')
  await withBook(command, environment, async ({ farm, store: records, forecasts, plans, nowEpochH }) => {
    const last = await plans.last(farm.id)
    const report = await seasonFromBook(farm, { records, forecasts, plans }, last?.plan, nowEpochH)
    process.stdout.write(printSeason(farm, report, command.json))
  })
}

async function skill(command: Command & { name: 'skill' }, environment: Environment): Promise<void> {
  const { printSkill } = await import('#edges/cli/skill.ts')
  const { skillReport } = await import('#app/skill.ts')
  await withBook(command, environment, async ({ farm, store, forecasts, nowEpochH }) => {
    process.stdout.write(printSkill(await skillReport(farm.id, store, forecasts, nowEpochH), command.json))
  })
}

async function sendHello(command: Command & { name: 'hello' }, environment: Environment): Promise<void> {
  const { hello } = await import('./hello.ts')
  const farm = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const { text, failed } = await hello(farm, command, environment, (line) => process.stdout.write(`${line}\n`))
  process.stdout.write(text)
  if (failed) process.exitCode = FAULT_EXIT
}

async function sources(command: Command & { name: 'sources' }, environment: Environment): Promise<void> {
  const { weatherStoreIn } = await import('./book.ts')
  const { suppliersOf } = await import('./suppliers.ts')
  const { printSources } = await import('#edges/cli/sources.ts')
  const { keepWeather } = await import('#app/weather-keeper.ts')
  const farm = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const { suppliers, replayable } = await suppliersOf(farm, environment)
  if (replayable) return void process.stdout.write(printSources([], farm.timeZone, command.json))
  const store = await weatherStoreIn(environment)
  try {
    const log = (line: string) => process.stderr.write(`${line}\n`)
    const keeper = keepWeather({ suppliers, store, random: Math.random, log })
    const nowEpochH = epochHoursOf(Temporal.Now.instant())
    if (command.ask) await keeper.askAll({ place: farm.home, nowEpochH })
    process.stdout.write(printSources(await keeper.states(nowEpochH), farm.timeZone, command.json, keeper.lacks))
  } finally {
    await store.close()
  }
}

async function keep(command: Command & { name: 'backup' | 'restore' }, environment: Environment): Promise<void> {
  const { backUp, BackupFault, restore, sayHoldings } = await import('#edges/storage/backup.ts')
  const { asideName, backupName } = await import('#edges/cli/backup.ts')
  const { databaseIn } = await import('./book.ts')
  const book = databaseIn(environment)
  const now = Temporal.Now.instant()
  try {
    if (environment.THRESHDAY_DATABASE !== undefined) {
      throw new BackupFault('The book is on a PostgreSQL server: use its own pg_dump and pg_restore.')
    }
    if (command.name === 'backup') {
      const to = command.to ?? join(environment.THRESHDAY_DATA, 'backups', backupName(now))
      process.stdout.write(`${to}: ${sayHoldings(backUp(book, to))}\n`)
    } else {
      const { held, aside } = restore(command.from, book, command.replace ? asideName(book, now) : undefined)
      process.stdout.write(`${book}: ${sayHoldings(held)}\n${aside ? `What was there is now ${aside}\n` : ''}`)
    }
  } catch (fault) {
    if (!(fault instanceof BackupFault)) throw fault
    process.stderr.write(`${fault.message}\n`)
    process.exitCode = FAULT_EXIT
  }
}

export async function runCommand(words: readonly string[]): Promise<void> {
  // A reader that has seen enough, such as `head`, is no fault.
  process.stdout.on('error', (fault: NodeJS.ErrnoException) => {
    if (fault.code !== 'EPIPE') throw fault
  })
  try {
    await run(words)
  } catch (failure) {
    // What a person can mend is told in one piece; anything else is a bug and keeps its trace.
    if (failure instanceof FarmFileError || failure instanceof EnvironmentError || failure instanceof SourceFailure) {
      process.stderr.write(`${failure.message}\n`)
      process.exitCode = FAULT_EXIT
    } else throw failure
  }
}
