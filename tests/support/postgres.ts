/**
 * A PostgreSQL for the storage suite: the one POSTGRES_URL names (it must let us create databases), or a throw-away server from the
 * programs Debian installs. `.ci/run` installs them, so under CI their absence is a failure; elsewhere it is said aloud.
 */
import { execFileSync } from 'node:child_process'
import { chmodSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export interface Postgres {
  readonly url: string
  stop(): void
}

const DEBIAN_HOME = '/usr/lib/postgresql'

/** @throws under CI when there is none. @returns nothing when there is none. */
export function startPostgres(): Postgres | undefined {
  const given = process.env.POSTGRES_URL
  if (given) return { url: given, stop: () => undefined }
  const programs = debianPrograms()
  if (programs) return startThrowAway(programs)
  const missing = 'No PostgreSQL found: set POSTGRES_URL, or apt-get install postgresql'
  if (process.env.CI === 'true') throw new Error(missing)
  process.stderr.write(`SKIPPED, storage on PostgreSQL. ${missing}\n`)
  return undefined
}

function debianPrograms(): string | undefined {
  if (!existsSync(DEBIAN_HOME)) return undefined
  return readdirSync(DEBIAN_HOME)
    .map((version) => join(DEBIAN_HOME, version, 'bin'))
    .filter((folder) => existsSync(join(folder, 'initdb')))
    .at(-1)
}

/** Listens on a socket in its own folder only, so it takes no port and nobody else can reach it. */
function startThrowAway(programs: string): Postgres {
  const home = mkdtempSync(join(tmpdir(), 'threshday-pg-'))
  const data = join(home, 'data')
  const asRoot = process.getuid?.() === 0
  // The server refuses to run as root; Debian makes a user for it.
  if (asRoot) execFileSync('chown', ['postgres:', home])
  chmodSync(home, 0o755)
  const run = (program: string, ...args: string[]) => {
    const [command, rest] = asRoot
      ? ['runuser', ['-u', 'postgres', '--', join(programs, program), ...args]]
      : [join(programs, program), args]
    execFileSync(command!, rest as string[], { stdio: ['ignore', 'ignore', 'pipe'], cwd: home })
  }
  try {
    run('initdb', '-D', data, '-U', 'threshday', '--auth=trust', '--encoding=UTF8', '--no-sync')
    run(
      'pg_ctl',
      '-D',
      data,
      '-w',
      '-l',
      join(home, 'log'),
      '-o',
      `-k ${home} -c listen_addresses= -c fsync=off`,
      'start',
    )
  } catch (failure) {
    rmSync(home, { recursive: true, force: true })
    throw failure
  }
  return {
    url: `postgres://threshday@localhost/postgres?host=${encodeURIComponent(home)}`,
    stop: () => {
      run('pg_ctl', '-D', data, '-m', 'immediate', 'stop')
      rmSync(home, { recursive: true, force: true })
    },
  }
}
