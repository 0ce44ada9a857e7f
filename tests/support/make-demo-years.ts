/**
 * Makes the demo's earlier years, August to November 1996-2009, by the same rules as its own autumn:
 *
 *   node tests/support/make-demo-years.ts > config/demo/years-1996-2009.csv.gz
 *
 * All of them lie before the demo's autumn: the season ahead may not know what came.
 */
import { readFileSync } from 'node:fs'
import { gunzipSync, gzipSync } from 'node:zlib'
import { demoWeatherCsv, readSource } from './make-demo-weather.ts'

const SOURCE = new URL('../fixtures/champaign/hourly-jul-nov-1996-2023.csv.gz', import.meta.url)
const [FIRST, LAST] = [1996, 2009]
const FROM_MONTH = 8

/** @returns the text of the file, unpacked. */
export function demoYearsCsv(): string {
  const source = gunzipSync(readFileSync(SOURCE)).toString('utf8')
  const lines: string[] = []
  for (let year = FIRST; year <= LAST; year++) {
    // The rules look at the days around: July is read, and left out afterwards.
    const [head, ...rows] = demoWeatherCsv(readSource(source, year)).trimEnd().split('\n')
    if (year === FIRST) lines.push(head!)
    lines.push(...rows.filter((row) => Number(row.slice(5, 7)) >= FROM_MONTH))
  }
  return `${lines.join('\n')}\n`
}

if (import.meta.main) process.stdout.write(gzipSync(demoYearsCsv(), { level: 9 }))
