/** A table as a terminal shows it. */

/** @param isText whether a column is read from its left edge; figures stand at the right. @returns a line for each row. */
export function tableLines(rows: readonly (readonly string[])[], isText: (column: number) => boolean): string[] {
  const widths = rows[0]!.map((_, c) => Math.max(...rows.map((row) => row[c]!.length)))
  const pad = (cell: string, c: number) => (isText(c) ? cell.padEnd(widths[c]!) : cell.padStart(widths[c]!))
  return rows.map((row) => row.map(pad).join('  ').trimEnd())
}
