import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Cut } from '#core/field/cut.ts'
import { outfitPlaces } from '#core/field/outfit-places.ts'
import { smallFarm, smallField, smallOutfit } from '#tests/support/small-outlook.ts'

const farm = smallFarm(
  [
    smallField('north'),
    smallField('south', {
      patches: [{ id: 'swale', name: 'Swale', share: 0.1, kind: 'wet-hole', laterDays: 3, handling: 'leave' }],
    }),
  ],
  [smallOutfit('one'), smallOutfit('two')],
)
const cut = (id: string, partKey: string, outfitId: string, atEpochH: number): Cut =>
  ({ id, partKey, outfitId, atEpochH, who: 'ann', areaHa: 1 }) as Cut
const keys = (cuts: readonly Cut[]) =>
  Object.fromEntries([...outfitPlaces(farm, cuts)].map(([outfit, { key }]) => [outfit, key]))

describe('where outfits stand', () => {
  it('is the part each cut last, a patch as well; who has cut nothing is nowhere', () => {
    expect(keys([])).toEqual({})
    expect(keys([cut('a', 'north', 'one', 10), cut('b', 'south/swale', 'one', 12)])).toEqual({ one: 'south/swale' })
    expect(keys([cut('a', 'north', 'one', 14), cut('b', 'south', 'one', 12), cut('c', 'south', 'two', 9)])).toEqual({
      one: 'north',
      two: 'south',
    })
  })

  it('leaves aside fields and outfits that the farm does not have', () => {
    expect(keys([cut('a', 'north', 'one', 10), cut('b', 'sold', 'one', 12), cut('c', 'south', 'hired', 12)])).toEqual({
      one: 'north',
    })
  })

  it('does not hang on the order in which cuts are told', () => {
    const some = fc.array(
      fc.record({
        partKey: fc.constantFrom('north', 'south', 'south/swale'),
        outfitId: fc.constantFrom('one', 'two'),
        atEpochH: fc.integer({ min: 0, max: 3 }),
      }),
      { maxLength: 8 },
    )
    fc.assert(
      fc.property(some, fc.infiniteStream(fc.nat()), (told, order) => {
        const cuts = told.map(({ partKey, outfitId, atEpochH }, n) => cut(`c${n}`, partKey, outfitId, atEpochH))
        const shuffled = cuts
          .map((one) => ({ one, at: order.next().value as number }))
          .sort((a, b) => a.at - b.at)
          .map(({ one }) => one)
        expect(keys(shuffled)).toEqual(keys(cuts))
      }),
    )
  })
})
