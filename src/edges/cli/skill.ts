/** `skill`: how the morning's forecasts of moisture did against what was read. */
import { parseArgs } from 'node:util'
import type { SkillReport, SkillRow } from '#app/skill.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { tableLines } from './table.ts'

export interface SkillCommand {
  readonly name: 'skill'
  readonly farm: string | undefined
  readonly json: boolean
}

export const SKILL_USAGE = `  npm run skill -- [--farm FILE] [--json]          how the forecasts of moisture did against the readings
`

/** @throws with what is wrong. */
export function readSkill(args: readonly string[]): SkillCommand {
  const { values } = parseArgs({
    args: [...args],
    options: { farm: { type: 'string' }, json: { type: 'boolean', default: false } },
  })
  return { name: 'skill', farm: values.farm, json: values.json }
}

const HEAD = ['crop', 'days ahead', 'readings', 'bias', 'error', 'in 50 %', 'in 90 %', 'score']

export function printSkill({ rows, recent }: SkillReport, json: boolean): string {
  if (json) return `${JSON.stringify({ format: 'threshday-skill/1', rows, recent })}\n`
  if (rows.length === 0) {
    return 'No reading yet that a kept forecast speaks of. Forecasts are kept with each morning message of the service;\nreadings come by npm run reading.\n'
  }
  const lines = tableLines([HEAD, ...rows.map(cells)], (column) => column === 0)
  const late = recent.poor ? ['', 'Of late the forecasts were poor: measure before you rely on them.'] : []
  return `${[...lines, ...late, '', LEGEND].join('\n')}\n`
}

const LEGEND = `Points of moisture. Bias: forecast less reading. Error: root mean square. In 50 % and 90 %: share of the readings in
the band that should hold so many. Score: continuous ranked probability score, less is better. The meters' own errors
are in all of them.`

function cells({ crop, leadDays, skill }: SkillRow): string[] {
  const share = (value: number) => `${Math.round(100 * value)} %`
  return [
    CROP_TRADE[crop].spoken,
    String(leadDays),
    String(skill.count),
    `${skill.bias >= 0 ? '+' : '-'}${Math.abs(skill.bias).toFixed(1)}`,
    skill.rmse.toFixed(1),
    share(skill.inside50),
    share(skill.inside90),
    skill.crps.toFixed(2),
  ]
}
