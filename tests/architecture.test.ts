/** The arrows between the layers, and the purity of the core: the guards bite, and the tree passes them. */
import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

const ROOT = join(import.meta.dirname, '..')
const BIOME = join(ROOT, 'node_modules/.bin/biome')

/** Every layer of the core, inner to outer. */
const CORE = ['units', 'science', 'operation', 'field', 'outlook', 'planning', 'messages'] as const
const EDGES = foldersOf('src/edges')

interface ImportCase {
  readonly file: string
  readonly allowed: readonly string[]
  readonly refused: readonly string[]
}

const OUTSIDE = ['#app/x.ts', '#edges/http/x.ts', '#tests/x.ts', 'node:fs', 'node:process', 'undici', 'zod', '../x.ts']

const IMPORT_CASES: readonly ImportCase[] = [
  ...CORE.map((layer, index) => ({
    file: `src/core/${layer}/imports.ts`,
    allowed: ['./sibling.ts', ...CORE.slice(0, index + 1).map((name) => `#core/${name}/x.ts`)],
    refused: [...OUTSIDE, ...CORE.slice(index + 1).map((name) => `#core/${name}/x.ts`)],
  })),
  {
    file: 'src/app/imports.ts',
    allowed: ['./sibling.ts', '#core/units/time.ts', '#app/ports.ts'],
    refused: ['#edges/storage/x.ts', '#tests/x.ts', '../x.ts', 'node:fs'],
  },
  ...EDGES.map((edge) => ({
    file: `src/edges/${edge}/imports.ts`,
    allowed: [`#edges/${edge}/x.ts`, '#edges/http/client.ts', '#core/units/time.ts', '#app/ports.ts', 'node:fs', 'zod'],
    refused: [
      '#tests/x.ts',
      '../x.ts',
      ...EDGES.filter((name) => name !== edge && name !== 'http').map((name) => `#edges/${name}/x.ts`),
    ],
  })),
]

const GLOBALS = {
  clock: 'export const now = Date.now()',
  environment: 'export const home = process.env',
  network: "export const get = () => fetch('https://example.org')",
  print: "export const say = () => console.log('x')",
  timer: 'export const wait = () => setTimeout(() => {}, 1)',
  stopwatch: 'export const t = performance.now()',
  chance: 'export const id = crypto.randomUUID()',
}

let samples: string
let diagnostics: readonly { readonly category: string; readonly file: string; readonly line: number }[]

/** All samples in a tree of their own, under the project's rules, and one run of the linter over them. */
beforeAll(() => {
  samples = mkdtempSync(join(tmpdir(), 'layers-'))
  const rules = JSON.parse(readFileSync(join(ROOT, 'biome.json'), 'utf8'))
  put('biome.json', JSON.stringify({ ...rules, $schema: undefined, vcs: { enabled: false }, root: true }))
  for (const { file, allowed, refused } of IMPORT_CASES) put(file, importing([...allowed, ...refused]))
  for (const layer of CORE) put(`src/core/${layer}/dynamic.ts`, "export const x = () => import('#edges/http/x.ts')\n")
  for (const [name, code] of Object.entries(GLOBALS)) {
    for (const layer of CORE) put(`src/core/${layer}/${name}.ts`, `${code}\n`)
  }
  diagnostics = lint(samples, ['.', '--max-diagnostics=none'])
})
afterAll(() => rmSync(samples, { recursive: true, force: true }))

describe('imports', () => {
  it.each(IMPORT_CASES)('$file may import inwards only', ({ file, allowed, refused }) => {
    const all = [...allowed, ...refused]
    const found = diagnostics.filter((d) => d.file === file && d.category === 'lint/style/noRestrictedImports')
    expect(found.map(({ line }) => all[line - 1]).sort()).toEqual([...refused].sort())
  })

  it.each(CORE)('core/%s has no back door through a dynamic import', (layer) => {
    const file = `src/core/${layer}/dynamic.ts`
    expect(diagnostics.filter((d) => d.file === file).map((d) => d.category)).toContain(
      'lint/style/noRestrictedImports',
    )
  })
})

describe('purity of the core', () => {
  it.each(Object.keys(GLOBALS))('the linter refuses the %s in every layer', (name) => {
    for (const layer of CORE) {
      const file = `src/core/${layer}/${name}.ts`
      expect(diagnostics.filter((d) => d.file === file).map((d) => d.category)).toContain(
        'lint/style/noRestrictedGlobals',
      )
    }
  })

  const files = readdirSync(join(ROOT, 'src/core'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => ({ name, code: withoutComments(readFileSync(join(ROOT, 'src/core', name), 'utf8')) }))

  /** What the linter can't see: clock and chance behind allowed globals, and waiting. */
  const FORBIDDEN = [/Temporal\.Now/, /Math\.random/, /globalThis/, /\basync\b/, /\bawait\b/, /\bPromise\b/]

  it('nobody in the core asks for the time, for chance, or for time to wait', () => {
    expect(files.length).toBeGreaterThan(80)
    const found = files.flatMap(({ name, code }) =>
      FORBIDDEN.filter((pattern) => pattern.test(code)).map((pattern) => `${name}: ${pattern}`),
    )
    expect(found).toEqual([])
  })

  it('Date stands in one annotated line, made from its argument', () => {
    const found = files.flatMap(({ name, code }) =>
      code.split('\n').flatMap((line) => (/\bDate\b/.test(line) ? [`${name}: ${line.trim()}`] : [])),
    )
    expect(found).toEqual([
      'science/sun/daylight.ts: const dateAt = (epochHours: number) => new Date(epochHours * MS_PER_HOUR)',
    ])
  })

  it('every folder of the core is a layer with a guard', () => {
    expect(foldersOf('src/core').sort()).toEqual([...CORE].sort())
  })
})

it('the tree itself passes', () => {
  const errors = lint(ROOT, ['src', '--diagnostic-level=error', '--max-diagnostics=none'])
  expect(errors).toEqual([])
})

function put(path: string, text: string): void {
  mkdirSync(dirname(join(samples, path)), { recursive: true })
  writeFileSync(join(samples, path), text)
}

/** One import a line, so that a line number names it. */
function importing(specifiers: readonly string[]): string {
  const names = specifiers.map((_, i) => `x${i}`)
  const lines = specifiers.map((specifier, i) => `import { ${names[i]} } from '${specifier}'`)
  return `${lines.join('\n')}\nexport const all = [${names.join(', ')}]\n`
}

function lint(root: string, options: readonly string[]) {
  const { stdout } = spawnSync(BIOME, ['lint', '--reporter=json', ...options], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  })
  const report = JSON.parse(stdout) as {
    diagnostics: { category: string; location: { path: string; start: { line: number } } }[]
  }
  return report.diagnostics.map(({ category, location }) => ({
    category,
    file: location.path.replace(/^\.\//, ''),
    line: location.start.line,
  }))
}

function foldersOf(path: string): string[] {
  return readdirSync(join(ROOT, path), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => name)
}

function withoutComments(code: string): string {
  return code.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1')
}
