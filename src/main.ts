/** Wires everything: reads what was typed and set, chooses the edges, starts, stops cleanly. */
import { dirname, join } from 'node:path'
import type { Farm } from '#core/farm/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { type Command, readCommand, USAGE } from '#edges/cli/arguments.ts'
import { type Environment, EnvironmentError, readEnvironment } from '#edges/config/environment.ts'
import { FarmFileError } from '#edges/config/faults.ts'
import { loadFarm } from '#edges/config/load.ts'
import { SourceFailure } from '#work/failures.ts'
import type { DayMade } from '#work/morning.ts'
import { NOTHING_TOLD, type Told, toldInBook } from '#work/told.ts'
import type { WeatherStore } from '#work/weather-store.ts'

const ROOT = dirname(import.meta.dirname)
const DEMO_FARM = join(ROOT, 'config/demo/farm.yaml')
const FAULT_EXIT = 2

async function main(): Promise<void> {
  const command = readCommand(process.argv.slice(2))
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
    case 'skill':
      return await skill(command, environment)
    case 'sources':
      return await sources(command, environment)
    case 'serve': {
      const { serve } = await import('./serve.ts')
      const { farm, warnings } = await readFarm(environment.THRESHDAY_FARM)
      return await serve(environment, farm, warnings)
    }
  }
}

const farmAt = async (path: string | undefined): Promise<Farm> => (await readFarm(path)).farm

/** The farm, and what in its file gives pause: told at once, and shown on the page of settings. */
async function readFarm(path: string | undefined): Promise<{ readonly farm: Farm; readonly warnings: string[] }> {
  const { farm, warnings: faults } = await loadFarm(path ?? DEMO_FARM)
  const warnings = faults.map(
    ({ file, line, path: place, problem, cure }) => `${file}:${line}: ${place} ${problem}. ${cure}`,
  )
  for (const warning of warnings) process.stderr.write(`${warning}\n`)
  return { farm, warnings }
}

async function check(file: string): Promise<void> {
  const { describeFarm } = await import('#edges/config/describe.ts')
  process.stdout.write(describeFarm(await farmAt(file)))
}

type DayCommand = Command & { name: 'today' | 'week' }

async function today(command: DayCommand, environment: Environment): Promise<void> {
  const { printToday } = await import('#edges/cli/today.ts')
  const { farm, made } = await dayAsked(command, environment)
  process.stdout.write(printToday(farm, made, command.json))
}

async function week(command: DayCommand, environment: Environment): Promise<void> {
  const { printWeek } = await import('#edges/cli/week.ts')
  const { createHighsSolver } = await import('#edges/solver/highs-solver.ts')
  const { farm, made, told } = await dayAsked(command, environment)
  const solver = createHighsSolver()
  try {
    process.stdout.write(await printWeek({ farm, made, told, solver }, command.json))
  } finally {
    await solver.close()
  }
}

/** The day that a command asks for, made from the newest weather and what was told. */
async function dayAsked(command: DayCommand, environment: Environment): Promise<DayAsked> {
  const { suppliersOf } = await import('./suppliers.ts')
  const { dayFromSources, dayBefore } = await import('#work/morning.ts')
  const { keepWeather } = await import('#work/weather-keeper.ts')
  const file = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const { suppliers, startEpochH, replayable } = await suppliersOf(file, environment)
  const now = command.now ?? startEpochH ?? epochHoursOf(Temporal.Now.instant())
  const { farm, told } = await toldTo(file, environment)
  // Recorded weather can be asked for yesterday as well; a live service can't. Only the message tells what changed.
  const memory = replayable && command.name === 'today' ? dayBefore(farm, suppliers, now, told) : undefined
  const store = replayable ? undefined : await weatherStoreIn(environment)
  try {
    const log = (line: string) => process.stderr.write(`${line}\n`)
    const asked = store ? keepWeather({ suppliers, store, random: Math.random, log }).suppliers : suppliers
    const made = await dayFromSources(farm, asked, now, memory, undefined, told)
    for (const failure of made.failures) log(failure)
    return { farm, made, told }
  } finally {
    await store?.close()
  }
}

