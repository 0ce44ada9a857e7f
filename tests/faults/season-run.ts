/**
 * node tests/faults/season-run.ts [year] [days] [step h] [done share] [most shift h] [planned] [from]: prints what `season` counts. Without a year the demo's recorded
 * weather of 2010 (with wind directions); with one a real autumn near Champaign (without), the demo farm moved to it.
 */

import { dayPlanner } from '#app/day-planner.ts'
import type { Farm } from '#core/operation/farm.ts'
import { readRecordedWeather } from '#edges/sources/recorded/index.ts'
import { demoFarm } from '#tests/app/support/demo.ts'
import { champaignAutumn } from '#tests/support/champaign.ts'
import { season } from './season.ts'

const [year = '', days = '90', stepH = '1', doneShare = '0.25', mostShiftH = '4', planned = '', from = '08-28'] =
  process.argv.slice(2)
const farm = await demoFarm()
const moved: Farm = year
  ? {
      ...farm,
      fields: farm.fields.map((field) => ({ ...field, plantedOn: field.plantedOn.with({ year: Number(year) }) })),
    }
  : farm

function demoWeather() {
  const source = farm.weather.find((found) => found.kind === 'recorded')
  if (!source) throw new Error('The demo farm has no recorded weather')
  return readRecordedWeather(source.file, farm.home, {
    source: 'recorded weather',
    attribution: source.credit,
    licence: source.licence,
    remarks: [],
  })
}

const figures = await season({
  farm: moved,
  weather: year ? champaignAutumn(Number(year)) : demoWeather(),
  from: Temporal.PlainDate.from(`${year || 2010}-${from}`),
  days: Number(days),
  stepH: Number(stepH),
  doneShare: Number(doneShare),
  mostShiftH: Number(mostShiftH),
  // By hand, without the solver: some thousand plans.
  ...(planned && { planner: dayPlanner(undefined, () => undefined, { trials: 300, explain: false }) }),
  onAlert: ({ phase, id, atEpochH, said }) =>
    process.stderr.write(
      `${Temporal.Instant.fromEpochMilliseconds(atEpochH * 3_600_000)
        .toZonedDateTimeISO(farm.timeZone)
        .toPlainDateTime()} ${phase} ${id} ${JSON.stringify(said)}\n`,
    ),
})
process.stdout.write(`${JSON.stringify(figures, undefined, 2)}\n`)
