import { describe, expect, it } from 'vitest'
import { morningHours } from '#app/morning-hours.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { demoFarm } from '#tests/app/support/demo.ts'

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
  it.each([
    ['an ordinary day', 'America/Chicago', '2026-09-28', '2026-09-28T15:00Z', '2026-09-28T13:00Z'],
    [
      'a first run too early: no sooner than the farm wants',
      'America/Chicago',
      '2026-09-28',
      '2026-09-28T11:00Z',
      '2026-09-28T09:30Z',
    ],
    [
      'a first run late in the day: no later than the farm wants',
      'America/Chicago',
      '2026-09-28',
      '2026-09-28T20:00Z',
      '2026-09-28T14:00Z',
    ],
    ['spring in the north', 'America/Chicago', '2026-03-08', '2026-03-08T08:00Z', '2026-03-08T09:30Z'],
    ['autumn in the north', 'America/Chicago', '2026-11-01', '2026-11-01T16:00Z', '2026-11-01T14:00Z'],
    ['spring in the south', 'Pacific/Auckland', '2026-09-27', '2026-09-26T20:30Z', '2026-09-26T18:30Z'],
    ['autumn in the south', 'Pacific/Auckland', '2026-04-05', '2026-04-04T21:30Z', '2026-04-04T19:30Z'],
  ])('goes by the first run where the farm wants it so: %s', async (_, timeZone, date, run, due) => {
    const rule = { minute: 540, weatherAgeLimitH: 12, beforeRun: { leadMinutes: 120, earliestMinute: 270 } }
    const farm = await demoFarm({ timeZone, morning: rule })
    const startEpochH = utc(run)
    const plan = {
      runs: [
        { startEpochH: startEpochH + 3, endEpochH: startEpochH + 5 },
        { startEpochH, endEpochH: startEpochH + 2 },
      ],
    }
    expect(morningHours(farm, Temporal.PlainDate.from(date), plan as unknown as DayPlan).dueEpochH).toBe(utc(due))
  })

  it('comes at its latest hour where no run is in sight', async () => {
    const rule = { minute: 540, weatherAgeLimitH: 12, beforeRun: { leadMinutes: 120, earliestMinute: 270 } }
    const farm = await demoFarm({ timeZone: 'America/Chicago', morning: rule })
    const date = Temporal.PlainDate.from('2026-09-28')
    for (const plan of [undefined, { runs: [] } as unknown as DayPlan]) {
      expect(morningHours(farm, date, plan).dueEpochH).toBe(utc('2026-09-28T14:00Z'))
    }
  })

  it('may be the midnight that ends the day', async () => {
    expect((await dueAt('America/Chicago', '2026-09-28', 24 * 60)).dueEpochH).toBe(utc('2026-09-29T05:00Z'))
  })

  it('is late half an hour on, and closes at noon where nothing is run', async () => {
    const { dueEpochH, lateEpochH, closesEpochH } = await dueAt('America/Chicago', '2026-09-28', 330)
    expect(lateEpochH - dueEpochH).toBe(0.5)
    expect(closesEpochH).toBe(utc('2026-09-28T17:00Z'))
  })
})
