/** What is wrong with a farm file: data first, words last. */

/** Stands for the value of a key that is not there. */
export const MISSING = '(missing)'

/** One fault, with everything needed to mend it. */
export interface FarmFault {
  readonly file: string
  /** Line and column in the file, from 1. */
  readonly line: number
  readonly column: number
  /** Where in the file's structure, such as `fields[Mill Forty].planted`. */
  readonly path: string
  /** What stands there, as written, shortened; `(missing)` if nothing does, and then the problem says so too. */
  readonly value: string
  /** What is wrong with it, to follow the value in a sentence. */
  readonly problem: string
  /** What is allowed there, or what to do. */
  readonly cure: string
}

export type FarmWarning = FarmFault

/** A finding of the schema or the checks, before it is given its place in the file. */
export interface Finding {
  readonly path: readonly (string | number)[]
  readonly problem: string
  readonly cure: string
  /** A warning leaves the file usable. */
  readonly warning?: boolean
  /** The fault lies in the key itself, not in its value. */
  readonly atKey?: boolean
}

export const faultText = (fault: FarmFault): string =>
  [
    `${fault.file}:${fault.line}:${fault.column} `,
    ...(fault.path ? [`${fault.path}:`] : []),
    ...(fault.value === MISSING ? [] : [fault.value]),
    `${fault.problem}. ${fault.cure}`,
  ].join(' ')

/** Thrown with all faults of the file at once. */
export class FarmFileError extends Error {
  override readonly name = 'FarmFileError'
  readonly faults: readonly FarmFault[]

  constructor(faults: readonly FarmFault[]) {
    const count = faults.length === 1 ? '1 fault' : `${faults.length} faults`
    super(`${count} in the farm file:\n${faults.map(faultText).join('\n')}`)
    this.faults = faults
  }
}

/** @returns the known word least different from the given one, if it is near enough to be a slip. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  const ranked = known
    .map((candidate) => ({ candidate, distance: editDistance(word.toLowerCase(), candidate.toLowerCase()) }))
    .sort((a, b) => a.distance - b.distance)
  const best = ranked[0]
  return best && best.distance <= Math.max(1, Math.floor(best.candidate.length / 2)) ? best.candidate : undefined
}

/** Letters to insert, drop, change or swap with the neighbour (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)]
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1
      row[j] = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + change)
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        row[j] = Math.min(row[j]!, rows[i - 2]![j - 2]! + 1)
    }
    rows.push(row)
  }
  return rows[a.length]![b.length]!
}
