import { describe, expect, it } from 'vitest'
import { seasonFromBook } from '#app/season-report.ts'
import { readCommand } from '#edges/cli/arguments.ts'
import { printSeason } from '#edges/cli/season.ts'
import { toldSeason } from '#tests/edges/web/support/told-season.ts'

const { service, records, forecasts } = await toldSeason()
const { farm, clock } = service
const date = (text: string) => Temporal.PlainDate.from(text)
const report = await seasonFromBook(farm, { records, forecasts }, undefined, clock())

describe('season', () => {
  it('is understood', () => {
    expect(readCommand(['season', '--json', '--farm', 'f.yaml'])).toEqual({
      name: 'season',
      farm: 'f.yaml',
      json: true,
    })
    expect(readCommand(['season', 'x'])).toMatchObject({ name: 'help' })
  })

  it('prints a line a crop, as told, and says what is not known', () => {
    const text = printSeason(farm, report, false)
    expect(text).toMatch(/^Larkspur Farm, 2010-10-02: 1,0\d\d of 2,182 acres are off, 4\d %\.$/m)
    // 2,110 + 3,080 + 2,840 + 4,500 bushels on the scale, told to the nearest fifty.
    expect(text).toMatch(/^beans +645 +1,657 acres +12,550 bu +11\.\d% +not known: no plan was published$/m)
    expect(text).toMatch(/^wheat +58 +58 acres +- +- +done 2010-07-03$/m)
    expect(text).toContain('What the plans saved is not known yet')
    expect(text).not.toMatch(/NaN|undefined/)
  })

  it('says by when a crop is likely done, and what the plans saved', () => {
    const [beans, ...rest] = report.crops
    const ahead = { days: [], leftHa: 1, likelyDoneOn: date('2010-10-08') }
    const saved = {
      from: date('2010-09-28'),
      to: date('2010-10-02'),
      days: 5,
      against: [{ rule: 'driest-first' as const, days: 5, money: 1234.4 }],
    }
    const text = printSeason(
      farm,
      { ...report, seenTo: date('2010-10-11'), saved, crops: [{ ...beans!, ahead }, ...rest] },
      false,
    )
    expect(text).toMatch(/^beans .* 2010-10-08$/m)
    expect(text).toContain(
      'The plans were expected to bring $1,234 more than the best simple rule (driest-first), over 5 days',
    )
    const left = { days: [], leftHa: 40.468564224, likelyDoneOn: undefined }
    const late = printSeason(
      farm,
      { ...report, seenTo: date('2010-10-11'), crops: [{ ...beans!, ahead: left }] },
      false,
    )
    expect(late).toContain('after 2010-10-11, about 100 acres left then')
  })

  it('gives the numbers as JSON, what is not known as null', () => {
    const said = JSON.parse(printSeason(farm, report, true)) as {
      format: string
      crops: { harvested: { massT: unknown } }[]
    }
    expect(said.format).toBe('threshday-season/1')
    expect(said.crops.at(-1)!.harvested.massT).toBeNull()
  })
})
