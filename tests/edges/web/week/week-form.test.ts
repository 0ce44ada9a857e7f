import { beforeAll, describe, expect, it } from 'vitest'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import { sayChange } from '#edges/web/week/say-change.ts'
import { changeOfForm, hiddenFields } from '#edges/web/week/week-form.ts'
import { english } from '#edges/web/words/english.ts'
import { spanish } from '#edges/web/words/spanish.ts'
import { loadDemo } from '#tests/support/demo-day.ts'
import { smallOutfit } from '#tests/support/small-outlook.ts'

let farm: Farm
beforeAll(async () => {
  farm = (await loadDemo()).farm
})

const day = (text: string) => Temporal.PlainDate.from(text)
const outfitId = 'main-outfit'
const SENDABLE: readonly PlanChange[] = [
  { kind: 'pin', pin: { partKey: 'mill-forty', date: day('2010-10-02') } },
  { kind: 'pin', pin: { partKey: 'creek-bottom/the-slump', date: day('2010-10-12') } },
  { kind: 'pin', pin: { partKey: 'mill-forty', date: day('2010-10-02'), outfitId, areaHa: 12.3456789 } },
  { kind: 'unpin', partKey: 'mill-forty' },
  { kind: 'keep-off', keepOff: { partKey: 'mill-forty', from: day('2010-10-01'), to: day('2010-10-03') } },
  { kind: 'allow', partKey: 'mill-forty' },
  { kind: 'deadline', deadline: { partKey: 'mill-forty', date: day('2010-10-05') } },
  { kind: 'hours', outfitId, startMinute: 425, endMinute: 1260 },
  { kind: 'days-off', outfitId, daysOff: [6, 7] },
  { kind: 'days-off', outfitId, daysOff: [] },
]
/** A form as a browser sends it: a name sent twice is a list. */
async function sent(change: PlanChange): Promise<Record<string, string | string[]>> {
  const fields: Record<string, string | string[]> = {}
  for (const [, name, value] of String(await hiddenFields(change)).matchAll(/name="([^"]*)" value="([^"]*)"/g)) {
    const before = fields[name!]
    const text = value!.replaceAll('&quot;', '"')
    fields[name!] = before === undefined ? text : [before, text].flat()
  }
  return fields
}

