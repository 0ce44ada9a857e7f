import { describe, expect, it } from 'vitest'
import type { SaidAlert } from '#core/messages/alerts/alert.ts'

/** Every kind once, so that a text for it exists in both languages. */
const SAID: readonly SaidAlert[] = [
  { kind: 'fire-stop', fromEpochH: 0, untilEpochH: 4, relHumidity: 0.2, gustMs: 17, banText: undefined },
  {
    kind: 'fire-care',
    fromEpochH: 0,
    untilEpochH: Number.NaN,
    relHumidity: Number.NaN,
    gustMs: Number.NaN,
    banText: undefined,
  },
  { kind: 'official-warning', headline: 'Red Flag Warning', issuer: 'NWS', untilEpochH: 30 },
  {
    kind: 'rain',
    partNames: ['A', 'B', 'C'],
    arrivesEpochH: 0,
    endsEpochH: Number.NaN,
    chance: 0.7,
    amountMm: Number.NaN,
  },
  {
    kind: 'dust',
    partName: 'A',
    windFromDeg: 190,
    windMs: 9,
    sight: 'blind',
    preferBearingDeg: 100,
    rowsFixed: false,
    untilEpochH: 3,
  },
  {
    kind: 'dust',
    partName: 'A',
    windFromDeg: Number.NaN,
    windMs: 0.2,
    sight: 'blind',
    preferBearingDeg: Number.NaN,
    rowsFixed: true,
    untilEpochH: 3,
  },
  { kind: 'too-wet', partNames: ['A'], crop: 'corn', moistureWb: 27.14, limitWb: 25, fitAgainEpochH: Number.NaN },
  { kind: 'dew', partNames: ['A', 'B'], closesEpochH: 2, toldEpochH: 4 },
  { kind: 'soft-ground', partNames: ['A'], carriesAgainEpochH: 50 },
  { kind: 'plan-changed', was: 'A', now: { partName: 'B', startEpochH: 2, endEpochH: 5 } },
  { kind: 'plan-changed', was: 'A', now: undefined },
  { kind: 'over-dry', partNames: ['A', 'B'], crop: 'soybean', lowWb: 10, leavesEpochH: 20 },
  { kind: 'meter-disagrees', partName: 'A', readWb: 19, expectedWb: 12 },
  { kind: 'sources-down', ageH: Number.POSITIVE_INFINITY, limitH: 12 },
]

describe('the words of alerts', () => {
  it.each(
    SAID.flatMap((said) =>
      (['en', 'es'] as const).flatMap((language) =>
        (['us', 'metric'] as const).map((units) => ({ said, language, units })),
      ),
    ),
  )(
    '$said.kind in $language, $units: whole sentences, no raw value, a title for a lock screen',
    async ({ said, language, units }) => {
      const { alertWordsOf } = await import('#core/messages/words/words.ts')
      const words = alertWordsOf(language)
      const manner = {
        language,
        units,
        timeZone: 'America/Chicago',
        today: Temporal.PlainDate.from('1969-12-31'),
        nowEpochH: 1,
      }
      for (const { title, text } of [words.alertStart(said, manner), words.alertEnd(said)]) {
        expect(`${title} ${text}`).not.toMatch(/NaN|Infinity|undefined|null|\[object/)
        expect(text).toMatch(/^[A-ZÁÉÍÓÚ¿].*[.?]$/)
        expect(title.length).toBeLessThanOrEqual(40)
        // A number with a decimal is a moisture, an amount or a speed: it has its unit behind it.
        expect(text.replace(/\d+\.\d+ ?(%|in\b|mm|mph|km\/h|ha|t\b|pulg\.)/g, '')).not.toMatch(/\d\.\d/)
      }
    },
  )
})
