/** Copies of the book: taken under a writing process, proven, and put back. */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { copyFileSync, existsSync, mkdtempSync, openSync, readdirSync, rmSync, writeFileSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { DatabaseSync } from 'node:sqlite'
import { afterAll, describe, expect, it } from 'vitest'
import { takeReading } from '#app/records.ts'
import { BackupFault, backUp, holdingsOf, restore } from '#edges/storage/backup.ts'
import { MIGRATIONS } from '#edges/storage/migrate.ts'
import { openRecordStore } from '#edges/storage/records.ts'
import { killFarm, TOLD_AT, toldReading } from '#tests/faults/support/kill-farm.ts'

const folder = mkdtempSync(join(tmpdir(), 'threshday-backup-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
let count = 0
const fresh = () => join(folder, `book-${count++}.sqlite`)

async function bookOf(readings: number): Promise<string> {
  const path = fresh()
  const store = await openRecordStore(path)
  for (let n = 0; n < readings; n++) {
    await takeReading({ farm: killFarm(), store, nowEpochH: TOLD_AT }, toldReading(n, 'ann'))
  }
  await store.close()
  return path
}

const keysIn = async (path: string): Promise<ReadonlySet<string>> => {
  const store = await openRecordStore(path)
  const records = await store.current(killFarm().id, 'reading')
  await store.close()
  return new Set(records.map(({ key }) => key))
}

describe('a backup', () => {
  it('taken while another process writes holds all that was acknowledged before, is whole, and disturbs nobody', async () => {
    const path = fresh()
    const readings = 1500
    const script = join(import.meta.dirname, '../../faults/support/send-readings.ts')
    const writer = spawn(process.execPath, [script, path, String(readings), 'ann'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    const ended = once(writer, 'close')
    const acknowledged: string[] = []
    const taken: { copy: string; before: readonly string[]; after: number }[] = []
    for await (const line of createInterface({ input: writer.stdout })) {
      const [n, answer] = line.split(' ')
      if (answer === 'kept') acknowledged.push(`reading-${n}`)
      if (acknowledged.length > 0 && acknowledged.length % 300 === 0 && taken.length < 4 && answer === 'kept') {
        const before = [...acknowledged]
        const copy = fresh()
        const { records } = backUp(path, copy)
        taken.push({ copy, before, after: records.reading ?? 0 })
      }
    }
    await ended
    expect(acknowledged).toHaveLength(readings)
    expect(taken.length).toBeGreaterThan(1)
    // It must have been written to between the copies, or the test shows nothing.
    expect(new Set(taken.map(({ after }) => after)).size).toBeGreaterThan(1)
    expect(taken.some(({ after }) => after < readings)).toBe(true)
    for (const { copy, before, after } of taken) {
      const keys = await keysIn(copy)
      expect(before.filter((key) => !keys.has(key))).toEqual([])
      expect(keys.size).toBe(after)
    }
    expect((await keysIn(path)).size).toBe(readings)
  }, 60_000)

  it('says what it holds, at the level of this program, and leaves nothing else behind', async () => {
    const path = await bookOf(7)
    const copy = join(folder, 'deep', 'copy.sqlite')
    expect(backUp(path, copy)).toEqual({
      level: MIGRATIONS.at(-1),
      records: { reading: 7 },
      accounts: 0,
      messages: 0,
      lastToldEpochH: TOLD_AT,
    })
    expect(readdirSync(join(folder, 'deep'))).toEqual(['copy.sqlite'])
  })

  it('never overwrites a file, and needs a book', async () => {
    const path = await bookOf(1)
    const copy = fresh()
    backUp(path, copy)
    expect(() => backUp(path, copy)).toThrow(/is there already/)
    expect(() => backUp(join(folder, 'none.sqlite'), fresh())).toThrow(BackupFault)
  })
})

describe('restoring', () => {
  it('puts back what the copy holds', async () => {
    const path = await bookOf(5)
    const copy = fresh()
    backUp(path, copy)
    const target = join(folder, 'elsewhere', 'threshday.sqlite')
    expect(restore(copy, target, undefined)).toMatchObject({ held: { records: { reading: 5 } }, aside: undefined })
    expect(await keysIn(target)).toEqual(await keysIn(path))
  })

  it('replaces no book unasked and says what is there; asked, it moves it aside whole', async () => {
    const copy = fresh()
    backUp(await bookOf(5), copy)
    const path = await bookOf(9)
    expect(() => restore(copy, path, undefined)).toThrow(/holds a book already: 9 reading, .*--replace/)
    expect((await keysIn(path)).size).toBe(9)
    const aside = `${path}.before`
    expect(restore(copy, path, aside).aside).toBe(aside)
    expect((await keysIn(path)).size).toBe(5)
    expect((await keysIn(aside)).size).toBe(9)
  })

  it('takes what is still in the write-ahead log of a killed process aside too', async () => {
    const copy = fresh()
    backUp(await bookOf(2), copy)
    const path = fresh()
    const script = join(import.meta.dirname, '../../faults/support/send-readings.ts')
    const writer = spawn(process.execPath, [script, path, '200', 'ann'], { stdio: ['ignore', 'pipe', 'inherit'] })
    const ended = once(writer, 'close')
    let seen = 0
    for await (const line of createInterface({ input: writer.stdout })) {
      if (line.endsWith('kept') && ++seen === 100) writer.kill('SIGKILL')
    }
    await ended
    expect(existsSync(`${path}-wal`)).toBe(true)
    restore(copy, path, `${path}.before`)
    expect(existsSync(`${path}-wal`)).toBe(false)
    expect((await keysIn(path)).size).toBe(2)
    expect((await keysIn(`${path}.before`)).size).toBeGreaterThanOrEqual(100)
  })

  it('is refused while the book is in use', async () => {
    const copy = fresh()
    backUp(await bookOf(2), copy)
    const path = await bookOf(3)
    const store = await openRecordStore(path)
    await store.current(killFarm().id, 'reading')
    expect(() => restore(copy, path, `${path}.before`)).toThrow(/in use: stop the service/)
    await store.close()
    expect((await keysIn(path)).size).toBe(3)
    restore(copy, path, `${path}.before`)
  })

  it('is refused of what is no whole book', async () => {
    const text = join(folder, 'text.sqlite')
    writeFileSync(text, 'not a database at all, only words. '.repeat(40))
    expect(() => restore(text, fresh(), undefined)).toThrow(/not a whole book/)
    const path = await bookOf(40)
    const damaged = fresh()
    copyFileSync(path, damaged)
    const file = openSync(damaged, 'r+')
    // Pages in the middle, written over.
    writeSync(file, Buffer.alloc(12_288, 0xa5), 0, 12_288, 8192)
    expect(() => restore(damaged, fresh(), undefined)).toThrow(BackupFault)
    expect(() => restore(join(folder, 'nowhere.sqlite'), fresh(), undefined)).toThrow(/There is no file/)
  })

  it('is refused of a book of a later version', async () => {
    const path = await bookOf(1)
    const database = new DatabaseSync(path)
    database.exec("INSERT INTO kysely_migration (name, timestamp) VALUES ('999-later', '2030-01-01T00:00:00Z')")
    database.close()
    expect(() => holdingsOf(path)).toThrow(/later version \(999-later\)/)
  })
})
