import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawHours } from '#core/messages/draw-axis.ts'
import { drawRibbon, type RibbonStyle } from '#core/messages/draw-ribbon.ts'
import { type Ribbon, type RibbonHour, stateOf } from '#core/messages/ribbon.ts'
import { HOLDBACKS } from '#core/outlook/holdback.ts'

// The soybean band that growers are told to cut in, 10 to 13 % (common practice, no source).
const BAND = { lowWb: 10, highWb: 13 }

const hour = (change: Partial<RibbonHour> = {}): RibbonHour => ({
  state: 'fit',
  chance: 0.8,
  heldBy: undefined,
  medianWb: 11.5,
  lowWb: 10.8,
  highWb: 12.4,
  ...change,
})
const ribbon = (hours: readonly RibbonHour[]): Ribbon => ({ fromEpochH: 0, hours, band: BAND })
const style = (change: Partial<RibbonStyle> = {}): RibbonStyle => ({
  id: 'a',
  label: 'Mill Forty',
  wordOf: (heldBy) => heldBy,
  moisture: (wb) => `${wb.toFixed(1)}%`,
  ...change,
})

const hours = fc.array(
  fc.record({
    state: fc.constantFrom('wet', 'fit', 'brittle', 'unknown'),
    chance: fc.oneof(fc.double({ min: 0, max: 1 }), fc.constant(Number.NaN)),
    heldBy: fc.option(fc.constantFrom(...HOLDBACKS), { nil: undefined }),
    medianWb: fc.double({ min: 0, max: 90 }),
    lowWb: fc.double({ min: 0, max: 90 }),
    highWb: fc.double({ min: 0, max: 90 }),
  }),
  { minLength: 1, maxLength: 24 },
) as fc.Arbitrary<RibbonHour[]>

describe('state of the grain', () => {
  it('is wet above the band, brittle below it, fit on its edges', () => {
    expect([13.1, 13, 10, 9.9, Number.NaN].map((wb) => stateOf(wb, BAND))).toEqual([
      'wet',
      'fit',
      'fit',
      'brittle',
      'unknown',
    ])
  })
})

describe('ribbon', () => {
  it('draws hours of one state as one stretch', () => {
    const drawn = drawRibbon(ribbon([hour({ state: 'wet' }), hour({ state: 'wet' }), hour(), hour()]), style())
    expect(drawn.match(/class="grain-wet"/g)).toHaveLength(1)
    expect(drawn).toContain('x="50%" y="0" width="50%"')
  })

  it('is as thick as the chance that the hour is fit', () => {
    const heights = (chance: number) => {
      const [, y] = /clipPathUnits="objectBoundingBox"><path d="M0 ([\d.]+)/.exec(
        drawRibbon(ribbon([hour({ chance })]), style()),
      )!
      return 1 - 2 * Number(y)
    }
    expect(heights(1)).toBeCloseTo(1)
    expect(heights(0.5)).toBeCloseTo(0.6)
    expect(heights(0)).toBeCloseTo(0.2)
  })

  it('hatches what is held back, and leaves wet grain to its colour', () => {
    const drawn = (heldBy: RibbonHour['heldBy']) => drawRibbon(ribbon([hour({ heldBy, chance: 0 })]), style())
    expect(drawn('rain')).toContain('url(#hatch)')
    expect(drawn('rain')).toContain('>rain</text>')
    expect(drawn('wet-grain')).not.toContain('url(#hatch)')
    expect(drawn('wet-grain')).toContain('>wet-grain</text>')
    expect(drawn(undefined)).not.toContain('url(#hatch)')
  })

  it('marks the hours in which an outfit is set to cut', () => {
    const runs = [{ startEpochH: 1, endEpochH: 3 }]
    expect(drawRibbon(ribbon([hour(), hour(), hour(), hour()]), style({ runs }))).toMatch(
      /class="run" x="25%" y="\d+" width="50%"/,
    )
  })

  it('escapes what people wrote', () => {
    const drawn = drawRibbon(ribbon([hour({ heldBy: 'rain', chance: 0 })]), {
      ...style({ label: '"><script>' }),
      wordOf: () => '<b>',
    })
    expect(drawn).not.toMatch(/<script|<b>/)
  })

  it('draws any hours without a number that is none, whatever is known', () => {
    fc.assert(
      fc.property(hours, (any) => {
        const drawn = drawRibbon(ribbon(any), style({ moisture: () => '' }))
        expect(drawn).not.toMatch(/NaN|Infinity|undefined/)
        for (const [, x, width] of drawn.matchAll(/<rect x="([\d.]+)%" y="0" width="([\d.]+)%"/g)) {
          expect(Number(x) + Number(width)).toBeLessThanOrEqual(100.02)
        }
      }),
    )
  })

  it('draws nothing known as a thread without line or figure', () => {
    const unknown = hour({ state: 'unknown', chance: Number.NaN, medianWb: Number.NaN, heldBy: 'unknown' })
    const drawn = drawRibbon(ribbon([unknown, unknown]), style())
    expect(drawn).not.toContain('class="moisture"')
    expect(drawn).not.toContain('class="figure"')
    expect(drawn).not.toContain('NaN')
  })
})

describe('hours', () => {
  it('sets marks where they fall and leaves out what lies outside', () => {
    const drawn = drawHours(6, 16, [{ epochH: 11, text: '11' }], [{ epochH: 3, text: 'dew off' }])
    expect(drawn).toContain('x="50%"')
    expect(drawn).not.toContain('dew off')
  })
})

describe('days side by side', () => {
  it('breaks the moisture line between them', () => {
    const day = [hour(), hour(), hour()]
    const line = (parts: number) =>
      /class="moisture" d="([^"]*)"/.exec(drawRibbon(ribbon([...day, ...day]), style({ parts })))![1]!
    expect(line(1).match(/M/g)).toHaveLength(1)
    expect(line(2).match(/M/g)).toHaveLength(2)
  })
})
