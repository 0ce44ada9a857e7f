import { beforeAll, describe, expect, it } from 'vitest'
import type { Day } from '#app/make-day.ts'
import { composeMorning } from '#core/messages/compose.ts'
import { renderHtml } from '#core/messages/render-html.ts'
import { renderText } from '#core/messages/render-text.ts'
import { rainAhead } from '#core/outlook/day-weather.ts'
import type { Weather } from '#core/units/weather.ts'
import { MET_CREDIT } from '#edges/sources/metno/credit.ts'
import { NWS_CREDIT } from '#edges/sources/nws/credit.ts'
import { demoMorning, loadDemo } from '#tests/support/demo-day.ts'

interface Credit {
  readonly attribution: string
  readonly licence: string
}
let day: Day
beforeAll(async () => {
  day = demoMorning(await loadDemo())
})
const credited = (weather: Weather, credit: Credit): Weather => ({
  ...weather,
  provenance: { ...weather.provenance, attribution: credit.attribution, licence: credit.licence },
})
const message = (ahead: Credit, past: Credit) =>
  composeMorning({
    ...day,
    weather: credited(day.ahead, ahead),
    past: credited(day.past, past),
    rain: rainAhead(day.ahead),
    changes: [],
    measured: false,
  })
const NOBODY = { attribution: '', licence: '' }

describe('whom the weather is owed to', () => {
  it('stands in text and HTML, with the licence, for the forecast and for the past', () => {
    const said = message(MET_CREDIT, NWS_CREDIT)
    for (const { attribution, licence } of [MET_CREDIT, NWS_CREDIT]) {
      expect(renderText(said)).toContain(`${attribution} (${licence})`)
      expect(renderHtml(said)).toContain(`${attribution} (${licence})`)
    }
  })

  it('stands there once where it is one and the same, and not at all where there is nobody', () => {
    expect(message(MET_CREDIT, MET_CREDIT).weather.credits).toHaveLength(1)
    expect(message(MET_CREDIT, NOBODY).weather.credits).toHaveLength(1)
    expect(message(NOBODY, NOBODY).weather.credits).toEqual([])
  })
})
