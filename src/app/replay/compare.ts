/** Seasons side by side: a table and a picture. */
import type { SeasonResult } from './run-season.ts'

export interface Year {
  readonly year: number
  readonly results: readonly SeasonResult[]
  /** The planner with one thing known that it could not know, in the years in which that was run. */
  readonly apart: readonly SeasonResult[]
  readonly bound: number
}

export interface Comparison {
  readonly planner: string
  readonly foresight: string
  /** Mean over the years of (planner - worst simple rule) / (foresight - worst simple rule). */
  readonly captured: number
  /** The same of the sums over the years. */
  readonly capturedOfSums: number
  readonly betterThanBestRule: number
  /** Years in which it brings more than the rule that is best over all years. */
  readonly betterThanBestOverall: number
  readonly bestOverall: string
  readonly years: number
}

const moneyOf = ({ results }: Year, policy: string): number => results.find((r) => r.policy === policy)!.money

export function compare(years: readonly Year[], planner: string, foresight: string): Comparison {
  const rules = years[0]!.results.map(({ policy }) => policy).filter((name) => name !== planner && name !== foresight)
  const worst = (year: Year) => Math.min(...rules.map((rule) => moneyOf(year, rule)))
  const best = (year: Year) => Math.max(...rules.map((rule) => moneyOf(year, rule)))
  const sum = (of: (year: Year) => number) => years.reduce((total, year) => total + of(year), 0)
  const gained = (year: Year) => moneyOf(year, planner) - worst(year)
  const possible = (year: Year) => moneyOf(year, foresight) - worst(year)
  const bestOverall = [...rules].sort((a, b) => sum((y) => moneyOf(y, b)) - sum((y) => moneyOf(y, a)))[0]!
  const better = (than: (year: Year) => number) => years.filter((year) => moneyOf(year, planner) > than(year)).length
  return {
    planner,
    foresight,
    captured: sum((year) => gained(year) / possible(year)) / years.length,
    capturedOfSums: sum(gained) / sum(possible),
    betterThanBestRule: better(best),
    betterThanBestOverall: better((year) => moneyOf(year, bestOverall)),
    bestOverall,
    years: years.length,
  }
}

