import { parse } from 'csv-parse/sync'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { csvOf } from '#edges/web/api/csv.ts'

describe('a table', () => {
  it('is read back as it was by another reader of RFC 4180, whatever stands in its cells', () => {
    const text = fc.string({ unit: 'grapheme' }).filter((cell) => !/^[=+\-@\t\r]/.test(cell) && !cell.includes('\0'))
    fc.assert(
      fc.property(fc.array(fc.tuple(text, text, text), { minLength: 1 }), (rows) => {
        const read: unknown = parse(csvOf(['a', 'b', 'c'], rows), { record_delimiter: '\r\n' })
        expect(read).toEqual([['a', 'b', 'c'], ...rows])
      }),
    )
  })

  it('follows the rules of RFC 4180, section 2: CRLF, quotes round breaks, commas and quotes, quotes doubled', () => {
    expect(csvOf(['a', 'b'], [['x,y', 'say "hi"\r\nthere']])).toBe('a,b\r\n"x,y","say ""hi""\r\nthere"\r\n')
  })

  it('lets no text run as a formula (OWASP, CSV Injection), and leaves numbers alone', () => {
    const cells = ['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '=HYPERLINK("https://evil.example";"x")']
    const read = parse(
      csvOf(
        ['x'],
        cells.map((cell) => [cell]),
      ),
      { record_delimiter: '\r\n' },
    ) as string[][]
    for (const [index, [cell]] of read.slice(1).entries()) expect(cell).toBe(`'${cells[index]}`)
    expect(csvOf(['x', 'y'], [[-1.5, Number.NaN]])).toBe('x,y\r\n-1.5,\r\n')
  })
})
