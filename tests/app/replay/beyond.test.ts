/** What the planner reckons with beyond the outlook, against autumns by which none of it was set. */
import { expect, test } from 'vitest'
import { makeSeason } from '#app/replay/season.ts'
import { fillGaps } from '#core/field/gaps.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { isFitByWeather } from '#core/planning/optimiser/fit.ts'
import { lossAfter } from '#core/planning/optimiser/tail.ts'
import { usualOf } from '#core/planning/optimiser/tail-hours.ts'
import { extraterrestrialMJPerDay } from '#core/science/air/radiation.ts'
import { HOURS_PER_DAY, localDateOf } from '#core/units/time.ts'
import { CHAMPAIGN_YEARS, champaignAutumn } from '#tests/support/champaign.ts'
import { smallFarm, smallField, smallOutfit, TIME_ZONE } from '#tests/support/small-outlook.ts'

/** Seven of the odd autumns; the figures come from the even ones. */
const years = CHAMPAIGN_YEARS.filter((year) => year % 4 === 1)

function ripened(year: number): Outlook[] {
  const planted = (month: number, day: number) => Temporal.PlainDate.from({ year, month, day })
  const corn = { crop: 'corn', usualYieldTHa: 11, band: { lowWb: 13, highWb: 20 } } as const
  const fields = [
    smallField('early', { plantedOn: planted(4, 28), maturityGroup: 2.4 }),
    smallField('late', { plantedOn: planted(5, 25), maturityGroup: 3.2 }),
    smallField('corn', { ...corn, plantedOn: planted(4, 20), relativeMaturity: 108 }),
  ]
  const firstDay = planted(9, 5)
  const weather = fillGaps(champaignAutumn(year)).weather
  return [...makeSeason({ farm: smallFarm(fields, [smallOutfit('outfit')]), weather, firstDay, seed: year }).truth]
}

const outlooks = years.flatMap(ripened)

test.each(['soybean', 'corn'] as const)('%s is fit as many hours as the sun lets expect, within a fifth', (crop) => {
  let hours = 0
  let light = 0
  for (const outlook of outlooks.filter(({ part }) => part.field.crop === crop)) {
    for (let h = firstFit(outlook); h < outlook.hours; h++) {
      if (isFitByWeather(outlook, 0, h)) hours++
      const { dayOfYear } = localDateOf(outlook.startEpochH + h, TIME_ZONE)
      light += extraterrestrialMJPerDay(40, dayOfYear) / HOURS_PER_DAY
    }
  }
  expect(hours / light / usualOf(crop).perMJ).toBeGreaterThan(0.8)
  expect(hours / light / usualOf(crop).perMJ).toBeLessThan(1.2)
})

test.each(['soybean', 'corn'] as const)(
  '%s loses by standing a month longer what is reckoned, within a fifth',
  (crop) => {
    let lost = 0
    let reckoned = 0
    for (const outlook of outlooks.filter(({ part }) => part.field.crop === crop)) {
      const from = firstFit(outlook) + 10 * HOURS_PER_DAY
      const to = from + 30 * HOURS_PER_DAY
      if (to >= outlook.hours) continue
      const before = outlook.standingLoss[from]!
      lost += outlook.standingLoss[to]! - before
      reckoned += lossAfter(crop, before, crop === 'corn' ? 15 : 11.3, 30) - before
    }
    expect(reckoned / lost).toBeGreaterThan(0.8)
    expect(reckoned / lost).toBeLessThan(1.2)
  },
)

function firstFit(outlook: Outlook): number {
  for (let h = 0; h < outlook.hours; h++) if (isFitByWeather(outlook, 0, h)) return h
  return outlook.hours
}
