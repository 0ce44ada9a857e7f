/**
 * Do the grown members mean what they say? 196 trial forecasts (28 autumns, seven starts of 5 September to 4 November) with
 * errors of known size and of the shape of real weather (tests/support/trial-forecasts.ts), against what came.
 * Bounds are wide enough for chance: 196 starts of one place are about as many independent cases.
 */
import { expect, test } from 'vitest'
import { growMembers, USUAL_RAIN_DAY_SHARE } from '#core/science/spread/grow-members.ts'
import { MEASURABLE_MM } from '#core/science/spread/rain-blocks.ts'
import { seededRandom } from '#core/units/random.ts'
import type { Weather } from '#core/units/weather.ts'
import { CHAMPAIGN_YEARS } from '#tests/support/champaign.ts'
import { fairCrps, insideBand, rankOf } from '#tests/support/ensemble-scores.ts'
import { autumnOf, type TrialForecast, trialForecast } from '#tests/support/trial-forecasts.ts'

const HOURS = 240
const MEMBERS = 50
/** Days after 1 July; hour 11 of the record is 5 in the morning of local standard time. */
const STARTS_D = [66, 76, 86, 96, 106, 116, 126]
const LEADS_D = [
  [0, 2],
  [2, 5],
  [5, 10],
] as const
const VARIABLES = ['airTempC', 'relHumidity', 'windMs', 'solarWm2'] as const

interface Case extends TrialForecast {
  readonly members: Weather
}

const cases: readonly Case[] = CHAMPAIGN_YEARS.flatMap((year) =>
  STARTS_D.map((day) => {
    const trial = trialForecast(year, day * 24 + 5, HOURS, year * 1000 + day)
    const members = growMembers(trial.forecast, {
      members: MEMBERS,
      seed: year + day,
      usualRainDayShare: USUAL_RAIN_DAY_SHARE,
      ageH: 0,
    })
    return { ...trial, members }
  }),
)

interface Scores {
  count: number
  inside50: number
  inside90: number
  crps: number
  usualCrps: number
  readonly ranks: number[]
}

const RANK_BINS = 10
const tie = seededRandom(5)

function scoresOf(variable: (typeof VARIABLES)[number], fromD: number, toD: number): Scores {
  const scores: Scores = {
    count: 0,
    inside50: 0,
    inside90: 0,
    crps: 0,
    usualCrps: 0,
    ranks: new Array<number>(RANK_BINS).fill(0),
  }
  for (const { year, fromH, truth, members } of cases) {
    for (let h = fromD * 24; h < toD * 24; h += 3) {
      const came = truth[variable][h]!
      if (Number.isNaN(came) || (variable === 'solarWm2' && came < 50)) continue
      const said = Float64Array.from({ length: MEMBERS }, (_, m) => members[variable][m * HOURS + h]!).sort()
      const usual = Float64Array.from(
        CHAMPAIGN_YEARS.filter((other) => other !== year)
          .map((other) => autumnOf(other)[variable][fromH + h]!)
          .filter((value) => !Number.isNaN(value)),
      ).sort()
      scores.count++
      if (insideBand(said, came, 0.5)) scores.inside50++
      if (insideBand(said, came, 0.9)) scores.inside90++
      scores.crps += fairCrps(said, came)
      scores.usualCrps += fairCrps(usual, came)
      const bin = Math.floor((rankOf(said, came, tie.uniform()) / (MEMBERS + 1)) * RANK_BINS)
      scores.ranks[bin]!++
    }
  }
  return scores
}

const table: string[] = []
for (const variable of VARIABLES) {
  for (const [fromD, toD] of LEADS_D) {
    test(`${variable}, days ${fromD} to ${toD}: bands hold as often as they say`, () => {
      const { count, inside50, inside90, crps, usualCrps, ranks } = scoresOf(variable, fromD, toD)
      table.push(
        `| ${variable} | ${fromD}-${toD} | ${(inside50 / count).toFixed(2)} | ${(inside90 / count).toFixed(2)} | ${(crps / count).toPrecision(3)} | ${(usualCrps / count).toPrecision(3)} | ${ranks.map((n) => ((n * RANK_BINS) / count).toFixed(1)).join(' ')} |`,
      )
      expect(inside50 / count).toBeGreaterThan(0.42)
      expect(inside50 / count).toBeLessThan(0.6)
      expect(inside90 / count).toBeGreaterThan(0.84)
      expect(inside90 / count).toBeLessThan(0.96)
      // Ranks lie evenly: no tenth of them has more than twice or less than a third of its share.
      for (const n of ranks) {
        expect((n * RANK_BINS) / count).toBeLessThan(2)
        expect((n * RANK_BINS) / count).toBeGreaterThan(1 / 3)
      }
      // Better than the usual of the place, 27 other autumns at the same hour and date.
      expect(crps).toBeLessThan(usualCrps * (toD > 5 ? 1.02 : 0.85))
    })
  }
}

