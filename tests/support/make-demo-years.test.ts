import { readFileSync } from 'node:fs'
import { gunzipSync } from 'node:zlib'
import { expect, it } from 'vitest'
import { demoYearsCsv } from './make-demo-years.ts'

const FILE = new URL('../../config/demo/years-1996-2009.csv.gz', import.meta.url)

it('the demo has the earlier years that the rules make, all before its own autumn', () => {
  const kept = gunzipSync(readFileSync(FILE)).toString('utf8')
  // Not by toBe: a difference in two million characters takes minutes to print.
  expect(kept === demoYearsCsv()).toBe(true)
  const years = new Set(
    kept
      .trim()
      .split('\n')
      .slice(1)
      .map((line) => line.slice(0, 4)),
  )
  expect([...years]).toEqual(Array.from({ length: 14 }, (_, n) => String(1996 + n)))
})
