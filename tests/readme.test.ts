import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'

it('shows in the README the message that the demo farm prints', () => {
  const printed = execFileSync(process.execPath, ['src/main.ts', 'today'], { encoding: 'utf8' })
  const shown = /```text\n([\s\S]*?)```/.exec(readFileSync('README.md', 'utf8'))?.[1]
  expect(shown).toBe(printed)
})

it('names in the README every command and every setting of the machine', () => {
  const readme = readFileSync('README.md', 'utf8')
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> }
  const commands = Object.entries(scripts).filter(([, line]) => line.startsWith('node src/main.ts'))
  for (const [name] of commands) expect(readme).toMatch(new RegExp(`\\b${name}\\b`))
  const settings = readFileSync('src/edges/config/environment.ts', 'utf8').match(/^ {2}THRESHDAY_\w+/gm) ?? []
  expect(settings.length).toBeGreaterThan(5)
  for (const setting of settings) expect(readme).toContain(setting.trim())
})
