/** Records as a table (RFC 4180), safe to open in a spreadsheet. */

export type Cell = string | number | boolean | undefined

/** A spreadsheet takes a text that begins so for a formula (OWASP, "CSV Injection"). */
const FORMULA = /^[=+\-@\t\r]/

/** @returns lines ended by CRLF, the head first. A text that a spreadsheet would run gets an apostrophe before it. */
export const csvOf = (head: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [head, ...rows].map((row) => `${row.map(cellText).join(',')}\r\n`).join('')

function cellText(cell: Cell): string {
  if (cell === undefined || (typeof cell === 'number' && !Number.isFinite(cell))) return ''
  // A number can't be a formula, whatever its sign.
  if (typeof cell !== 'string') return String(cell)
  const safe = FORMULA.test(cell) ? `'${cell}` : cell
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}
