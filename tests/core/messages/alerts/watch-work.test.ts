import { describe, expect, it } from 'vitest'
import type { ToldRun } from '#core/messages/alerts/told.ts'
import type { Look } from '#core/messages/alerts/watch-input.ts'
import { planChanged, planSubjects } from '#core/messages/alerts/watch-work.ts'
import { alertStart } from '#core/messages/words/english-alerts.ts'
import { testFarm, testOutfit, testPart } from '#tests/support/fields.ts'

const NOW = 357_185
const SOUTH = testOutfit({ id: 'south', name: 'South crew' })
const NORTH = testOutfit({ id: 'north', name: 'North crew' })
const run = (outfitId: string, id: string, from = NOW - 1, to = NOW + 5) => ({
  outfitId,
  part: testPart({ id, name: id }),
  startEpochH: from,
  endEpochH: to,
})
const told = (outfitId: string | undefined, partKey: string): ToldRun => ({
  ...(outfitId !== undefined && { outfitId }),
  partKey,
  partName: partKey,
  startEpochH: NOW - 1,
  endEpochH: NOW + 5,
})
const look = (runs: readonly ReturnType<typeof run>[], toldRuns: readonly ToldRun[], outfits = [SOUTH, NORTH]): Look =>
  ({
    farm: testFarm({ outfits }),
    nowEpochH: NOW,
    day: { plan: { runs } },
    told: { runs: toldRuns },
  }) as unknown as Look

describe('a plan that is no longer the one told', () => {
  const toldBoth = [told('south', 'alder'), told('north', 'birch')]

  it('is each outfit’s own', () => {
    const same = planChanged(look([run('south', 'alder'), run('north', 'birch')], toldBoth))
    expect(same.map(({ subject, evidence }) => [subject, evidence])).toEqual([
      ['south', 0],
      ['north', 0],
    ])
    const other = planChanged(look([run('south', 'alder'), run('north', 'cedar')], toldBoth))
    expect(other.map(({ evidence }) => evidence)).toEqual([0, 1])
    expect(other[1]!.said).toMatchObject({ outfitName: 'North crew', was: 'birch', now: { partName: 'cedar' } })
    const manner = {
      units: 'us',
      language: 'en',
      timeZone: 'America/Chicago',
      today: Temporal.PlainDate.from('2010-09-30'),
      nowEpochH: NOW,
    } as const
    expect(alertStart(other[1]!.said, manner).text).toMatch(/^Change of plan for North crew: cedar goes next/)
  })

  it('is a swap between outfits too, and a run that is dropped', () => {
    const swapped = planChanged(look([run('south', 'birch'), run('north', 'alder')], toldBoth))
    expect(swapped.map(({ evidence }) => evidence)).toEqual([1, 1])
    const dropped = planChanged(look([run('south', 'alder')], toldBoth))
    expect(dropped.map(({ evidence }) => evidence)).toEqual([0, 1])
  })

  it('is the farm’s on a farm with one outfit, whoever was told by an earlier version', () => {
    const [one, ...more] = planChanged(look([run('south', 'cedar')], [told(undefined, 'alder')], [SOUTH]))
    expect([one!.subject, one!.evidence, more]).toEqual(['', 1, []])
    expect(one!.said).not.toHaveProperty('outfitName')
    expect(planSubjects(testFarm({ outfits: [SOUTH] }))).toEqual([''])
    expect(planSubjects(testFarm({ outfits: [SOUTH, NORTH] }))).toEqual(['south', 'north'])
  })
})
