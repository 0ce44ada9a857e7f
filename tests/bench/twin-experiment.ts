/**
 * Prints how good the filter is on SIMULATED TRUTH: hidden fields on 28 real autumns, read every two or three days.
 * Run: node tests/bench/twin-experiment.ts [seed]. Seed 11 chose the constants of the filter; use any other.
 */
import type { CropName } from '#core/science/crop.ts'
import { CHAMPAIGN_YEARS } from '#tests/support/champaign.ts'
import { errorsAfterOneReading, skillWith, skillWithout, type TwinCheck, twinChecks } from '#tests/support/twin.ts'

const seed = Number(process.argv[2] ?? 2026)
const LEAD_DAYS = [1, 3, 5, 9]
const SETTINGS = [
  ['own', 'known', 'field has air of its own, weather ahead as it came'],
  ['own', 'about-known', 'members grown about the weather that came'],
  ['own', 'strayed', 'members grown about a forecast that strayed'],
] as const
const CHOSEN: readonly (readonly [name: string, keep: (check: TwinCheck) => boolean])[] = [
  ['soybean below 20 %', ({ crop, truthWb }) => crop === 'soybean' && truthWb < 20],
  ['  after 1 reading', ({ crop, truthWb, readings }) => crop === 'soybean' && truthWb < 20 && readings === 1],
  ['  after 4 and more', ({ crop, truthWb, readings }) => crop === 'soybean' && truthWb < 20 && readings >= 4],
  ['corn', ({ crop }) => crop === 'corn'],
  ['all', () => true],
]

const points = (value: number) => value.toFixed(2).padStart(6)
const percent = (value: number) => `${(100 * value).toFixed(0)} %`.padStart(5)

for (const [air, forecast, said] of SETTINGS) {
  const checks = CHAMPAIGN_YEARS.flatMap((year) =>
    twinChecks(year, { seed, air, forecast, leadDays: LEAD_DAYS, keep: 200 }),
  )
  console.log(`\n${said}; seed ${seed}, ${checks.length} checks\n`)
  console.log('| | days ahead | checks | bias | RMSE | without readings | less by | in 50 % | in 90 % | CRPS |')
  console.log('|---|---|---|---|---|---|---|---|---|---|')
  for (const [name, keep] of CHOSEN) {
    for (const days of LEAD_DAYS) {
      const chosen = checks.filter((check) => check.leadH === 24 * days && keep(check))
      const { count, bias, rmse, inside50, inside90, crps } = skillWith(chosen)
      const without = skillWithout(chosen).rmse
      const cells = [name, days, count, points(bias), points(rmse), points(without), percent(1 - rmse / without)]
      console.log(`| ${[...cells, percent(inside50), percent(inside90), points(crps)].join(' | ')} |`)
    }
  }
}

const median = (values: number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!
for (const [crop, belowWb] of [
  ['soybean', 20],
  ['corn', 28],
] as readonly (readonly [CropName, number])[]) {
  const errors = CHAMPAIGN_YEARS.flatMap((year) => errorsAfterOneReading(year, crop, belowWb, { seed, air: 'own' }))
  console.log(
    `\n${crop}: median error two days after one reading ${median(errors).toFixed(2)} (${errors.length} fields)`,
  )
}
