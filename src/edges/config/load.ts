/** Reads a farm file: text to `Farm`, or every fault in it with file, line, path, value and cure. */
import { readFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import type { Farm, UnitSystem } from '#core/operation/farm.ts'
import { farmFindings } from './checks.ts'
import { type FarmFault, FarmFileError, type FarmWarning, type Finding } from './faults.ts'
import { farmSchema } from './schema.ts'
import { schemaFindings } from './schema-faults.ts'
import { toFarm } from './to-farm.ts'
import { readYaml } from './yaml-text.ts'

export interface ReadFarm {
  readonly farm: Farm
  readonly warnings: readonly FarmWarning[]
  /** Line of the file on which a path of its data begins, from 1. */
  lineOf(path: readonly (string | number)[]): number | undefined
}

/**
 * @param text      The farm file, YAML 1.2.
 * @param fileName  Its path, for messages and to find a recorded weather file beside it.
 * @throws {FarmFileError} with all faults at once.
 */
export function parseFarm(text: string, fileName: string): ReadFarm {
  const yaml = readYaml(text, fileName)
  if (yaml.data === undefined) throw new FarmFileError(yaml.faults)

  const units = unitsOf(yaml.data)
  const schema = farmSchema(units ?? 'either')
  const read = schema.safeParse(yaml.data)
  const findings: Finding[] = [
    ...(read.success ? [] : schemaFindings(schema, yaml.data, read.error.issues)),
    ...(units ? farmFindings(yaml.data, units) : []),
  ]
  const placed = findings.map((finding) => ({ fault: yaml.place(finding), warning: finding.warning === true }))
  const faults = inOrder([...yaml.faults, ...placed.filter(({ warning }) => !warning).map(({ fault }) => fault)])
  if (!read.success || faults.length > 0) throw new FarmFileError(faults)
  return {
    farm: toFarm(read.data, dirname(fileName)),
    warnings: inOrder(placed.filter(({ warning }) => warning).map(({ fault }) => fault)),
    lineOf: yaml.lineOf,
  }
}

/** @throws {FarmFileError} also when the file cannot be opened or is not UTF-8. */
export async function loadFarm(path: string): Promise<ReadFarm> {
  const whole = (problem: string, cure: string) =>
    new FarmFileError([{ file: path, line: 1, column: 1, path: '', value: 'The file', problem, cure }])
  let bytes: Uint8Array
  try {
    bytes = await readFile(path)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? String(error)
    throw whole(`cannot be opened (${code})`, 'Check its path, and that it may be read.')
  }
  let text: string
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    throw whole('is not UTF-8 text', 'Save it as UTF-8 in your editor.')
  }
  return parseFarm(text, path)
}

function unitsOf(data: unknown): UnitSystem | undefined {
  const units = typeof data === 'object' && data !== null ? (data as { units?: unknown }).units : undefined
  return units === 'us' || units === 'metric' ? units : undefined
}

const inOrder = (faults: readonly FarmFault[]): FarmFault[] =>
  [...faults].sort((a, b) => a.line - b.line || a.column - b.column)
