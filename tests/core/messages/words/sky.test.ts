import { describe, expect, it } from 'vitest'
import type { SaidDust, SaidRows } from '#core/messages/morning.ts'
import * as english from '#core/messages/words/english-sky.ts'
import type { Manner } from '#core/messages/words/format.ts'
import * as spanish from '#core/messages/words/spanish-sky.ts'

const manner: Manner = {
  units: 'metric',
  language: 'en',
  timeZone: 'America/Chicago',
  today: Temporal.PlainDate.from('2010-09-30'),
  nowEpochH: 357_178,
}
const dust = (rows: SaidRows | undefined): SaidDust => ({
  calm: false,
  windFromDeg: 225,
  windLowMs: 6,
  windHighMs: 8,
  preferBearingDeg: 135,
  alongSight: 'poor',
  rows,
  staggerM: 30,
  staggerFails: false,
  doubled: false,
})
const rows = (lie: SaidRows['lie']): SaidRows => ({ bearingDeg: 90, lie, sight: 'thin' })

describe('rows and wind', () => {
  it('are said as they lie: across it, aslant to it, along it', () => {
    expect(english.dust(dust(rows('along')), manner)).toContain(
      'The rows run east-west, along the wind: expect thin sight along them.',
    )
    expect(english.dust(dust(rows('aslant')), manner)).toContain('aslant to the wind: expect thin sight')
    expect(english.dust(dust(rows('across')), manner)).toContain('across the wind, so that it clears the line.')
    expect(spanish.dust(dust(rows('aslant')), manner)).toContain('Los surcos van este-oeste, al sesgo del viento')
  })

  it('a direction to cut is told only where no rows fix it', () => {
    expect(english.dust(dust(undefined), manner)).toContain('Cut northwest-southeast')
    for (const lie of ['across', 'aslant', 'along'] as const) {
      expect(english.dust(dust(rows(lie)), manner)).not.toContain('Cut ')
    }
  })
})
