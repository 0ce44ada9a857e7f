import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import type { Manner } from '#core/messages/words/format.ts'
import * as alerts from '#core/messages/words/spanish-alerts.ts'
import { theClock } from '#core/messages/words/spanish-clock.ts'
import * as fields from '#core/messages/words/spanish-fields.ts'
import * as sky from '#core/messages/words/spanish-sky.ts'
import * as trust from '#core/messages/words/spanish-trust.ts'
import { spanish } from '#edges/web/words/spanish.ts'

const manner: Manner = {
  units: 'metric',
  language: 'es',
  timeZone: 'America/Chicago',
  today: Temporal.PlainDate.from('2010-09-30'),
  nowEpochH: 0,
}
const at = (time: string): number =>
  Temporal.ZonedDateTime.from(`2010-09-30T${time}[America/Chicago]`).epochMilliseconds / 3_600_000

/**
 * The hour takes an article, singular for one and its fractions ("la una y cuarto"), else plural (Real Academia, Nueva
 * gramática básica, 21.2.5a).
 */
describe('a time of the clock in Spanish', () => {
  it('has the article of its hour', () => {
    expect(
      ['00:50', '01:00', '01:20', '02:00', '11:00', '13:10', '21:00'].map((time) => theClock(at(time), manner)),
    ).toEqual(['las 0:50', 'la 1:00', 'la 1:20', 'las 2:00', 'las 11:00', 'las 13:10', 'las 21:00'])
    // To the nearest ten minutes: what is told has the article, not what was before.
    expect([theClock(at('00:57'), manner), theClock(at('01:57'), manner)]).toEqual(['la 1:00', 'las 2:00'])
  })

  it('is told so in sentences', () => {
    const one = at('01:20')
    const two = at('02:40')
    const said = [
      trust.late(one, two, manner),
      alerts.unacknowledged(one, manner).text,
      alerts.test('Finca', one, manner).text,
      fields.buyers(
        [
          { name: 'El silo', closesEpochH: one },
          { name: 'El puerto', closesEpochH: two },
        ],
        manner,
      ),
      sky.dew({ kind: 'dries', offEpochH: one, onEpochH: two, rainBefore: false, rainAfter: false }, manner),
      spanish.cab.runUntil('Mill Forty', '1:20'),
    ].join('\n')
    expect(said).toContain('tocaba a la 1:20, se hizo a las 2:40')
    expect(said).toContain('de la 1:20.')
    expect(said).toContain('enviada a la 1:20.')
    expect(said).toContain('hasta la 1:20, El puerto hasta las 2:40.')
    expect(said).toContain('se va a la 1:20 y vuelve a las 2:40.')
    expect(said).toContain('Mill Forty hasta la 1:20.')
    expect(said).not.toContain('las 1:')
  })

  it('is given its article in one place alone', () => {
    for (const folder of ['src/core/messages/words', 'src/edges/web/words']) {
      for (const name of readdirSync(folder).filter((file) => file.startsWith('spanish'))) {
        const text = readFileSync(`${folder}/${name}`, 'utf8')
        expect([name, /\blas? \$\{/.exec(text)?.[0]]).toEqual([name, undefined])
      }
    }
  })
})
