/**
 * `npm run bench -- season`: likely dates beyond the forecast on 28 autumns, each against the other 27. What came is one
 * particle of the field, drawn by the year, under the weather that came; told is the share of it inside the middle four
 * fifths, earlier and later, and how wide those are. The fields are the demo's, seen ripe on a given day so that the
 * weather counts for more than the doubt about ripeness; the autumns are those of Champaign, dated into the demo's year.
 */

import { makeDay } from '#app/make-day.ts'
import { datesUnder, seasonOf } from '#app/season-ahead.ts'
import type { PartNow } from '#core/field/state.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { CHAMPAIGN_YEARS } from '#tests/support/champaign.ts'
import { loadDemo } from '#tests/support/demo-day.ts'
import { autumnOf, cut, trialForecast } from '#tests/support/trial-forecasts.ts'

const FIELDS = ['tower-quarter', 'church-corner', 'lone-oak']
const DEMO_YEAR = 2010
const AHEAD_H = 240
/** Days after the first of July on which it is looked ahead. */
const STARTS = [62, 76, 90]
const RIPE_ON = '2010-09-20'

/** An autumn dated into a year: all of them begin on the first of July. */
function dated(autumn: Weather, fromYear: number, year: number): Weather {
  const first = (of: number) => Temporal.PlainDate.from({ year: of, month: 7, day: 1 })
  return { ...autumn, startEpochH: autumn.startEpochH + first(fromYear).until(first(year)).days * HOURS_PER_DAY }
}

export async function benchSeason(): Promise<void> {
  const { farm: whole } = await loadDemo()
  const maturitySeenOn = Temporal.PlainDate.from(RIPE_ON)
  const fields = whole.fields.filter(({ id }) => FIELDS.includes(id)).map((field) => ({ ...field, maturitySeenOn }))
  const farm = { ...whole, fields }
  const rows = new Map<string, { cases: number; inside: number; early: number; late: number; widthD: number }>()
  for (const year of CHAMPAIGN_YEARS) {
    const autumn = dated(autumnOf(year), year, DEMO_YEAR)
    const others = CHAMPAIGN_YEARS.filter((other) => other !== year).map((other, n) =>
      dated(autumnOf(other), other, DEMO_YEAR - 1 - n),
    )
    for (const startDay of STARTS) {
      const fromH = startDay * HOURS_PER_DAY
      const nowEpochH = autumn.startEpochH + fromH
      const { forecast } = trialForecast(year, fromH, AHEAD_H, year)
      const ahead = {
        ...forecast,
        startEpochH: nowEpochH,
        provenance: { ...forecast.provenance, issuedAtEpochH: nowEpochH },
      }
      const day = makeDay({ farm, nowEpochH, weather: { past: cut(autumn, 0, fromH), ahead }, standingHa: new Map() })
      const said = (await seasonOf(day, async () => others))!
      const hours = said.to.since(said.from).days * HOURS_PER_DAY + AHEAD_H
      const states = day.states.map((state) => oneOf(state, (year * 7 + startDay) % state.particles.length))
      const came = datesUnder({ ...day, states }, { weather: cut(autumn, fromH, hours), years: 1 })
      for (const { partKey, fit } of said.parts) {
        const { middle } = came.parts.find((part) => part.partKey === partKey)!.fit
        const row = rows.get(partKey) ?? { cases: 0, inside: 0, early: 0, late: 0, widthD: 0 }
        rows.set(partKey, row)
        row.cases++
        if (isAfter(fit.early, middle)) row.early++
        else if (isAfter(middle, fit.late)) row.late++
        else row.inside++
        row.widthD += (fit.late ?? said.to).since(fit.early ?? said.from).days
      }
    }
  }
  for (const [key, { cases, inside, early, late, widthD }] of rows)
    process.stdout.write(
      `${key}: ${cases} cases, ${(inside / cases).toFixed(2)} inside the middle four fifths, ` +
        `${(early / cases).toFixed(2)} earlier, ${(late / cases).toFixed(2)} later; ${(widthD / cases).toFixed(1)} days wide\n`,
    )
}

/** A day that does not come before the end is after every other. */
const isAfter = (a: Temporal.PlainDate | undefined, b: Temporal.PlainDate | undefined): boolean =>
  b !== undefined && (a === undefined || Temporal.PlainDate.compare(a, b) > 0)

/** A part as if it were one of its particles. */
function oneOf(state: PartNow, k: number): PartNow {
  return {
    ...state,
    particles: [state.particles[k]!],
    moistureWb: state.moistureWb.slice(k, k + 1),
    depletionMm: state.depletionMm.slice(k, k + 1),
    standing: [state.standing[k]!],
  }
}
