/** The YAML text with its line numbers: reads it safely and finds where each path of the data stands. */
import { type Document, isAlias, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument, visit } from 'yaml'
import type { FarmFault, Finding } from './faults.ts'

/** A thousand finely drawn fields stay well below this. */
const MAX_CHARACTERS = 16_000_000
/** A hand-written file repeats itself a little; a file made to exhaust memory repeats itself without end. */
const MAX_ALIASES = 100
const MAX_DEPTH = 40
const SHOWN_CHARACTERS = 60

export interface YamlText {
  /** The file as plain data; nothing if it cannot be trusted. */
  readonly data: unknown
  readonly faults: readonly FarmFault[]
  place(finding: Finding): FarmFault
}

const CURES: { readonly [code: string]: { readonly problem: string; readonly cure: string } } = {
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
  const faultAt = (offset: number, problem: string, cure: string, path = '', shown?: string): FarmFault => {
    const { line, col } = lines.linePos(offset)
    return { file, line: Math.max(1, line), column: Math.max(1, col), path, value: shown ?? '', problem, cure }
  }
  const broken = (faults: FarmFault[]): YamlText => ({
    data: undefined,
    faults,
    place: (finding) => faultAt(0, finding.problem, finding.cure),
  })

  if (text.length > MAX_CHARACTERS)
    return broken([faultAt(0, 'is too large', `Keep it below ${MAX_CHARACTERS} characters.`, '', 'The file')])
  if (depthOfBrackets(text) > MAX_DEPTH)
    return broken([faultAt(0, 'is nested too deeply', 'Remove stray brackets.', '', 'The file')])

  const doc = parseDocument(text, { lineCounter: lines, prettyErrors: false, stringKeys: true, version: '1.2' })
  const faults = [...doc.errors, ...doc.warnings].map((error) => {
    const known = CURES[error.code]
    const shown = quoted(lineOf(text, error.pos[0]))
    return faultAt(
      error.pos[0],
      known?.problem ?? `cannot be read: ${error.message}`,
      known?.cure ?? 'Mend this line.',
      '',
      shown,
    )
  })
  if (faults.some((_, i) => doc.errors[i]?.code !== 'DUPLICATE_KEY')) return broken(faults)
  if (doc.contents === null || (isScalar(doc.contents) && doc.contents.value === null))
    return broken([faultAt(0, 'is empty', 'Begin with a copy of config/farm.example.yaml.', '', 'The file')])

  keepLeadingZeros(doc)
  let data: unknown
  try {
    data = doc.toJS({ maxAliasCount: MAX_ALIASES })
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error)
    return broken([
      ...faults,
      faultAt(0, `repeats itself too often: ${why}`, 'Write repeated parts out.', '', 'The file'),
    ])
  }

  return {
    data,
    faults,
    place(finding) {
      const found = locate(doc, finding.path)
      const missing = found.depth < finding.path.length
      const offset = (finding.atKey ? found.keyOffset : undefined) ?? found.offset
      const last = String(finding.path.at(-1) ?? '')
      const shown = finding.atKey ? quoted(last) : missing ? '(missing)' : quoted(text.slice(found.offset, found.end))
      return faultAt(offset, finding.problem, finding.cure, pathText(data, finding.path), shown)
    },
  }
}

/** Maturity group 00 is not 0: a bare number with two leading zeros is kept as text. */
function keepLeadingZeros(doc: Document): void {
  visit(doc, {
    Scalar(_, node) {
      if (typeof node.value === 'number' && node.source && /^00/.test(node.source)) node.value = node.source
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

function quoted(source: string): string {
  const oneLine = source.trim().replace(/\s+/g, ' ')
  return oneLine.length > SHOWN_CHARACTERS ? `${oneLine.slice(0, SHOWN_CHARACTERS)}…` : oneLine
}

function lineOf(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', Math.max(0, offset - 1)) + 1
  const end = text.indexOf('\n', offset)
  return text.slice(start, end < 0 ? text.length : end)
}

/** The reader calls itself for every bracket inside a bracket, so depth is limited before it starts. */
function depthOfBrackets(text: string): number {
  let depth = 0
  let deepest = 0
  for (const character of text) {
    if (character === '[' || character === '{') deepest = Math.max(deepest, ++depth)
    else if (character === ']' || character === '}') depth = Math.max(0, depth - 1)
  }
  return deepest
}
