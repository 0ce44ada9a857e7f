/**
 * Replays whole harvests on the 28 autumns and writes the comparison into docs/results.md:
 * node tests/bench/plan-replay.ts [--years 1996-2023,...] [--no-write] [--kept FILE] [--apart]
 * Years found in the file are not run again, those run are added: so several runs can share the years.
 */
import { appendFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { apartMarkdown, compare, comparisonMarkdown, comparisonSvg, type Year } from '#app/replay/compare.ts'
import { foresightPolicy, inputOf, plannerPolicy, SIMPLE_POLICIES, seeingPolicies } from '#app/replay/policies.ts'
import { runSeason, seasonBound } from '#app/replay/run-season.ts'
import { makeSeason, type Season } from '#app/replay/season.ts'
import { fillGaps } from '#core/field/gaps.ts'
import type { Farm, Field } from '#core/operation/farm.ts'
import { buildProblem } from '#core/planning/optimiser/build-problem.ts'
import { epochHoursAtMinute } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { loadFarm } from '#edges/config/load.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { champaignAutumn } from '#tests/support/champaign.ts'

const DOCS = join(import.meta.dirname, '../../docs')
const DEMO_FARM = join(import.meta.dirname, '../../config/demo/farm.yaml')
const { values } = parseArgs({
  options: {
    years: { type: 'string', default: '1996-2023' },
    'no-write': { type: 'boolean', default: false },
    kept: { type: 'string' },
    apart: { type: 'boolean', default: false },
  },
})
const years = values.years.split(',').flatMap((span) => {
  const [first = 1996, last = first] = span.split('-').map(Number)
  return Array.from({ length: last - first + 1 }, (_, k) => first + k)
})

/** Capacity over what a good year needs. */
const TIGHT = 1.2
/** Yardstick of a good year: hours fit for beans up to the end of October that three years of four do not reach. */
const GOOD_YEAR_SHARE = 0.75
/** In years that can be divided by this the planner's loss is taken apart, if asked for. */
const APART_EVERY = 4

const { farm: demo } = await loadFarm(DEMO_FARM)

/** The demo farm planted in a year, with two outfits that get this share of their speed out of the demo's combines. */
function farmOf(year: number, speed: number): Farm {
  const [outfit] = demo.outfits
  const halves = [outfit!.combines.slice(0, 1), outfit!.combines.slice(-1)].map((combines, k) => ({
    ...outfit!,
    id: `outfit-${k + 1}`,
    name: `Outfit ${k + 1}`,
    combines: combines.map((combine) => ({
      ...combine,
      heads: combine.heads.map((head) => ({ ...head, speedMs: head.speedMs * speed })),
    })),
    carts: outfit!.carts.slice(k, k + 1),
    trucks: outfit!.trucks.slice(k * 3, k * 3 + 3),
  }))
  const planted = (field: Field): Field => {
    const { maturitySeenOn: _, cutOn: __, ...rest } = field
    return { ...rest, plantedOn: field.plantedOn.add({ years: year - 2010 }) }
  }
  const fields = demo.fields.filter(({ crop, followsWheat }) => crop !== 'wheat-soft' && !followsWheat).map(planted)
  return { ...demo, fields, outfits: halves }
}

const weatherOf = (year: number): Weather => fillGaps(champaignAutumn(year)).weather
function seasonOf(year: number, speed: number): Season {
  const firstDay = Temporal.PlainDate.from({ year, month: 9, day: 5 })
  return makeSeason({ farm: farmOf(year, speed), weather: weatherOf(year), firstDay, seed: year })
}

/** Hours in which any beans can be cut, and what an hour of all crews does at full speed. */
function hoursToCut(year: number): { hours: number; haPerH: number; areaHa: number } {
  const season = seasonOf(year, 1)
  const { farm, truth, firstDay, matureEpochH } = season
  const nowEpochH = Math.ceil(epochHoursAtMinute(firstDay, 0, farm.timeZone))
  const none = new Map<string, never>()
  const beans = truth.filter(({ part }) => part.field.crop === 'soybean')
  const all = { farm, date: firstDay, nowEpochH, outlooks: truth, standingHa: none, at: none, matureEpochH }
  const toEnd = { days: 57, members: 1, tailWeeks: 0 }
  const { problem } = buildProblem({ ...inputOf(all), ...toEnd })
  const ofBeans = buildProblem({ ...inputOf({ ...all, outlooks: beans }), ...toEnd }).problem
  const hours = ofBeans.blocks.reduce((sum, _, b) => sum + ofBeans.openH[b]!, 0)
  const areaHa = problem.jobs.reduce((sum, job) => sum + job.areaHa, 0)
  const haPerH = problem.crews.reduce((sum, _, c) => {
    const rates = problem.jobs.map((_, j) => problem.haPerH[c * problem.jobs.length + j]!).filter((rate) => rate > 0)
    return sum + rates.reduce((total, rate) => total + rate, 0) / rates.length
  }, 0)
  return { hours, haPerH, areaHa }
}

const each = Array.from({ length: 28 }, (_, k) => hoursToCut(1996 + k))
const goodHours = each.map(({ hours }) => hours).sort((a, b) => a - b)[Math.floor(GOOD_YEAR_SHARE * each.length)]!
const { areaHa, haPerH } = each[0]!
const speed = (TIGHT * areaHa) / (goodHours * haPerH)
console.error(
  `good year: ${goodHours.toFixed(0)} h; ${areaHa.toFixed(0)} ha; full speed ${haPerH.toFixed(1)} ha/h; speed share ${speed.toFixed(2)}`,
)

const solver = createHighsSolver()
const planner = plannerPolicy(solver)
const foresight = foresightPolicy(solver)
const policies = [...SIMPLE_POLICIES, planner, foresight]
const seeing = seeingPolicies(solver)
const kept = keptYears(values.kept)
const done: Year[] = []
for (const year of years) {
  const found = kept.find((one) => one.year === year) ?? (await runYear(year))
  done.push(found)
}
await solver.close()

const comparison = compare(done, planner.name, foresight.name)
const first = done[0]!.year
const remarks = [
  `${done.length} autumns from ${first} to ${done.at(-1)!.year} (hourly weather near Champaign, Illinois; rain by the day, put into hours by a rule), ` +
    `the demo farm without its wheat and what follows it, two outfits slowed so that they can cut 1.2 times what a good year needs.`,
  'Every policy lives the same days with the same machines and plans once a day, at 5:30, on the same forecast, made from the',
  'weather to come by errors that grow with the lead, and the same readings of the afternoon before. The errors are not made',
  'large: 1.6 deg C a day ahead, where forecasts of the next high at Oklahoma City were off by 2.1 (office) and 2.4 (statistics',
  'of a model), root mean square (Brooks, Witt and Eilts 1997). Fire stops are left out: the record has no gusts. What is left',
  'standing on 30 November counts as cut a week later, with what falls until then.',
  '“Perfect foresight” is this planner with the true weather and the true state of every field to the end of the season before',
  'it, its plans checked and lived as those of the others are: what it brings can be reached by who knows all. It is no strict',
  'bound, and the planner may beat it by luck. “Bound” is the linear optimum of the true season without moves and whole fields:',
  'nobody can reach it. Beans that are cut beyond the outlook are taken at 11.3 %, what truckloads weigh in at (Pryor, Jasa and',
  'Zoubek 2016), for all alike. The settings of the planner (members, weeks beyond the outlook) were chosen looking at the',
  'autumns 2004 to 2009 and 2013 to 2018. What it reckons with beyond the outlook (hours by the sun, what falls with age) was',
  'measured on the even autumns, and tried in 1998, 2002, 2008 and 2012; the odd ones judge it.',
]
const markdown = `${comparisonMarkdown(done, comparison, remarks)}${onOddYears()}${apartMarkdown(done, planner.name, foresight.name)}`
if (values['no-write']) console.log(markdown)
else {
  const file = join(DOCS, 'results.md')
  const [open, close] = ['<!-- replay -->', '<!-- /replay -->']
  const heading = '## Replay of whole harvests'
  const section = `${open}\n${heading}\n\n${markdown}\n![Money short of perfect foresight](pictures/replay.svg)\n${close}`
  const before = existsSync(file) ? readFileSync(file, 'utf8') : '# Results\n\n'
  const from = before.indexOf(open)
  const to = before.indexOf(close)
  const after =
    from >= 0 && to > from
      ? before.slice(0, from) + section + before.slice(to + close.length)
      : `${before.trimEnd()}\n\n${section}\n`
  writeFileSync(file, after)
  writeFileSync(join(DOCS, 'pictures', 'replay.svg'), comparisonSvg(done, comparison))
}

/** The years by which nothing of the weeks beyond the outlook was set. */
function onOddYears(): string {
  const odd = done.filter(({ year }) => year % 2 === 1)
  if (odd.length === 0) return ''
  const { captured, betterThanBestRule } = compare(odd, planner.name, foresight.name)
  const share = (100 * captured).toFixed(1)
  return `\nIn the odd years alone: ${share} %, more than the best simple rule in ${betterThanBestRule} of ${odd.length}.\n`
}

/** If asked, every fourth year the planner is also run with what it could not know, one thing at a time. */
async function runYear(year: number): Promise<Year> {
  const begun = performance.now()
  const season = seasonOf(year, speed)
  const all = await runSeason(season, values.apart && year % APART_EVERY === 0 ? [...policies, ...seeing] : policies)
  const [results, apart] = [all.slice(0, policies.length), all.slice(policies.length)]
  const found: Year = { year, results, apart, bound: await seasonBound(season, solver) }
  if (values.kept !== undefined) appendFileSync(values.kept, `${JSON.stringify(found)}\n`)
  const line = all.map(
    ({ policy, money, leftHa }) =>
      `${policy} ${(money / 1000).toFixed(1)}${leftHa > 3 ? ` (${leftHa.toFixed(0)} ha left)` : ''}`,
  )
  console.error(
    `${year} [${((performance.now() - begun) / 1000).toFixed(0)} s]: ${line.join(', ')}, bound ${(found.bound / 1000).toFixed(1)}`,
  )
  return found
}

function keptYears(file: string | undefined): Year[] {
  if (file === undefined || !existsSync(file)) return []
  const years = readFileSync(file, 'utf8').trim().split('\n').filter(Boolean)
  return years.map((line) => {
    const { results, apart, ...rest } = JSON.parse(line) as Kept
    const dated = (list: Kept['results']) => list.map((one) => ({ ...one, doneOn: dateOf(one.doneOn) }))
    return { ...rest, results: dated(results), apart: dated(apart) }
  })
}

type KeptResult = Omit<Year['results'][number], 'doneOn'> & { readonly doneOn?: string }
type Kept = Omit<Year, 'results' | 'apart'> & {
  readonly results: readonly KeptResult[]
  readonly apart: readonly KeptResult[]
}

function dateOf(text: string | undefined): Temporal.PlainDate | undefined {
  return text === undefined ? undefined : Temporal.PlainDate.from(text)
}
