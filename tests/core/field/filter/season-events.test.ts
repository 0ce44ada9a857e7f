import { describe, expect, it } from 'vitest'
import type { FieldEvent } from '#core/field/event.ts'
import { delaysOf, logStillGreen, seenMaturity } from '#core/field/filter/season-events.ts'
import { partsOf } from '#core/field/parts.ts'
import type { MaturityEstimate } from '#core/science/growth/maturity.ts'
import { smallField } from '#tests/support/small-outlook.ts'

const ZONE = 'Etc/GMT+6'
const epochH = (text: string) => Temporal.Instant.from(text).epochMilliseconds / 3_600_000
const patch = { id: 'draw', name: 'Draw', share: 0.1, kind: 'green', laterDays: 6, handling: 'leave' } as const
const [main, draw] = partsOf(smallField('elms', { patches: [patch] }))
const seen = (partKey: string, at: string): FieldEvent => ({
  id: at,
  kind: 'maturity-seen',
  partKey,
  atEpochH: epochH(at),
  who: 'ann',
})
const ESTIMATE = {
  matureOn: Temporal.PlainDate.from('2010-09-10'),
  matureEpochDay: 14_862.5,
  sdDays: 6,
  moistureWb: 57,
  moistureSdWb: 4,
  basis: 'estimated',
  remarks: ['warm'],
} as unknown as MaturityEstimate

describe('maturity seen in the field', () => {
  it('takes the place of the estimate, by the day at the farm', () => {
    // 03:30 UTC on the 16th is still the 15th at UTC-6.
    const { matureOn, matureEpochDay, sdDays } = seenMaturity(
      main!,
      ESTIMATE,
      [seen('elms', '2010-09-16T03:30Z')],
      ZONE,
    )
    expect(matureOn.toString()).toBe('2010-09-15')
    expect(matureEpochDay).toBe(Temporal.PlainDate.from('1970-01-01').until('2010-09-15').days + 0.5)
    expect(sdDays).toBe(2)
  })

  it('in a patch says of the main stand that it was earlier; in the main stand it serves the patch too', () => {
    const inPatch = seenMaturity(draw!, ESTIMATE, [seen('elms/draw', '2010-09-20T18:00Z')], ZONE)
    expect(inPatch.matureOn.toString()).toBe('2010-09-14')
    const inMain = seenMaturity(draw!, ESTIMATE, [seen('elms', '2010-09-14T18:00Z')], ZONE)
    expect(inMain.matureEpochDay).toBe(inPatch.matureEpochDay)
    expect(seenMaturity(main!, ESTIMATE, [seen('elms/draw', '2010-09-20T18:00Z')], ZONE)).toBe(ESTIMATE)
  })
})

describe('still green', () => {
  it('is as likely as not for a part that matures just then, sure for a later one, hardly for one long mature', () => {
    expect(Math.exp(logStillGreen(1000, 1000))).toBeCloseTo(0.5, 12)
    expect(Math.exp(logStillGreen(1000 + 24 * 5, 1000))).toBeGreaterThan(0.99)
    expect(Math.exp(logStillGreen(1000 - 24 * 5, 1000))).toBeLessThan(0.01)
  })
})

describe('re-greening', () => {
  it('adds up in order of time, for its part alone', () => {
    const green = (partKey: string, at: string, laterDays: number): FieldEvent => ({
      id: at,
      kind: 'regreened',
      partKey,
      atEpochH: epochH(at),
      who: 'ann',
      laterDays,
    })
    const events = [
      green('elms', '2010-09-25T12:00Z', 2),
      green('elms', '2010-09-15T12:00Z', 5),
      green('elms/draw', '2010-09-16T12:00Z', 9),
    ]
    expect(delaysOf('elms', events)).toEqual([
      { fromEpochH: epochH('2010-09-15T12:00Z'), hours: 120 },
      { fromEpochH: epochH('2010-09-25T12:00Z'), hours: 168 },
    ])
  })
})
