/** The YAML text with its line numbers: reads it safely and finds where each path of the data stands. */
import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  visit,
  type YAMLError,
} from 'yaml'
import { type FarmFault, type Finding, MISSING } from './faults.ts'

/** A thousand finely drawn fields stay well below this. */
const MAX_CHARACTERS = 16_000_000
/** A hand-written file repeats itself a little; a file made to exhaust memory repeats itself without end. */
const MAX_ALIASES = 100
const SHOWN_CHARACTERS = 60

export interface YamlText {
  /** The file as plain data; nothing if it cannot be trusted. */
  readonly data: unknown
  readonly faults: readonly FarmFault[]
  place(finding: Finding): FarmFault
  /** Line on which a path of the data begins, from 1; undefined where the file does not have it. */
  lineOf(path: readonly (string | number)[]): number | undefined
}

type Words = Pick<FarmFault, 'value' | 'problem' | 'cure'>

/** The reader's own error codes in words for a farmer. */
const WORDS: { readonly [code: string]: Omit<Words, 'value'> } = {
  DUPLICATE_KEY: { problem: 'stands twice in the same place', cure: 'Keep one of the two and delete the other.' },
  TAB_AS_INDENT: { problem: 'is indented with a tab', cure: 'Indent with spaces, two for each step.' },
  BAD_INDENT: { problem: 'is indented unlike its neighbours', cure: 'Line it up with the keys it belongs to.' },
  MULTIPLE_DOCS: { problem: 'begins a second document', cure: 'Delete the line --- and what follows it.' },
  TAG_RESOLVE_FAILED: { problem: 'has a tag that means nothing here', cure: 'Delete the word that begins with "!".' },
  BAD_ALIAS: { problem: 'is no alias of anything', cure: 'Put text that begins with * or & in quotes.' },
  MISSING_CHAR: { problem: 'is not closed or lacks a mark', cure: 'Look for a missing quote, comma or bracket.' },
  NON_STRING_KEY: { problem: 'is a key that is not text', cure: 'Use one of the known keys.' },
  MULTILINE_IMPLICIT_KEY: { problem: 'lacks a colon', cure: 'Write key: value, with a space after the colon.' },
}

export function readYaml(text: string, file: string): YamlText {
  const lines = new LineCounter()
  const faultAt = (offset: number, words: Words, path = ''): FarmFault => {
    const { line, col } = lines.linePos(offset)
    return { file, line: Math.max(1, line), column: Math.max(1, col), path, ...words }
  }
  const whole = (problem: string, cure: string) => faultAt(0, { value: 'The file', problem, cure })
  const broken = (faults: FarmFault[]): YamlText => ({
    data: undefined,
    faults,
    place: (finding) => whole(finding.problem, finding.cure),
    lineOf: () => undefined,
  })

  if (text.length > MAX_CHARACTERS)
    return broken([whole('is too large', `Keep it below ${MAX_CHARACTERS} characters.`)])
  const doc = parseDocument(text, { lineCounter: lines, prettyErrors: false, stringKeys: true, version: '1.2' })
  // The reader calls itself for every bracket inside a bracket, so a tower of them exhausts the stack.
  if (doc.errors.some(({ message }) => message.includes('call stack')))
    return broken([whole('is nested too deeply', 'Remove stray brackets and dashes.')])

  const faults = [...doc.errors, ...doc.warnings].map((error) => faultAt(error.pos[0], wordsFor(error, text)))
  if ([...doc.errors, ...doc.warnings].some(({ code }) => code !== 'DUPLICATE_KEY')) return broken(faults)
  if (doc.contents === null || (isScalar(doc.contents) && doc.contents.value === null))
    return broken([whole('is empty', 'Begin with a copy of config/farm.example.yaml.')])
  const stray = strayAliases(doc)
  if (stray.length > 0) return broken([...faults, ...stray.map(({ offset, ...words }) => faultAt(offset, words))])

  keepLeadingZeros(doc)
  let data: unknown
  try {
    data = doc.toJS({ maxAliasCount: MAX_ALIASES })
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error)
    return broken([...faults, whole(`repeats itself too often (${why})`, 'Write repeated parts out.')])
  }
  return {
    data,
    faults,
    place(finding) {
      const found = locate(doc, finding.path)
      const value = finding.atKey
        ? shortened(String(finding.path.at(-1)))
        : found.depth < finding.path.length
          ? MISSING
          : shortened(text.slice(found.offset, found.end))
      const { problem, cure } = finding
      const offset = (finding.atKey ? found.keyOffset : undefined) ?? found.offset
      return faultAt(offset, { value, problem, cure }, pathText(data, finding.path))
    },
    lineOf(path) {
      const { depth, keyOffset, offset } = locate(doc, path)
      return depth < path.length ? undefined : lines.linePos(keyOffset ?? offset).line
    },
  }
}

