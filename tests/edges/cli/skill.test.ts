import { expect, it } from 'vitest'
import { readCommand } from '#edges/cli/arguments.ts'
import { printSkill } from '#edges/cli/skill.ts'

const SKILL = { count: 12, bias: -0.34, rmse: 0.81, inside50: 0.583, inside90: 0.9167, crps: 0.446 }
const REPORT = {
  rows: [
    { crop: 'soybean', leadDays: 0, skill: SKILL },
    { crop: 'corn', leadDays: 10, skill: { ...SKILL, bias: 1.25, count: 3 } },
  ],
  recent: { skill: SKILL, poor: false },
} as const

it('is understood', () => {
  expect(readCommand(['skill', '--json', '--farm', 'f.yaml'])).toEqual({ name: 'skill', farm: 'f.yaml', json: true })
  expect(readCommand(['skill', 'x'])).toMatchObject({ name: 'help' })
})

it('prints a row a crop and day ahead, and what the columns mean', () => {
  expect(printSkill(REPORT, false).split('\n').slice(0, 4)).toEqual([
    'crop   days ahead  readings  bias  error  in 50 %  in 90 %  score',
    'beans           0        12  -0.3    0.8     58 %     92 %   0.45',
    'corn           10         3  +1.3    0.8     58 %     92 %   0.45',
    '',
  ])
  expect(printSkill(REPORT, false)).not.toContain('poor')
  expect(printSkill({ ...REPORT, recent: { skill: SKILL, poor: true } }, false)).toContain(
    'Of late the forecasts were poor',
  )
})

it('says so when there is nothing to hold against anything', () => {
  expect(printSkill({ rows: [], recent: REPORT.recent }, false)).toContain('No reading yet')
})

it('gives the numbers as JSON', () => {
  expect(JSON.parse(printSkill(REPORT, true))).toEqual({ format: 'threshday-skill/1', ...REPORT })
})
