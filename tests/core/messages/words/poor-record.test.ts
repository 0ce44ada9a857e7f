import { describe, expect, it } from 'vitest'
import * as english from '#core/messages/words/english-trust.ts'
import type { Manner } from '#core/messages/words/format.ts'
import * as spanish from '#core/messages/words/spanish-trust.ts'

const manner: Manner = {
  units: 'us',
  language: 'en',
  timeZone: 'America/Chicago',
  today: Temporal.PlainDate.from('2010-09-20'),
  nowEpochH: 356_945,
}
const said = { chance: 0.7, lowWb: 10, highWb: 13, measured: true }

describe('a poor record of late', () => {
  it('is told where there is one, with its lean where it has one', () => {
    expect(english.confidence(said, manner)).not.toContain('poor')
    expect(english.confidence({ ...said, poorRecord: { inside90: 0.52, biasWb: -1.26 } }, manner)).toMatch(
      / Of late the forecasts were poor: 5 in 10 readings fell in the range meant for 9 in 10, on average 1\.3 points too dry\. Measure before you rely on them\.$/,
    )
    expect(english.confidence({ ...said, poorRecord: { inside90: 0.6, biasWb: 1.5 } }, manner)).toContain(
      '1.5 points too wet',
    )
    expect(english.confidence({ ...said, poorRecord: { inside90: 0.6, biasWb: 0.2 } }, manner)).not.toContain('points')
  })

  it('is told in Spanish', () => {
    const spoken = { ...manner, language: 'es' } as const
    expect(spanish.confidence({ ...said, poorRecord: { inside90: 0.52, biasWb: 1.26 } }, spoken)).toMatch(
      / Últimamente los pronósticos fallaron: 5 de 10 mediciones cayeron en el rango previsto para 9 de 10, en promedio 1\.3 puntos demasiado húmedos\. Mida antes de confiar en ellos\.$/,
    )
  })
})