function wordsFor(error: YAMLError, text: string): Words {
  const known = WORDS[error.code]
  return {
    value: shortened(lineOf(text, error.pos[0])),
    problem: known?.problem ?? `cannot be read (${error.message})`,
    cure: known?.cure ?? 'Mend this line.',
  }
}

function strayAliases(doc: Document): (Words & { offset: number })[] {
  const stray: (Words & { offset: number })[] = []
  visit(doc, {
    Alias(_, alias) {
      if (alias.resolve(doc)) return
      const words = {
        value: `*${alias.source}`,
        problem: 'points to nothing named before',
        cure: 'Put text that begins with * in quotes.',
      }
      stray.push({ ...words, offset: alias.range?.[0] ?? 0 })
    },
  })
  return stray
}

/** Maturity group 00 is not 0: a bare number with two leading zeros is kept as text. */
function keepLeadingZeros(doc: Document): void {
  visit(doc, {
    Scalar(_, node) {
      if (typeof node.value === 'number' && node.source && /^00(\.\d+)?$/.test(node.source)) node.value = node.source
    },
  })
}

interface Found {
  readonly offset: number
  readonly end: number
  readonly keyOffset: number | undefined
  /** How many steps of the path exist in the file. */
  readonly depth: number
}

function locate(doc: Document, path: readonly (string | number)[]): Found {
  let node = doc.contents as Node | null
  let keyOffset: number | undefined
  let [offset, end] = spanOf(node)
  let depth = 0
  for (const step of path) {
    const holder = node && isAlias(node) ? (node.resolve(doc) ?? null) : node
    let next: unknown
    if (isMap(holder)) {
      const pair = holder.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step))
      if (!pair) break
      keyOffset = spanOf(pair.key as Node)[0]
      next = pair.value
    } else if (isSeq(holder)) {
      next = holder.items[Number(step)]
      keyOffset = undefined
    }
    if (next === undefined) break
    node = next as Node | null
    const span = node?.range ? spanOf(node) : undefined
    ;[offset, end] = span ?? [keyOffset ?? offset, keyOffset ?? end]
    depth++
  }
  return { offset, end, keyOffset, depth }
}

const spanOf = (node: Node | null): [number, number] => [node?.range?.[0] ?? 0, node?.range?.[1] ?? 0]

/** Lists are shown by the name of the entry where it has one, else by its number from 1. */
function pathText(data: unknown, path: readonly (string | number)[]): string {
  let value = data
  let text = ''
  for (const step of path) {
    value = typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[step] : undefined
    if (typeof step === 'number') {
      const name = (value as { name?: unknown } | null | undefined)?.name
      text += typeof name === 'string' ? `[${name}]` : `[#${step + 1}]`
    } else text += text ? `.${step}` : step
  }
  return text
}

function shortened(source: string): string {
  const oneLine = source.trim().replace(/\s+/g, ' ')
  return oneLine.length > SHOWN_CHARACTERS ? `${oneLine.slice(0, SHOWN_CHARACTERS)}…` : oneLine
}

function lineOf(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', Math.max(0, offset - 1)) + 1
  const end = text.indexOf('\n', offset)
  return text.slice(start, end < 0 ? text.length : end)
}
