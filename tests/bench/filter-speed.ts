/** How long taking in a reading takes: the filter of one field with 500 particles, and its 10-day outlook. */
import { Cell } from '#core/field/cell.ts'
import { assimilate } from '#core/field/filter/assimilate.ts'
import { fillGaps } from '#core/field/gaps.ts'
import { partsOf } from '#core/field/parts.ts'
import { makeOutlook } from '#core/outlook/make-outlook.ts'
import { growMembers, USUAL_RAIN_DAY_SHARE } from '#core/science/spread/grow-members.ts'
import { champaignAutumn } from '#tests/support/champaign.ts'
import { FIELDS, fieldOf, hiddenSeason, maturityIn, slice, ZONE } from '#tests/support/twin-season.ts'

const YEAR = 2010
const DAY = 92
const AHEAD_H = 240
const REPEATS = 10
const WARM_UPS = 5

const station = fillGaps(champaignAutumn(YEAR)).weather
const now = DAY * 24 + 6
const past = new Cell(slice(station, 0, now))
const came = slice(station, now, now + AHEAD_H)
const grown = growMembers(came, { members: 50, seed: 1, usualRainDayShare: USUAL_RAIN_DAY_SHARE, ageH: 0 })
const ahead = new Cell(grown, past)
const { readings } = hiddenSeason(YEAR, { seed: 3, air: 'own', firstLook: 'near-dry' })
const shared = { always: new Uint16Array(AHEAD_H), fireStop: new Uint8Array(AHEAD_H * 50) }

/** Time of the processor, as other work on the machine does not count [ms]. */
const cpuMs = (): number => process.cpuUsage().user / 1000

for (const spec of FIELDS) {
  const part = partsOf(fieldOf(spec, YEAR))[0]!
  const maturity = new Map([[part.field.id, maturityIn(part.field, past.weather)]])
  const own = readings.filter((r) => r.partKey === part.key && r.atEpochH <= past.weather.startEpochH + now)
  const once = (keep: number) => {
    const began = cpuMs()
    const input = { parts: [part], maturity, timeZone: ZONE, past, ahead, readings: own, keep }
    const [state] = assimilate(input).states
    const middle = cpuMs()
    makeOutlook(state!, ahead, shared, new Uint8Array(AHEAD_H))
    return [middle - began, cpuMs() - middle] as const
  }
  for (const keep of [500, 50]) {
    for (let warmUp = 0; warmUp < WARM_UPS; warmUp++) once(keep)
    const times = Array.from({ length: REPEATS }, () => once(keep))
    const median = (of: (time: readonly [number, number]) => number) =>
      times
        .map(of)
        .toSorted((a, b) => a - b)
        [REPEATS / 2]!.toFixed(0)
    const [filter, outlook] = [median(([ms]) => ms), median(([, ms]) => ms)]
    const both = median(([ms, more]) => ms + more)
    const said = `${own.length} readings, 500 weighed, ${keep} kept`
    console.log(`${spec.id}: ${said}: filter ${filter} ms, 10-day outlook ${outlook} ms, both ${both} ms`)
  }
}
