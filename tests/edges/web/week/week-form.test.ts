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
    fields[name!] = before === undefined ? value! : [before, value!].flat()
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
    expect(say({ kind: 'days-off', outfitId, daysOff: [1, 7] })).toBe('Main outfit off on Monday and Sunday')
    expect(say({ kind: 'hours', outfitId, startMinute: 425, endMinute: 1440 })).toBe('Main outfit from 7:05 to 24:00')
  })
})
