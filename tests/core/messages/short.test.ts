import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { septets, toGsm7 } from '#core/messages/gsm7.ts'
import type { MorningMessage } from '#core/messages/morning.ts'
import { renderShort } from '#core/messages/short.ts'
import { demoDay } from '#tests/app/support/demo.ts'

const days = await Promise.all(
  ['2010-09-12T05:30-05:00', '2010-09-30T05:30-05:00', '2010-10-24T05:30-05:00', '2010-11-20T05:30-06:00'].map(
    async (at) => (await demoDay(at)).message,
  ),
)

describe('the alphabet of text messages (3GPP TS 23.038, table 6.2.1; from memory)', () => {
  it('has 127 characters besides the escape, and ten in its extension that count twice', () => {
    const all = Array.from({ length: 0x500 }, (_, code) => String.fromCodePoint(code)).concat('€')
    expect(all.filter((character) => septets(character) === 1)).toHaveLength(127)
    expect(all.filter((character) => septets(character) === 2)).toHaveLength(10)
  })
  it.each([
    ['maíz', 'maiz'],
    ['año', 'año'],
    ['10 °C', '10  degC'],
    ['“x” – y’s…', '"x" - y\'s...'],
    ['✓', '?'],
    ['Łódź', 'Lodz'],
  ])('%s becomes %s', (text, plain) => expect(toGsm7(text)).toBe(plain))
  it('takes any text to characters of the alphabet', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme' }), (text) => Number.isFinite(septets(toGsm7(text)))))
  })
})

describe('the morning in one text message', () => {
  it.each(days.flatMap((message) => (['en', 'es'] as const).map((language) => ({ ...message, language }))))(
    'fits for %#',
    (message) => {
      const text = renderShort(message)
      expect(septets(text)).toBeLessThanOrEqual(160)
      expect(text.length).toBeGreaterThan(20)
    },
  )

  it('says who goes where when more than one outfit runs', () => {
    const [run] = days[1]!.after.length > 0 ? days[1]!.after : []
    const { headline } = days[1]!
    if (headline.kind !== 'run') throw new Error('This morning has a run')
    const of = (outfitName: string | undefined, partName: string) => ({
      ...(run ?? headline.run),
      outfitName,
      partName,
    })
    const said = (outfitName: string | undefined) =>
      renderShort({
        ...days[1]!,
        headline: { ...headline, run: of(outfitName && 'South', 'Alder') },
        after: [of(outfitName, 'Birch')],
      })
    expect(said('North')).toMatch(/ North: Birch \d+:\d\d\./)
    expect(said(undefined)).toMatch(/ Then Birch \d+:\d\d\./)
  })

  it('fits and keeps a fire stop, whatever the names', () => {
    const stop = { ...days[1]!.fire, level: 'stop' as const }
    const run = days[1]!.headline
    if (run.kind !== 'run') throw new Error('The demo of this morning runs a field')
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', minLength: 1, maxLength: 80 }),
        fc.constantFrom('en', 'es'),
        (partName, language) => {
          const message: MorningMessage = {
            ...days[1]!,
            language,
            fire: stop,
            headline: { ...run, run: { ...run.run, partName } },
          }
          const text = renderShort(message)
          return septets(text) <= 160 && text.includes(language === 'en' ? 'FIRE STOP' : 'ALTO POR FUEGO')
        },
      ),
    )
  })

  it('says what to run, from when, how wet, and what comes next', () => {
    expect(renderShort(days[1]!)).toMatch(
      /^Run .+ \d+:\d\d-\d+:\d\d, beans \d+\.\d to \d+\.\d%\. Then .+ \d+:\d\d.*\. Fire care\./,
    )
  })
})
