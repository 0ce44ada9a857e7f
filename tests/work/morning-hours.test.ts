import { describe, expect, it } from 'vitest'
import { epochHoursOf } from '#core/units/time.ts'
import { demoFarm } from '#tests/work/support/demo.ts'
import { morningHours } from '#work/morning-hours.ts'

const dueAt = async (timeZone: string, date: string, minute: number) => {
  const farm = await demoFarm({ timeZone, morning: { minute, weatherAgeLimitH: 12 } })
  return morningHours(farm, Temporal.PlainDate.from(date), undefined)
}
const utc = (text: string) => epochHoursOf(Temporal.Instant.from(text))

/** Clock changes: IANA time zone database. */
describe('when the morning message is due', () => {
  it.each([
    ['America/Chicago', '2026-03-08', '05:30', '2026-03-08T10:30Z'],
    ['America/Chicago', '2026-03-08', '02:30', '2026-03-08T08:30Z'],
    ['America/Chicago', '2026-11-01', '01:30', '2026-11-01T06:30Z'],
    ['America/Chicago', '2026-11-01', '05:30', '2026-11-01T11:30Z'],
    ['Pacific/Auckland', '2026-09-27', '02:30', '2026-09-26T14:30Z'],
    ['Pacific/Auckland', '2026-04-05', '02:30', '2026-04-04T13:30Z'],
    ['America/Santiago', '2026-09-06', '00:10', '2026-09-06T04:10Z'],
  ])('%s on %s at %s is %s', async (zone, date, time, expected) => {
    const { hour, minute } = Temporal.PlainTime.from(time)
    const { dueEpochH } = await dueAt(zone, date, hour * 60 + minute)
    expect(dueEpochH).toBe(utc(expected))
  })
  it('is late half an hour on, and closes at noon where nothing is run', async () => {
    const { dueEpochH, lateEpochH, closesEpochH } = await dueAt('America/Chicago', '2026-09-28', 330)
    expect(lateEpochH - dueEpochH).toBe(0.5)
    expect(closesEpochH).toBe(utc('2026-09-28T17:00Z'))
  })
})
