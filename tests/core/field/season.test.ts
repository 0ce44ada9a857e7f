import { expect, it } from 'vitest'
import { ofThisSeason, seasonStart } from '#core/field/season.ts'
import type { Farm, Field } from '#core/operation/farm.ts'

const field = (id: string, planted: string) =>
  ({
    id,
    areaHa: 10,
    plantedOn: Temporal.PlainDate.from(planted),
    patches: [{ id: 'p', name: 'P', share: 0.1, kind: 'green', laterDays: 3, handling: 'leave' }],
  }) as unknown as Field
const farm = { fields: [field('a', '2011-05-02'), field('b', '2010-05-02')] } as unknown as Farm
const told = (partKey: string, at: string) => ({
  partKey,
  atEpochH: Temporal.Instant.from(at).epochMilliseconds / 3.6e6,
})

it('starts with the planting day', () => {
  expect(seasonStart(field('a', '1970-01-03'))).toBe(48)
})

it('keeps what was told of the crop that stands, in field and patch, and leaves last year and unknown parts out', () => {
  const now = [told('a', '2011-09-20T12:00Z'), told('a/p', '2011-05-02T00:00Z'), told('b', '2010-09-20T12:00Z')]
  const before = [told('a', '2010-09-20T12:00Z'), told('a/p', '2011-05-01T23:59Z'), told('c', '2011-09-20T12:00Z')]
  expect(ofThisSeason(farm, [...before, ...now])).toEqual(now)
  expect(ofThisSeason(farm, [])).toEqual([])
})
