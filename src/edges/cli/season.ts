/** `season`: what is off, what is left and likely done by when, what the plans saved. */
import { parseArgs } from 'node:util'
import type { Saved } from '#app/saved.ts'
import type { CropSeason, SeasonReport } from '#app/season-report.ts'
import { area, bareArea, grain, type Manner, moisture, money, number } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import { SLIVER_HA } from '#core/planning/plan.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { tableLines } from './table.ts'

export interface SeasonCommand {
  readonly name: 'season'
  readonly farm: string | undefined
  readonly json: boolean
}

export const SEASON_USAGE = `  npm run season -- [--farm FILE] [--json]         what is off, what is left and likely done by when
`

/** @throws with what is wrong. */
export function readSeason(args: readonly string[]): SeasonCommand {
  const { values } = parseArgs({
    args: [...args],
    options: { farm: { type: 'string' }, json: { type: 'boolean', default: false } },
  })
  return { name: 'season', farm: values.farm, json: values.json }
}

const HEAD = ['crop', 'off', 'of', 'weighed', 'moisture', 'likely done by']

export function printSeason(farm: Farm, report: SeasonReport, json: boolean): string {
  if (json) return `${JSON.stringify({ format: 'threshday-season/1', ...report })}\n`
  const manner: Manner = {
    units: farm.units,
    language: 'en',
    timeZone: farm.timeZone,
    today: report.today,
    nowEpochH: 0,
  }
  const { areaHa, cutHa } = report
  const table = [HEAD, ...report.crops.map((crop) => cells(crop, report, manner))]
  const rows = tableLines(table, (column) => column === 0 || column === HEAD.length - 1)
  const share = number((100 * cutHa) / areaHa, 0, manner)
  return [
    `${farm.name}, ${report.today}: ${bareArea(cutHa, manner)} of ${area(areaHa, manner)} are off, ${share} %.`,
    '',
    ...rows,
    '',
    savedLine(report.saved, manner),
    '',
  ].join('\n')
}

function cells(crop: CropSeason, { seenTo }: SeasonReport, manner: Manner): string[] {
  const { massT, moistureWb } = crop.harvested
  return [
    CROP_TRADE[crop.crop].spoken,
    bareArea(crop.cutHa, manner),
    area(crop.areaHa, manner),
    Number.isNaN(massT) ? '-' : grain(massT, CROP_TRADE[crop.crop].lbPerBu, manner),
    Number.isNaN(moistureWb) ? '-' : moisture(moistureWb, manner),
    doneText(crop, seenTo, manner),
  ]
}

function doneText({ areaHa, cutHa, days, ahead }: CropSeason, seenTo: Temporal.PlainDate | undefined, manner: Manner) {
  const last = days.at(-1)
  if (areaHa - cutHa < SLIVER_HA && last) return `done ${last.date}`
  if (!ahead || !seenTo) return 'not known: no plan was published'
  if (ahead.likelyDoneOn) return String(ahead.likelyDoneOn)
  return `after ${seenTo}, about ${area(ahead.leftHa, manner)} left then`
}

function savedLine(saved: Saved | undefined, manner: Manner): string {
  const best = saved?.against[0]
  if (!saved || !best) return 'What the plans saved is not known yet: none was held against the simple rules.'
  const more = best.money < 0 ? 'less' : 'more'
  const when = saved.days === 1 ? `on ${saved.to}` : `over ${saved.days} days from ${saved.from} to ${saved.to}`
  return `The plans were expected to bring ${money(Math.abs(best.money), manner)} ${more} than the best simple rule (${best.rule}), ${when}.`
}
