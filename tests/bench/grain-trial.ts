/** Prints the standing-grain model beside what is published: `npm run bench -- grain`. */
import { runGrain } from '#core/science/grain/standing.ts'
import {
  autumnsOf,
  DAY,
  dryDownTrial,
  nightWithoutDewTrial,
  northDakotaTrial,
  pointsPerInch,
  type Quantiles,
  quantilesOf,
  ripeSoybeanTrial,
  usualParticle,
} from '#tests/core/science/grain/trials.ts'
import {
  CORN_BY_MONTH,
  CORN_FIRST_20_DAYS,
  NORTH_DAKOTA,
  SOYBEAN_58_TO_12,
  SOYBEAN_EARLY,
  WHEAT_POINTS_PER_DAY,
} from '#tests/truth/dry-down.ts'
import {
  RICE_WETTING_POINTS,
  SOYBEAN_DRYING_DAY_POINTS,
  SOYBEAN_LOADS,
  SOYBEAN_NIGHT_WITHOUT_DEW,
  SOYBEAN_SWING_POINTS,
} from '#tests/truth/grain-swing.ts'

export function benchGrain(print: (line: string) => void): void {
  const rows: [fact: string, published: string, ours: string][] = []
  const spread = ({ p10, median, p90 }: Quantiles, digits = 1) =>
    `${p10.toFixed(digits)} / ${median.toFixed(digits)} / ${p90.toFixed(digits)}`
  const range = ([low, high]: readonly [number, number]) => `${low} to ${high}`

  const ripe = ripeSoybeanTrial()
  const loads = quantilesOf(SOYBEAN_LOADS.flatMap(({ belowWb, loads: n }) => Array<number>(n).fill(belowWb - 0.5)))
  rows.push(
    [
      `ripe soybeans 16 h, ${ripe.afternoonWb.count} rain-free days [%]`,
      `${spread(loads)} (loads)`,
      spread(ripe.afternoonWb),
    ],
    ['ripe soybeans at dawn [%]', '', spread(ripe.dawnWb)],
    ['6 h less 16 h of the day before [points]', '', spread(ripe.swing)],
    ['morning high less evening low [points]', range(SOYBEAN_SWING_POINTS), spread(ripe.range)],
    ['dawn to afternoon, drying [points]', `${SOYBEAN_DRYING_DAY_POINTS} (a good day)`, spread(ripe.dayDrop)],
    ['largest drying in a day [points]', '', ripe.largestDayDrop.toFixed(1)],
    [
      `rise by 5 mm rain and more, ${ripe.rainRise.count} days`,
      `to ${RICE_WETTING_POINTS.rain} (rice)`,
      spread(ripe.rainRise),
    ],
    ['left of it after 2 dry days [points]', '', spread(ripe.left2DaysAfterRain)],
  )
  for (const humidity of [0.7, 0.75, 0.8, 0.9]) {
    rows.push([
      `night without dew, at RH ${Math.round(humidity * 100)} % [%]`,
      `${SOYBEAN_NIGHT_WITHOUT_DEW.morningWb}`,
      nightWithoutDewTrial(humidity).toFixed(1),
    ])
  }
  for (const start of ['1 Sep', '10 Sep', '20 Sep', '1 Oct'] as const) {
    const whole = dryDownTrial(
      'soybean',
      DAY[start],
      SOYBEAN_58_TO_12.fromWb,
      SOYBEAN_EARLY.days,
      SOYBEAN_58_TO_12.toWb,
    )
    rows.push(
      [`soybeans mature ${start}: days 58 to 12 %`, `about ${SOYBEAN_58_TO_12.days}`, spread(whole.daysUntil, 0)],
      [`  points a day, first ${SOYBEAN_EARLY.days}`, `${SOYBEAN_EARLY.pointsPerDay}`, spread(whole.pointsPerDay)],
    )
  }
  const corn = (start: keyof typeof DAY, fromWb: number) =>
    spread(dryDownTrial('corn', DAY[start], fromWb, 20).pointsPerDay, 2)
  rows.push(
    ['corn 35 % 1 Sep, 20 days [points/d]', `${CORN_FIRST_20_DAYS}`, corn('1 Sep', 35)],
    ['corn 33 % 10 Sep, 20 days', range(CORN_BY_MONTH.september), corn('10 Sep', 33)],
    ['corn 28 % 1 Oct, 20 days', range(CORN_BY_MONTH.october), corn('1 Oct', 28)],
    ['corn 20 % 1 Nov, 20 days', 'about 0', corn('1 Nov', 20)],
    ['corn 25 % 1 Nov, 20 days', 'about 0', corn('1 Nov', 25)],
  )
  for (const { name, publishedWb, oursWb } of northDakotaTrial()) {
    rows.push([`corn North Dakota ${name} [%]`, `about ${publishedWb}`, oursWb.toFixed(1)])
  }
  rows.push(
    [
      'corn, points per inch of evapotranspiration',
      `about ${NORTH_DAKOTA.pointsPerInch}`,
      pointsPerInch('corn').toFixed(1),
    ],
    [
      'wheat mature 5 Jul, first 8 days [points/d]',
      `${range(WHEAT_POINTS_PER_DAY)} (from memory)`,
      spread(dryDownTrial('wheat-soft', 4, 37, 8).pointsPerDay, 2),
    ],
  )

  const width = Math.max(...rows.map(([fact]) => fact.length))
  print(`${'p10 / median / p90 over 28 autumns'.padEnd(width)}  ${'published'.padEnd(24)}  ours`)
  for (const [fact, published, ours] of rows) print(`${fact.padEnd(width)}  ${published.padEnd(24)}  ${ours}`)

  const all = autumnsOf('soybean')
  const out = new Float32Array(all[0]!.drivers.hours)
  const ROUNDS = 40
  const began = performance.now()
  for (let round = 0; round < ROUNDS; round++) {
    for (const { drivers } of all) runGrain(drivers, 0, usualParticle('soybean', drivers.startEpochH + 1700), 12, out)
  }
  const nsPerHour = ((performance.now() - began) * 1e6) / (ROUNDS * all.length * out.length)
  print(`step: ${nsPerHour.toFixed(1)} ns per particle and hour`)
}