const wetIn = (rainMm: Float32Array, from: number, hours: number): number => {
  let total = 0
  for (let h = from; h < from + hours; h++) total += rainMm[h]!
  return Number.isNaN(total) ? Number.NaN : Number(total >= MEASURABLE_MM * 0.999)
}

for (const blockH of [6, 24]) {
  test(`chances of rain in ${blockH} h come true as often as they say`, () => {
    const bins = Array.from({ length: 10 }, () => ({ count: 0, said: 0, came: 0 }))
    let squares = 0
    let usualSquares = 0
    const pairs: (readonly [number, number])[] = []
    for (const { truth, members } of cases) {
      for (let from = 0; from + blockH <= 5 * 24; from += blockH) {
        const came = wetIn(truth.rainMm, from, blockH)
        if (Number.isNaN(came)) continue
        let wet = 0
        for (let m = 0; m < MEMBERS; m++) wet += wetIn(members.rainMm, m * HOURS + from, blockH)
        const said = wet / MEMBERS
        pairs.push([said, came])
        const bin = bins[Math.min(9, Math.floor(said * 10))]!
        bin.count++
        bin.said += said
        bin.came += came
      }
    }
    const base = pairs.reduce((sum, [, came]) => sum + came, 0) / pairs.length
    for (const [said, came] of pairs) {
      squares += (said - came) ** 2
      usualSquares += (base - came) ** 2
    }
    const shown = bins.map(({ count, said, came }) =>
      count > 0 ? `${(said / count).toFixed(2)}: ${(came / count).toFixed(2)} (${count})` : '-',
    )
    table.push(
      `rain ${blockH} h, said: came (cases): ${shown.join(', ')}; skill ${(1 - squares / usualSquares).toFixed(2)}`,
    )
    for (const { count, said, came } of bins) {
      if (count < 20) continue
      // Four standard errors of a share, at least five points.
      const mean = said / count
      const room = Math.max(0.05, 4 * Math.sqrt((mean * (1 - mean)) / count))
      expect(Math.abs(came / count - mean), `said ${mean.toFixed(2)}`).toBeLessThan(room)
    }
    expect(1 - squares / usualSquares).toBeGreaterThan(0.1)
  })
}

test('late members differ between wet and dry days as real days do', () => {
  const contrast = (weathers: readonly Weather[], fromH: number) => {
    const groups = [
      { humidity: 0, sun: 0, hours: 0 },
      { humidity: 0, sun: 0, hours: 0 },
    ]
    for (const weather of weathers)
      for (let m = 0; m < weather.members; m++)
        for (let from = fromH; from + 24 <= weather.hours; from += 24) {
          const first = m * weather.hours + from
          const wet = wetIn(weather.rainMm, first, 24)
          if (Number.isNaN(wet)) continue
          const group = groups[wet]!
          for (let i = first; i < first + 24; i++) {
            if (Number.isNaN(weather.relHumidity[i]! + weather.solarWm2[i]!)) continue
            group.humidity += weather.relHumidity[i]!
            group.sun += weather.solarWm2[i]!
            group.hours++
          }
        }
    const [dry, wet] = groups
    return {
      humidity: wet!.humidity / wet!.hours - dry!.humidity / dry!.hours,
      sun: wet!.sun / wet!.hours / (dry!.sun / dry!.hours),
    }
  }
  const ours = contrast(
    cases.map(({ members }) => members),
    7 * 24,
  )
  const real = contrast(
    cases.map(({ truth }) => truth),
    0,
  )
  table.push(
    `wet less dry days: humidity ${ours.humidity.toFixed(3)} (real ${real.humidity.toFixed(3)}), sun ratio ${ours.sun.toFixed(2)} (real ${real.sun.toFixed(2)})`,
  )
  expect(Math.abs(ours.humidity - real.humidity)).toBeLessThan(0.05)
  expect(Math.abs(ours.sun - real.sun)).toBeLessThan(0.15)
  if (process.env.SHOW_TABLE) process.stdout.write(`${table.join('\n')}\n`)
})