interface DayAsked {
  readonly farm: Farm
  readonly made: DayMade
  readonly told: Told
}

/** What the service has kept of the weather is at hand here too. */
async function weatherStoreIn(environment: Environment): Promise<WeatherStore> {
  const { databaseIn } = await import('./book.ts')
  const { openWeatherStore } = await import('#edges/storage/weather-store.ts')
  return await openWeatherStore(databaseIn(environment))
}

/** What was told of the farm; a farm of which nothing was ever told needs no database. */
async function toldTo(file: Farm, environment: Environment): Promise<{ readonly farm: Farm; readonly told: Told }> {
  const { hasDatabase, openBook } = await import('./book.ts')
  if (!hasDatabase(environment)) return { farm: file, told: NOTHING_TOLD }
  const book = await openBook(file, environment, (line) => process.stderr.write(`${line}\n`))
  try {
    return await toldInBook(file, book.store, book.nowEpochH, book.forecasts)
  } finally {
    await book.close()
  }
}

async function tell(
  command: Command & { name: 'reading' | 'cut' | 'event' | 'patch' },
  environment: Environment,
): Promise<void> {
  const { openBook } = await import('./book.ts')
  const { runTelling } = await import('#edges/cli/telling.ts')
  const farm = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const book = await openBook(farm, environment, (line) => process.stderr.write(`${line}\n`))
  try {
    const { text, refused } = await runTelling(command, book)
    process.stdout.write(text)
    if (refused) process.exitCode = FAULT_EXIT
  } finally {
    await book.close()
  }
}

// A reader that has seen enough, such as `head`, is no fault.
process.stdout.on('error', (fault: NodeJS.ErrnoException) => {
  if (fault.code !== 'EPIPE') throw fault
})

async function skill(command: Command & { name: 'skill' }, environment: Environment): Promise<void> {
  const { openBook } = await import('./book.ts')
  const { printSkill } = await import('#edges/cli/skill.ts')
  const { skillReport } = await import('#work/skill.ts')
  const farm = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const book = await openBook(farm, environment, (line) => process.stderr.write(`${line}\n`))
  try {
    process.stdout.write(
      printSkill(await skillReport(farm.id, book.store, book.forecasts, book.nowEpochH), command.json),
    )
  } finally {
    await book.close()
  }
}

async function sources(command: Command & { name: 'sources' }, environment: Environment): Promise<void> {
  const { suppliersOf } = await import('./suppliers.ts')
  const { printSources } = await import('#edges/cli/sources.ts')
  const { keepWeather } = await import('#work/weather-keeper.ts')
  const farm = await farmAt(command.farm ?? environment.THRESHDAY_FARM)
  const { suppliers, replayable } = await suppliersOf(farm, environment)
  if (replayable) return void process.stdout.write(printSources([], farm.timeZone, command.json))
  const store = await weatherStoreIn(environment)
  try {
    const log = (line: string) => process.stderr.write(`${line}\n`)
    const keeper = keepWeather({ suppliers, store, random: Math.random, log })
    const nowEpochH = epochHoursOf(Temporal.Now.instant())
    if (command.ask) await keeper.askAll({ place: farm.home, nowEpochH })
    process.stdout.write(printSources(await keeper.states(nowEpochH), farm.timeZone, command.json))
  } finally {
    await store.close()
  }
}

try {
  await main()
} catch (failure) {
  // What a person can mend is told in one piece; anything else is a bug and keeps its trace.
  if (failure instanceof FarmFileError || failure instanceof EnvironmentError || failure instanceof SourceFailure) {
    process.stderr.write(`${failure.message}\n`)
    process.exitCode = FAULT_EXIT
  } else throw failure
}
