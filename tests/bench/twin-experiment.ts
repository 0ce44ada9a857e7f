/**
 * Prints how good the filter is on SIMULATED TRUTH: hidden fields on real autumns, read every two or three days.
 * Run: node tests/bench/twin-experiment.ts [seeds] [own|known|strayed] [years] [first look]. The same words print the same table.
 *
 * The constants of the filter were chosen with seed 11 on the even years. It is judged on the odd ones (unless told
 * `even` or `all`) with any other seed.
 */
import { CHAMPAIGN_YEARS } from '#tests/support/champaign.ts'
import {
  errorsAfterOneReading,
  medianOf,
  skillWith,
  skillWithout,
  TWIN_FORECASTS,
  type TwinCheck,
  twinChecks,
} from '#tests/support/twin.ts'
import { FIRST_LOOKS } from '#tests/support/twin-readings.ts'

const [seedsTyped = '2026', forecastTyped = 'known', yearsTyped = 'odd', lookTyped = 'near-dry'] = process.argv.slice(2)
const seeds = seedsTyped.split(',').map(Number)
const forecast = oneOf('Forecast', TWIN_FORECASTS, forecastTyped)
const firstLook = oneOf('First look', FIRST_LOOKS, lookTyped)
const years = CHAMPAIGN_YEARS.filter((year) => yearsTyped === 'all' || (year % 2 === 0) === (yearsTyped === 'even'))
const LEAD_DAYS = [1, 3, 5, 9]
const SAID = {
  own: 'weather ahead as the field had it, so that what is judged is the state of the field alone',
  known: 'weather ahead as the station had it',
  strayed: 'members grown about a forecast that strayed as far as they do',
}
const isDry = ({ crop, truthWb }: TwinCheck): boolean => crop === 'soybean' && truthWb < 20
const CHOSEN: readonly (readonly [name: string, keep: (check: TwinCheck) => boolean])[] = [
  ['soybean below 20 %', isDry],
  ['  but from one wild reading alone', (check) => isDry(check) && !check.misled],
  ['  after 1 reading', (check) => isDry(check) && check.readings === 1],
  ['  after 4 and more', (check) => isDry(check) && check.readings >= 4],
  ['corn', ({ crop }) => crop === 'corn'],
  ['all', () => true],
]

function oneOf<T extends string>(what: string, known: readonly T[], typed: string): T {
  const found = known.find((one) => one === typed)
  if (!found) throw new Error(`${what} '${typed}' must be one of ${known.join(', ')}`)
  return found
}
const points = (value: number) => value.toFixed(2)
const percent = (value: number) => `${(100 * value).toFixed(0)} %`

const hiddenBy = seeds.map((seed) => ({ seed, air: 'own', firstLook }) as const)
const options = { forecast, leadDays: LEAD_DAYS, keep: 200 } as const
const checks = hiddenBy.flatMap((hidden) => years.flatMap((year) => twinChecks(year, { ...hidden, ...options })))
console.log(
  `SIMULATED TRUTH, ${years.length} autumns, seeds ${seeds.join(', ')}, ${checks.length} checks; first look ${firstLook}, fields have air of their own,`,
)
console.log(`${SAID[forecast]}.\n`)
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
for (const [crop, belowWb] of [
  ['soybean', 20],
  ['corn', 28],
] as const) {
  const errors = hiddenBy.flatMap((hidden) =>
    years.flatMap((year) => errorsAfterOneReading(year, crop, belowWb, hidden)),
  )
  console.log(
    `\n${crop}: median error two days after one reading ${points(medianOf(errors))} (${errors.length} fields)`,
  )
}
