/**
 * What the planner reckons with beyond the outlook, measured on the true autumns of the replay, the even and the odd apart:
 * node tests/bench/plan-beyond.ts. The even ones give the figures of `planning/optimiser/tail*.ts`, the odd ones judge them.
 */
import { join } from 'node:path'
import { makeSeason } from '#app/replay/season.ts'
import { fillGaps } from '#core/field/gaps.ts'
import { followStanding, UNRIPE } from '#core/field/standing.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { isFitByWeather } from '#core/planning/optimiser/fit.ts'
import { extraterrestrialMJPerDay } from '#core/science/air/radiation.ts'
import { HOURS_PER_DAY, localDateOf } from '#core/units/time.ts'
import { loadFarm } from '#edges/config/load.ts'
import { CHAMPAIGN_YEARS, champaignAutumn } from '#tests/support/champaign.ts'

const { farm: demo } = await loadFarm(join(import.meta.dirname, '../../config/demo/farm.yaml'))
const DEMO_YEAR = 2010
/** Other particles than the replay's. */
const SEED = 777_000
const BRITTLE_BELOW_WB = 11
const MONTH_DAYS = 32
/** Days after 5 September on which the months begin of which the spread is told. */
const MONTHS_FROM = [21, 29, 37, 45, 53]

function truthOf(year: number): readonly Outlook[] {
  const fields = demo.fields
    .filter(({ crop }) => crop === 'corn' || crop === 'soybean')
    .filter(({ followsWheat }) => !followsWheat)
    .map(({ maturitySeenOn: _, cutOn: __, ...rest }) => ({
      ...rest,
      plantedOn: rest.plantedOn.add({ years: year - DEMO_YEAR }),
    }))
  const firstDay = Temporal.PlainDate.from({ year, month: 9, day: 5 })
  const weather = fillGaps(champaignAutumn(year)).weather
  return makeSeason({ farm: { ...demo, fields }, weather, firstDay, seed: SEED + year }).truth
}

interface Measured {
  /** Of each autumn, day by day: fit hours of a ripe part, and sunlight [MJ/m2]; NaN before any is ripe. */
  readonly autumns: { hours: number; light: number }[][]
  ripeDays: number
  wettings: number
  brittlePoints: number
}

const found = new Map<string, Measured>()
for (const year of CHAMPAIGN_YEARS) {
  for (const [crop, outlooks] of Map.groupBy(truthOf(year), ({ part }) => part.field.crop)) {
    const name = `${crop}, ${year % 2 === 0 ? 'even' : 'odd'}`
    const sums = found.get(name) ?? { autumns: [], ripeDays: 0, wettings: 0, brittlePoints: 0 }
    found.set(name, sums)
    const days: { hours: number; light: number }[] = []
    const count: number[] = []
    for (const outlook of outlooks) {
      const first = firstFit(outlook)
      if (first === outlook.hours) continue
      const ripe = outlook.moistureWb.subarray(first, outlook.hours)
      const { crop: own, band } = outlook.part.field
      sums.wettings += followStanding(own, band, ripe, outlook.startEpochH + first, UNRIPE).wetDryCycles
      sums.ripeDays += ripe.length / HOURS_PER_DAY
      for (const wb of ripe) sums.brittlePoints += Math.max(0, BRITTLE_BELOW_WB - wb) / HOURS_PER_DAY
      for (let day = Math.floor(first / HOURS_PER_DAY); (day + 1) * HOURS_PER_DAY <= outlook.hours; day++) {
        const { dayOfYear } = localDateOf(outlook.startEpochH + day * HOURS_PER_DAY, demo.timeZone)
        days[day] ??= { hours: 0, light: extraterrestrialMJPerDay(demo.home.latDeg, dayOfYear) }
        count[day] = (count[day] ?? 0) + 1
        for (let h = 0; h < HOURS_PER_DAY; h++) {
          if (isFitByWeather(outlook, 0, day * HOURS_PER_DAY + h)) days[day].hours++
        }
      }
    }
    sums.autumns.push(Array.from(days, (one, d) => one && { ...one, hours: one.hours / count[d]! }))
  }
}

for (const [name, { autumns, ripeDays, wettings, brittlePoints }] of found) {
  const ratio = (days: readonly ({ hours: number; light: number } | undefined)[]) => {
    const known = days.filter((day) => day !== undefined)
    return known.reduce((sum, { hours }) => sum + hours, 0) / known.reduce((sum, { light }) => sum + light, 0)
  }
  const all = ratio(autumns.flat())
  const months = autumns
    .flatMap((days) => MONTHS_FROM.map((from) => ratio(days.slice(from, from + MONTH_DAYS))))
    .filter(Number.isFinite)
  const mean = months.reduce((sum, one) => sum + one, 0) / months.length
  const spread = Math.sqrt(months.reduce((sum, one) => sum + (one / mean - 1) ** 2, 0) / months.length)
  console.log(
    `${name}: ${all.toFixed(2)} fit hours per MJ/m2, months differ by ${(100 * spread).toFixed(0)} %; ` +
      `a wetting every ${(ripeDays / wettings).toFixed(1)} days, ${(brittlePoints / ripeDays).toFixed(2)} points below 11 %`,
  )
}

function firstFit(outlook: Outlook): number {
  for (let h = 0; h < outlook.hours; h++) if (isFitByWeather(outlook, 0, h)) return h
  return outlook.hours
}
