import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  DEFAULT_FIRE_THRESHOLDS,
  FIRE_LEVELS,
  fireCare,
  LEVEL_UNKNOWN,
  OFFICIAL_NOTICES,
  REASON,
} from '#core/science/fire/care.ts'
import { fireCareHours } from '#core/science/fire/care-hours.ts'
import { weatherOf } from './weather-of.ts'

const value = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const hourArb = fc.record({
  airTempC: value(-50, 55),
  relHumidity: value(0, 1),
  windMs: value(0, 40),
  gustMs: fc.oneof(fc.constant(Number.NaN), value(0, 60)),
  strawDry: fc.boolean(),
})

describe('a whole course', () => {
  it('says for each hour what the single hour says', () => {
    const noticeArb = fc.integer({ min: 0, max: 2 })
    fc.assert(
      fc.property(
        fc.array(fc.tuple(hourArb, noticeArb), { minLength: 2, maxLength: 30 }),
        fc.constantFrom(Number.NaN, 100, 170),
        (list, droughtIndexMm) => {
          const at = (h: number) => list[h]![0]
          const weather = weatherOf(
            0,
            list.length,
            {
              airTempC: (h, m) => (m === 1 ? at(h).airTempC : Number.NaN),
              relHumidity: (h) => at(h).relHumidity,
              windMs: (h) => at(h).windMs,
              gustMs: (h) => at(h).gustMs,
            },
            2,
          )
          const options = {
            strawDry: Uint8Array.from(list, ([hour]) => Number(hour.strawDry)),
            official: Uint8Array.from(list, ([, notice]) => notice),
            droughtIndexMm,
          }
          const out = fireCareHours(weather, 1, DEFAULT_FIRE_THRESHOLDS, options)
          for (let h = 0; h < list.length; h++) {
            const i = list.length + h
            const single = fireCare({
              airTempC: weather.airTempC[i]!,
              relHumidity: weather.relHumidity[i]!,
              windMs: weather.windMs[i]!,
              gustMs: weather.gustMs[i]!,
              strawDry: at(h).strawDry,
              droughtIndexMm,
              official: OFFICIAL_NOTICES[list[h]![1]]!,
            })
            expect(FIRE_LEVELS[out.level[h]!]).toBe(single.level)
            const bits = single.reasons.reduce((sum, reason) => sum | REASON[reason.code], 0)
            expect(out.reasonBits[h]).toBe(bits)
          }
          const unknown = fireCareHours(weather, 0, DEFAULT_FIRE_THRESHOLDS)
          expect(unknown.level.every((code) => code === LEVEL_UNKNOWN)).toBe(true)
        },
      ),
    )
  })
})
