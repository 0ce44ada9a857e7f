import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeEach, expect, it } from 'vitest'
import { farmFromBook, seedFields } from '#app/farm-fields.ts'
import type { Book } from '#app/records.ts'
import { readCommand } from '#edges/cli/arguments.ts'
import { runTelling } from '#edges/cli/telling.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'

const folder = mkdtempSync(join(tmpdir(), 'threshday-patch-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

let book: Book
beforeEach(async () => {
  book = await memoryBook()
  await seedFields(book.farm, book.store, NOON)
})

async function type(...words: string[]): Promise<string> {
  const command = readCommand(['patch', ...words, '--by', 'ann'])
  if (command.name !== 'patch') return `HELP ${command.name === 'help' ? command.fault : command.name}`
  const { text, refused } = await runTelling(command, book)
  book = { ...book, farm: await farmFromBook(book.farm, book.store) }
  return `${refused ? 'REFUSED ' : ''}${text}`
}

const outline = (coordinates: number[][]) => {
  const file = join(folder, 'outline.json')
  const geometry = { type: 'Polygon', coordinates: [coordinates] }
  writeFileSync(
    file,
    JSON.stringify({ type: 'FeatureCollection', features: [{ type: 'Feature', properties: {}, geometry }] }),
  )
  return file
}
const EAST = [
  [-88.122, 40],
  [-88.12, 40],
  [-88.12, 40.01],
  [-88.122, 40.01],
  [-88.122, 40],
]

it('is split off by share, in the units of the farm, and joined again', async () => {
  const words = ['--field', 'Beta', '--name', 'Draw', '--share', '0.1', '--later', '6']
  expect(await type(...words)).toBe('Split off: Draw of Beta, 12.0 acres, green\n')
  expect(await type(...words)).toBe('Known already: Draw of Beta, 12.0 acres, green\n')
  expect(await type('--field', 'Beta', '--name', 'Draw', '--join')).toBe(
    'Joined again: Draw of Beta, 12.0 acres, green\n',
  )
  expect(await type('--field', 'Beta', '--name', 'Draw', '--join')).toContain('REFUSED Not taken. Beta has no patches')
})

it('is split off by a GeoJSON outline', async () => {
  // A fifth of the 234.3 acres that the base field's drawn outline encloses.
  expect(await type('--field', 'Alpha', '--name', 'East', '--outline', outline(EAST), '--kind', 'wet-hole')).toBe(
    'Split off: East of Alpha, 46.9 acres, wet-hole\n',
  )
})

it.each([
  [['--name', 'x', '--share', '0.1'], 'HELP --field is missing'],
  [['--field', 'Beta', '--name', 'x'], 'HELP Give --share or --outline, one of them'],
  [['--field', 'Beta', '--name', 'x', '--share', '0.1', '--outline', 'f'], 'HELP Give --share or --outline'],
  [
    ['--field', 'Beta', '--name', 'x', '--share', '0.1', '--kind', 'red'],
    'HELP --kind "red" is none of green, wet-hole',
  ],
  [['--field', 'Beta', '--name', 'x', '--share', '1.2'], 'REFUSED Not taken. 1.2 is not a share that fits'],
  [['--field', 'Alpha', '--name', 'x', '--outline', 'nowhere.json'], 'is not GeoJSON with one polygon'],
  [['--field', 'Alpha', '--name', 'x', '--outline', import.meta.filename], 'is not GeoJSON with one polygon'],
])('%j is told what is wrong', async (words, said) => {
  expect(await type(...words)).toContain(said)
})

it('does not take an outline that is not closed', async () => {
  expect(await type('--field', 'Alpha', '--name', 'x', '--outline', outline(EAST.slice(0, 4)))).toContain(
    'is not GeoJSON',
  )
})
