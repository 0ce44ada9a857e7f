import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { partsOf } from '#core/field/parts.ts'
import type { Patch } from '#core/operation/farm.ts'
import { HOLDBACK_BIT } from '#core/outlook/holdback.ts'
import { inLoads } from '#core/outlook/loads.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { massAtMoisture } from '#core/science/money/shrink.ts'
import { smallField, smallOutlook } from '#tests/support/small-outlook.ts'

const patch = (handling: Patch['handling'], share: number, id = 'draw'): Patch => ({
  id,
  name: id,
  share,
  kind: 'green',
  laterDays: 6,
  handling,
})

/** A field of 40 ha with one patch; moisture the same in every hour. */
function fieldWith(handling: Patch['handling'], share: number, mainWb: number, patchWb: number): Outlook[] {
  const field = smallField('elms', { patches: [patch(handling, share)] })
  return partsOf(field).map((part) => {
    const moistureWb = part.patch ? patchWb : mainWb
    return smallOutlook(part, 1, 2, () => ({ fit: moistureWb <= field.band.highWb, moistureWb }))
  })
}

describe('loads', () => {
  it('blend by weight: 35 t at 12 % and 5 t at 18 % are 12.75 % (mean by weight, exact)', () => {
    // Dry matter alike on every hectare, so the areas go with 35 x 0.88 and 5 x 0.82.
    const share = (5 * 0.82) / (5 * 0.82 + 35 * 0.88)
    const { outlooks } = inLoads(fieldWith('blend', share, 12, 18), new Map())
    expect(outlooks).toHaveLength(1)
    expect(outlooks[0]!.medianWb[12]).toBeCloseTo(12.75, 5)
  })

  it('are fit by what the load blends to, not by the patch', () => {
    // Band to 13 %: a tenth of the field at 19 % leaves the load inside, a quarter takes it out.
    const fitWith = (share: number) => inLoads(fieldWith('blend', share, 12, 19), new Map()).outlooks[0]!.fitChance[12]
    expect(fitWith(0.1)).toBe(1)
    expect(fitWith(0.25)).toBe(0)
  })

  it('leave a patch apart that the crew leaves standing', () => {
    const parts = fieldWith('leave', 0.25, 12, 19)
    const standingHa = new Map([['elms', 7]])
    expect(inLoads(parts, standingHa)).toEqual({ outlooks: parts, standingHa })
  })

  it('count the area of both under the key of the field, as far as it stands', () => {
    const parts = fieldWith('blend', 0.25, 12, 12.5)
    const { outlooks, standingHa } = inLoads(parts, new Map([['elms', 21]]))
    expect(standingHa.get('elms')).toBeCloseTo(21 + 10, 12)
    expect(outlooks[0]!.part).toMatchObject({ key: 'elms', areaHa: 40 })
    expect(outlooks[0]!.part.through?.map(({ name }) => name)).toEqual(['draw'])
  })

  it('are held back by green pods of the main stand alone, by all else in any part', () => {
    const bitsWith = (inMain: number, inPatch: number) => {
      const [main, through] = fieldWith('blend', 0.1, 12, 12)
      main!.holdbackBits.fill(inMain)
      through!.holdbackBits.fill(inPatch)
      return inLoads([main!, through!], new Map()).outlooks[0]!.holdbackBits[0]
    }
    const { unripe, 'soft-ground': soft, 'wet-grain': wet, rain } = HOLDBACK_BIT
    expect(bitsWith(0, unripe | wet)).toBe(0)
    expect(bitsWith(unripe, 0)).toBe(unripe)
    expect(bitsWith(0, soft)).toBe(soft)
    expect(bitsWith(rain | soft, rain)).toBe(rain | soft)
  })

  it('cut a patch by itself whose main stand is gone', () => {
    const [, alone] = fieldWith('blend', 0.1, 12, 16)
    expect(inLoads([alone!], new Map()).outlooks).toEqual([alone])
  })

  it('keep water and dry matter, and lie between their parts', () => {
    const wb = fc.double({ min: 8, max: 40, noNaN: true })
    fc.assert(
      fc.property(wb, wb, fc.double({ min: 0.01, max: 0.9, noNaN: true }), (mainWb, patchWb, share) => {
        const blended = inLoads(fieldWith('blend', share, mainWb, patchWb), new Map()).outlooks[0]!.medianWb[0]!
        expect(blended).toBeGreaterThanOrEqual(Math.min(mainWb, patchWb) - 1e-4)
        expect(blended).toBeLessThanOrEqual(Math.max(mainWb, patchWb) + 1e-4)
        // Wet weights of both add up to that of the blend with the same dry matter.
        const wet = (1 - share) * massAtMoisture(1, 0, mainWb) + share * massAtMoisture(1, 0, patchWb)
        expect(massAtMoisture(1, 0, blended)).toBeCloseTo(wet, 5)
      }),
    )
  })

  it('are not known where a part is not', () => {
    const [main, through] = fieldWith('blend', 0.1, 12, Number.NaN)
    through!.holdbackBits.fill(HOLDBACK_BIT.unknown)
    const { moistureWb, fitChance } = inLoads([main!, through!], new Map()).outlooks[0]!
    expect(moistureWb[0]).toBeNaN()
    expect(fitChance[0]).toBe(0)
  })
})
