import { expect, it } from 'vitest'
import { partName } from '#core/messages/names.ts'
import { testPart } from '#tests/support/fields.ts'

it('a patch is named with its field, so that a list of names has as many names as commas and one', () => {
  const patch = { id: 'n', name: 'North end', share: 0.1, kind: 'green', laterDays: 5, handling: 'leave' } as const
  expect(partName(testPart())).toBe('Alder')
  expect(partName({ ...testPart(), patch })).toBe('Alder (North end)')
  expect(partName({ ...testPart(), patch })).not.toContain(',')
})
