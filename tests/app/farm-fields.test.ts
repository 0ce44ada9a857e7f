import { beforeEach, describe, expect, it } from 'vitest'
import { changeField, farmFromBook, seedFields } from '#app/farm-fields.ts'
import type { RecordStore } from '#app/records-port.ts'
import type { Farm } from '#core/operation/farm.ts'
import { parseFarm } from '#edges/config/load.ts'
import { openRecordStore } from '#edges/storage/records.ts'
import { NOON } from '#tests/app/support/book.ts'
import { BASE, spoiled } from '#tests/edges/config/base-farm.ts'

const farmOf = (text: string): Farm => parseFarm(text, 'farm.yaml').farm
const FARM = farmOf(BASE)
const LATER_PLANTED = farmOf(spoiled('planted: 2010-05-02', 'planted: 2010-05-09'))
const WITHOUT_BETA = { ...FARM, fields: FARM.fields.filter(({ id }) => id !== 'beta') }

let store: RecordStore
beforeEach(async () => {
  store = await openRecordStore(':memory:')
})
const seed = (farm: Farm) => seedFields(farm, store, NOON)
const versions = async () =>
  (await store.history(FARM.id, 'field')).length + (await store.history(FARM.id, 'seed')).length
const alpha = async () => (await farmFromBook(FARM, store)).fields.find(({ id }) => id === 'alpha')!

describe('the farm file', () => {
  it('seeds every field as it stands, and read again changes nothing', async () => {
    expect(await seed(FARM)).toEqual([
      { kind: 'added', field: 'Alpha' },
      { kind: 'added', field: 'Beta' },
    ])
    expect(JSON.stringify(await farmFromBook(FARM, store))).toBe(JSON.stringify(FARM))
    expect((await alpha()).plantedOn.equals(FARM.fields[0]!.plantedOn)).toBe(true)
    const before = await versions()
    expect(await seed(FARM)).toEqual([])
    expect(await versions()).toBe(before)
  })

  it('changed, changes what it changed and says so', async () => {
    await seed(FARM)
    expect(await seed(LATER_PLANTED)).toEqual([{ kind: 'changed', field: 'Alpha', what: 'plantedOn' }])
    expect((await alpha()).plantedOn.toString()).toBe('2010-05-09')
    expect(await seed(LATER_PLANTED)).toEqual([])
  })

  it('does not undo what was told since, nor what it did not change itself', async () => {
    await seed(FARM)
    const told = { ...(await alpha()), usualYieldTHa: 4, plantedOn: Temporal.PlainDate.from('2010-05-04') }
    expect(await changeField(FARM.id, told, 'ann', store, NOON + 1)).toBe(true)
    expect(await seed(FARM)).toEqual([])
    expect((await alpha()).usualYieldTHa).toBe(4)
    expect(await seed(LATER_PLANTED)).toEqual([{ kind: 'differs', field: 'Alpha', what: 'plantedOn' }])
    expect(await alpha()).toMatchObject({ usualYieldTHa: 4 })
    expect((await alpha()).plantedOn.toString()).toBe('2010-05-04')
    expect(await seed(LATER_PLANTED)).toEqual([])
  })

  it('that says the same as what was told since agrees with it', async () => {
    await seed(FARM)
    await changeField(
      FARM.id,
      { ...(await alpha()), plantedOn: Temporal.PlainDate.from('2010-05-09') },
      'ann',
      store,
      NOON,
    )
    expect(await seed(LATER_PLANTED)).toEqual([])
    expect(await seed(FARM)).toEqual([{ kind: 'changed', field: 'Alpha', what: 'plantedOn' }])
  })

  it('can take a property away', async () => {
    await seed(farmOf(spoiled('    rows: 10\n', '    rows: 10\n    cut: 2010-09-18\n')))
    expect((await alpha()).cutOn?.toString()).toBe('2010-09-18')
    expect(await seed(FARM)).toEqual([{ kind: 'changed', field: 'Alpha', what: 'cutOn' }])
    expect('cutOn' in (await alpha())).toBe(false)
  })

  it('without a field leaves it out, keeping what was told; with it again, it is back', async () => {
    await seed(FARM)
    expect(await seed(WITHOUT_BETA)).toEqual([{ kind: 'gone', field: 'Beta' }])
    expect((await farmFromBook(FARM, store)).fields.map(({ id }) => id)).toEqual(['alpha'])
    expect(await seed(WITHOUT_BETA)).toEqual([])
    expect(await seed(FARM)).toEqual([{ kind: 'added', field: 'Beta' }])
    expect(JSON.stringify(await farmFromBook(FARM, store))).toBe(JSON.stringify(FARM))
    expect((await store.history(FARM.id, 'field')).map(({ key, body }) => [key, body !== undefined])).toEqual([
      ['alpha/1', true],
      ['beta/1', true],
      ['beta/2', false],
      ['beta/3', true],
    ])
  })

  it('keeps who changed what and when', async () => {
    await seed(FARM)
    await changeField(FARM.id, { ...(await alpha()), usualYieldTHa: 4 }, 'ann', store, NOON + 1)
    const told = (await store.history(FARM.id, 'field')).filter(({ fieldId }) => fieldId === 'alpha')
    expect(told).toMatchObject([
      { by: 'farm-file', toldAtEpochH: NOON, key: 'alpha/1' },
      { by: 'ann', toldAtEpochH: NOON + 1, key: 'alpha/2', replaces: 'alpha/1' },
    ])
    expect(told[0]!.body!.usualYieldTHa).toBe(FARM.fields[0]!.usualYieldTHa)
  })

  it('read by two at once is read once', async () => {
    await Promise.all([seed(FARM), seed(FARM), seed(FARM)])
    expect(await versions()).toBe(4)
    await Promise.all([seed(LATER_PLANTED), seed(LATER_PLANTED)])
    expect(await versions()).toBe(6)
    expect((await alpha()).plantedOn.toString()).toBe('2010-05-09')
  })

  it.each([1, 2, 3, 4])('cut off after %i writes is completed by the next reading', async (writes) => {
    let left = writes
    const failing: RecordStore = {
      ...store,
      current: store.current.bind(store),
      keep: async (record) => {
        if (left-- <= 0) throw new Error('killed')
        return await store.keep(record)
      },
    }
    await seedFields(FARM, failing, NOON).catch(() => undefined)
    await seed(FARM)
    left = writes
    await seedFields({ ...LATER_PLANTED, fields: LATER_PLANTED.fields.slice(0, 1) }, failing, NOON).catch(
      () => undefined,
    )
    await seed({ ...LATER_PLANTED, fields: LATER_PLANTED.fields.slice(0, 1) })
    expect((await farmFromBook(FARM, store)).fields.map(({ id }) => id)).toEqual(['alpha'])
    expect((await alpha()).plantedOn.toString()).toBe('2010-05-09')
    expect(await seed({ ...LATER_PLANTED, fields: LATER_PLANTED.fields.slice(0, 1) })).toEqual([])
  })
})

describe('a field changed by two at once', () => {
  it('is changed by one of them, and the other is told', async () => {
    await seed(FARM)
    const field = await alpha()
    const done = await Promise.all(
      [3, 4, 5].map((usualYieldTHa) => changeField(FARM.id, { ...field, usualYieldTHa }, 'ann', store, NOON)),
    )
    expect(done.filter(Boolean)).toHaveLength(1)
    expect((await alpha()).usualYieldTHa).toBe(3 + done.indexOf(true))
  })
})
