import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { settingsTable } from '#edges/config/environment.ts'

it('shows in the README the message that the demo farm prints', () => {
  const printed = execFileSync(process.execPath, ['src/main.ts', 'today'], { encoding: 'utf8' })
  const shown = /```text\n([\s\S]*?)```/.exec(readFileSync('README.md', 'utf8'))?.[1]
  expect(shown).toBe(printed)
})

it('names in the README every command', () => {
  const readme = readFileSync('README.md', 'utf8')
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> }
  const commands = Object.entries(scripts).filter(([, line]) => line.startsWith('node src/main.ts'))
  for (const [name] of commands) expect(readme).toMatch(new RegExp(`\\b${name}\\b`))
})

it('has the settings of the machine in the README as the program knows them', () => {
  const shown = /\| variable \|[\s\S]*?(?=\n\n)/.exec(readFileSync('README.md', 'utf8'))?.[0]
  expect(shown).toBe(settingsTable())
})