export function comparisonMarkdown(years: readonly Year[], comparison: Comparison, remarks: readonly string[]): string {
  const names = years[0]!.results.map(({ policy }) => policy)
  const thousands = (money: number) => (money / 1000).toFixed(1)
  const mean = (of: (year: Year) => number) => years.reduce((total, year) => total + of(year), 0) / years.length
  const result = (year: Year, name: string) => year.results.find(({ policy }) => policy === name)!
  const doneDay = (name: string) => {
    const days = years
      .flatMap((year) => result(year, name).doneOn ?? [])
      .map((date) => date.dayOfYear)
      .sort((a, b) => a - b)
    const middle = days[Math.floor(days.length / 2)]
    if (middle === undefined) return '-'
    return Temporal.PlainDate.from('2023-01-01')
      .add({ days: middle - 1 })
      .toLocaleString('en-US', { month: 'short', day: 'numeric' })
  }
  const rows = names.map((name) => {
    const money = mean((year) => moneyOf(year, name))
    const short = mean((year) => moneyOf(year, comparison.foresight) - moneyOf(year, name))
    const done = years.filter((year) => result(year, name).doneOn).length
    const road = mean((year) => result(year, name).roadH)
    return `| ${name} | ${thousands(money)} | ${thousands(short)} | ${done} of ${years.length} | ${doneDay(name)} | ${road.toFixed(0)} |`
  })
  const { captured, capturedOfSums, betterThanBestRule, betterThanBestOverall, bestOverall } = comparison
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`
  const yearRows = years.map((year) => {
    const cells = names.map((name) => thousands(moneyOf(year, name)))
    return `| ${year.year} | ${cells.join(' | ')} | ${thousands(year.bound)} |`
  })
  return [
    ...remarks,
    '',
    '| who decides | money, mean [$1,000] | short of perfect foresight [$1,000] | finished | finished on (median) | road [h] |',
    '|---|---|---|---|---|---|',
    ...rows,
    '',
    `Of what perfect foresight gains over the worst simple rule of the year the planner captures ${percent(captured)} (mean of the years; ${percent(capturedOfSums)} of the sums).`,
    `It brings more than the best simple rule of the year in ${betterThanBestRule} of ${years.length} years, and more than “${bestOverall}”, the best rule over all years, in ${betterThanBestOverall}.`,
    '',
    `| year | ${names.join(' | ')} | bound |`,
    `|---|${names.map(() => '---').join('|')}|---|`,
    ...yearRows,
    '',
  ].join('\n')
}

/** What the planner falls short of perfect foresight, taken apart; nothing where no year has it. */
export function apartMarkdown(years: readonly Year[], planner: string, foresight: string): string {
  const taken = years.filter(({ apart }) => apart.length > 0)
  if (taken.length === 0) return ''
  const mean = (of: (year: Year) => number) => taken.reduce((sum, year) => sum + of(year), 0) / taken.length
  const names = taken[0]!.apart.map(({ policy }) => policy)
  const moneyIn = (year: Year, name: string) => [...year.results, ...year.apart].find((r) => r.policy === name)!.money
  const rows = [planner, ...names].map((name) => {
    const each = taken.map((year) => ((moneyIn(year, foresight) - moneyIn(year, name)) / 1000).toFixed(1))
    const short = mean((year) => moneyIn(year, foresight) - moneyIn(year, name)) / 1000
    return `| ${name} | ${short.toFixed(1)} | ${each.join(' | ')} |`
  })
  return [
    '',
    'What the planner falls short, taken apart: the same planner with one thing known that it could not know, short of',
    'perfect foresight [$1,000], mean and by year. What is left with both is what it loses by not seeing beyond ten days.',
    '',
    `| knows | mean | ${taken.map(({ year }) => year).join(' | ')} |`,
    `|---|---|${taken.map(() => '---').join('|')}|`,
    ...rows,
    '',
  ].join('\n')
}

const WIDTH = 860
const ROW = 26
const LEFT = 150
const RIGHT = 30
const TOP = 56
const INKS = ['#8a8f98', '#b07d2b', '#4f7cac', '#7b5ea7', '#2f8f6b', '#c0392b', '#222222'] as const

/** What each policy falls short of perfect foresight, a mark per year, mean as a bar. */
export function comparisonSvg(years: readonly Year[], { foresight }: Comparison): string {
  const names = years[0]!.results.map(({ policy }) => policy).filter((name) => name !== foresight)
  const short = (year: Year, name: string) => Math.max(0, moneyOf(year, foresight) - moneyOf(year, name))
  const most = Math.max(1, ...years.flatMap((year) => names.map((name) => short(year, name))))
  const x = (money: number) => LEFT + (money / most) * (WIDTH - LEFT - RIGHT)
  const height = TOP + names.length * ROW + 40
  const step = niceStep(most / 6)
  const ticks = Array.from({ length: Math.floor(most / step) + 1 }, (_, k) => k * step)
  const grid = ticks.map(
    (money) =>
      `<line x1="${x(money).toFixed(1)}" x2="${x(money).toFixed(1)}" y1="${TOP - 8}" y2="${height - 34}" stroke="#ddd"/>` +
      `<text x="${x(money).toFixed(1)}" y="${height - 18}" text-anchor="middle">$${(money / 1000).toFixed(0)}k</text>`,
  )
  const rows = names.map((name, k) => {
    const y = TOP + k * ROW + ROW / 2
    const ink = INKS[k % INKS.length]!
    const mean = years.reduce((sum, year) => sum + short(year, name), 0) / years.length
    const marks = years.map(
      (year) => `<circle cx="${x(short(year, name)).toFixed(1)}" cy="${y}" r="3" fill="${ink}" fill-opacity="0.45"/>`,
    )
    return (
      `<text x="${LEFT - 10}" y="${y + 4}" text-anchor="end">${name}</text>` +
      `<rect x="${LEFT}" y="${y - 6}" width="${(x(mean) - LEFT).toFixed(1)}" height="12" fill="${ink}" fill-opacity="0.25"/>` +
      marks.join('')
    )
  })
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" font-family="sans-serif" font-size="13" fill="#222">`,
    `<rect width="${WIDTH}" height="${height}" fill="#fff"/>`,
    `<text x="${LEFT}" y="24" font-size="15">Money short of perfect foresight, ${years[0]!.year} to ${years.at(-1)!.year}: a dot per year, the bar is the mean</text>`,
    ...grid,
    ...rows,
    '</svg>',
    '',
  ].join('\n')
}

function niceStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(1, least)))
  return [1, 2, 5, 10].map((factor) => factor * power).find((step) => step >= least)!
}
