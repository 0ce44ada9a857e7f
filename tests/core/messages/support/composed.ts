/** The demo's morning, composed as a test would have it. */
import type { Day } from '#app/make-day.ts'
import { composeMorning } from '#core/messages/compose.ts'
import type { ComposeInput } from '#core/messages/compose-input.ts'
import type { MorningMessage } from '#core/messages/morning.ts'
import { rainAhead } from '#core/outlook/day-weather.ts'
import type { DayPlan, Waiting } from '#core/planning/plan.ts'
import { DEMO_NOW, type Demo, demoMorning, loadDemo } from '#tests/support/demo-day.ts'

export interface Composed {
  readonly demo: Demo
  readonly day: Day
  readonly compose: (more?: Partial<ComposeInput>) => MorningMessage
  readonly planWith: (more: Partial<DayPlan>) => DayPlan
  readonly waitingFor: (reason: Waiting['reason'], part?: Waiting['part']) => Waiting
}

export async function composedDemo(): Promise<Composed> {
  const demo = await loadDemo()
  const day = demoMorning(demo)
  return {
    demo,
    day,
    compose: (more = {}) => composeMorning({ ...inputOf(day), ...more }),
    planWith: (more) => ({ ...day.plan, ...more }),
    waitingFor: (reason, part = day.outlooks[0]!.part) => ({
      part,
      reason,
      moistureWb: 15,
      next: { startEpochH: DEMO_NOW + 40, chance: 0.6 },
    }),
  }
}

const inputOf = (from: Day): ComposeInput => ({
  farm: from.farm,
  date: from.date,
  nowEpochH: from.nowEpochH,
  plan: from.plan,
  outlooks: from.outlooks,
  weather: from.ahead,
  dew: from.dew,
  rain: rainAhead(from.ahead),
  fire: from.fire,
  changes: [],
  measured: false,
})