describe('a form of the week', () => {
  it('sends again what was tried, as it was', async () => {
    for (const change of SENDABLE) {
      expect(JSON.stringify(changeOfForm(await sent(change), farm))).toBe(JSON.stringify(change))
    }
  })

  it('takes one more cart or truck to be like the last of the outfit', async () => {
    const [outfit] = farm.outfits
    const cart: PlanChange = { kind: 'add-cart', outfitId, cart: outfit!.carts.at(-1)! }
    const truck: PlanChange = { kind: 'add-truck', outfitId, truck: outfit!.trucks.at(-1)! }
    for (const change of [cart, truck]) expect(changeOfForm(await sent(change), farm)).toEqual(change)
    expect(changeOfForm({ kind: 'add-cart', outfit: 'nobody' }, farm)).toBeUndefined()
  })

  it('takes the part of a field in the unit of the farm', () => {
    const form = { kind: 'pin', part: 'mill-forty', date: '2010-10-02', outfit: '', area: '20,5' }
    const acres = changeOfForm(form, farm)
    // An acre is 0.404 685 642 24 ha (NIST SP 811, B.8, of the international foot).
    expect(acres).toMatchObject({ pin: { areaHa: expect.closeTo(20.5 * 0.40468564224, 9) } })
    expect(acres).not.toHaveProperty('pin.outfitId')
    expect(changeOfForm(form, { ...farm, units: 'metric' })).toMatchObject({ pin: { areaHa: 20.5 } })
    expect(changeOfForm({ ...form, area: '' }, farm)).not.toHaveProperty('pin.areaHa')
    for (const area of ['0', '-3', 'half']) expect(changeOfForm({ ...form, area }, farm)).toBeUndefined()
  })

  const NEW_OUTFIT = {
    kind: 'add-outfit',
    name: 'Hired crew',
    combines: '2',
    tank: '400',
    unload: '4,5',
    width: '35',
    speed: '4',
    efficiency: '68',
    crops: ['corn', 'soybean'],
    carts: '1',
    cartSize: '1100',
    cartUnload: '9.5',
    trucks: '2',
    truckSize: '800',
    roadSpeed: '45',
    start: '07:30',
    end: '21:00',
    daysOff: '7',
  }

  it('takes an outfit more, all of it as typed, in the units of the farm', async () => {
    const change = changeOfForm(NEW_OUTFIT, farm)!
    if (change.kind !== 'add-outfit') throw new Error(change.kind)
    const { combines, carts, trucks, ...rest } = change.outfit
    expect(rest).toEqual({
      id: 'hired-crew',
      name: 'Hired crew',
      crewHours: { startMinute: 450, endMinute: 1260 },
      daysOff: [7],
    })
    // A foot is 0.3048 m, a mile an hour 0.447 04 m/s, both exactly (NIST SP 811, B.8); a bushel is 2150.42 cubic inches
    // (NIST Handbook 44, appendix C), an inch 0.0254 m.
    const litres = (bushels: number) => expect.closeTo(bushels * 2150.42 * 0.254 ** 3, 6)
    const ms = (mph: number) => expect.closeTo(mph * 0.44704, 9)
    const head = { widthM: expect.closeTo(35 * 0.3048, 9), speedMs: ms(4), efficiency: expect.closeTo(0.68, 12) }
    const combine = { tankL: litres(400), unloadLPerS: litres(4.5), heads: [{ ...head, crops: ['corn', 'soybean'] }] }
    const name = 'Hired crew'
    expect(combines).toEqual([
      { name, ...combine },
      { name, ...combine },
    ])
    expect(carts).toEqual([{ name, capacityL: litres(1100), unloadLPerS: litres(9.5) }])
    const truck = { name, capacityL: litres(800), roadSpeedMs: ms(45) }
    expect(trucks).toEqual([truck, truck])
    expect(changeOfForm(await sent(change), farm)).toEqual(change)
  })

  it('takes litres, metres and kilometres an hour on a metric farm', () => {
    const typed = { tank: '12000', unload: '120', width: '10,5', speed: '7.2', cartSize: '30000', cartUnload: '250' }
    const trucks = { truckSize: '40000', roadSpeed: '72' }
    expect(changeOfForm({ ...NEW_OUTFIT, ...typed, ...trucks }, { ...farm, units: 'metric' })).toMatchObject({
      outfit: {
        combines: [{}, { tankL: 12_000, unloadLPerS: 120, heads: [{ widthM: 10.5, speedMs: expect.closeTo(2, 12) }] }],
        carts: [{ capacityL: 30_000, unloadLPerS: 250 }],
        trucks: [{}, { capacityL: 40_000, roadSpeedMs: expect.closeTo(20, 12) }],
      },
    })
  })

  it('asks nothing of carts and trucks that there are none of', () => {
    const none = { carts: '0', cartSize: '', cartUnload: '', trucks: '0', truckSize: '', roadSpeed: '' }
    expect(changeOfForm({ ...NEW_OUTFIT, ...none }, farm)).toMatchObject({ outfit: { carts: [], trucks: [] } })
  })

  it('that says too little of an outfit, or too much, gives nothing', () => {
    const wrong = [
      { name: ' ' },
      { name: '!!' },
      { combines: '0' },
      { combines: '51' },
      { combines: '1.5' },
      { width: '' },
    ]
    const more = [{ speed: 'fast' }, { crops: [] }, { crops: 'grass' }, { start: '7' }, { carts: '-1' }]
    // Beyond what the API takes as well: a tank of 200,000 L, a road speed of 50 m/s.
    const machines = [
      { tank: '' },
      { tank: '5700' },
      { unload: '0' },
      { efficiency: '0' },
      { efficiency: '101' },
      { cartSize: '' },
      { cartUnload: 'fast' },
      { truckSize: '-1' },
      { roadSpeed: '112' },
    ]
    for (const part of [...wrong, ...more, ...machines])
      expect(changeOfForm({ ...NEW_OUTFIT, ...part }, farm)).toBeUndefined()
    expect(changeOfForm({ kind: 'add-outfit', machines: '{"id":' }, farm)).toBeUndefined()
    expect(changeOfForm({ kind: 'add-outfit', machines: '{"id":"x"}' }, farm)).toBeUndefined()
  })

  it('that is none of ours gives nothing', () => {
    for (const form of [
      {},
      { kind: 'pin' },
      { kind: 'pin', part: 'mill-forty', date: 'soon' },
      { kind: 'pin', part: ['mill-forty', 'far-half'], date: '2010-10-02' },
      { kind: 'hours', outfit: outfitId, start: '7', end: '9' },
      { kind: 'days-off', outfit: outfitId, daysOff: ['0'] },
      { kind: 'pin', part: 'mill-forty', date: '2010-10-02', more: 'x' },
    ]) {
      expect(changeOfForm(form, farm)).toBeUndefined()
    }
  })
})

describe('a change in words', () => {
  const manner = (language: 'en' | 'es') =>
    ({ units: 'us', language, timeZone: farm.timeZone, today: day('2010-09-30'), nowEpochH: 0 }) as const
  const others: readonly PlanChange[] = [
    { kind: 'add-outfit', outfit: smallOutfit('hired') },
    { kind: 'drop-outfit', outfitId },
    { kind: 'add-cart', outfitId, cart: { name: 'c', capacityL: 1, unloadLPerS: 1 } },
    { kind: 'add-truck', outfitId, truck: { name: 't', capacityL: 1, roadSpeedMs: 1 } },
  ]

  it('names field and day in either language, and never the same in both', () => {
    for (const change of [...SENDABLE, ...others]) {
      const [en, es] = [
        sayChange(change, farm, manner('en'), english.plan),
        sayChange(change, farm, manner('es'), spanish.plan),
      ]
      expect(`${en}${es}`).not.toMatch(/undefined|NaN|main-outfit|mill-forty|\d{4}-\d\d/)
      expect(en).not.toBe(es)
      expect(en).toMatch(/Mill Forty|Creek Bottom \(The slump\)|Main outfit|hired/)
    }
    const say = (change: PlanChange) => sayChange(change, farm, manner('en'), english.plan)
    expect(say(SENDABLE[0]!)).toBe('Mill Forty on Saturday')
    // A week and more away the weekday alone would mislead.
    expect(say(SENDABLE[1]!)).toBe('Creek Bottom (The slump) on Tue, Oct 12')
    const part = { partKey: 'mill-forty', date: day('2010-10-02'), areaHa: 8.1 }
    expect(say({ kind: 'pin', pin: part })).toBe('20 acres of Mill Forty on Saturday')
    expect(say({ kind: 'pin', pin: { ...part, outfitId } })).toBe('20 acres of Mill Forty on Saturday, by Main outfit')
    expect(say({ kind: 'days-off', outfitId, daysOff: [1, 7] })).toBe('Main outfit off on Monday and Sunday')
    expect(say({ kind: 'hours', outfitId, startMinute: 425, endMinute: 1440 })).toBe('Main outfit from 7:05 to 24:00')
  })
})
