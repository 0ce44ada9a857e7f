/** From the day's plan, outlooks and weather to what the morning message says. No words here. */
import type { Farm } from '#core/operation/farm.ts'
import { joinRuns } from '#core/planning/run.ts'
import { isIdle, sayBuyers, sayHauling, sayLeave, sayRuns, standBy, tellsOfField, turnsOf } from './compose-fields.ts'
import { type ComposeInput, NOTHING_OFFICIAL } from './compose-input.ts'
import { sayDust, sayFire, sayWeather, unknownFire, workSpan } from './compose-sky.ts'
import { sayRest, sayWhy } from './compose-why.ts'
import type { Caution, Headline, MorningMessage, SaidFire, SaidOfficials } from './morning.ts'
import { openingOf } from './opening.ts'

/** Weather older than this is told on the first line [h]. */
const OLD_WEATHER_H = 3

const MOST_LEFT = 2

export function composeMorning(given: ComposeInput): MorningMessage {
  const input = { ...given, plan: { ...given.plan, runs: joinRuns(given.plan.runs, given.farm.outfits) } }
  const { farm, plan, weather, nowEpochH, date } = input
  const first = plan.runs[0]
  const span = workSpan(plan, date, farm.timeZone, nowEpochH)
  const fire = sayFire(input, span)
  const dust = first && sayDust(first, farm, weather)
  const said = sayWeather(input)
  const [run, ...after] = sayRuns(farm, plan)
  const headline: Headline = run ? { kind: 'run', run } : standBy(input)
  const tellsFire = !isIdle(plan) || fire.level === 'stop' || fire.banText !== undefined
  return {
    ...openingOf(farm, date, nowEpochH),
    headline,
    after,
    leave: plan.waiting
      .filter(({ reason }) => tellsOfField(reason, headline))
      .slice(0, MOST_LEFT)
      .map(sayLeave),
    turns: turnsOf(plan),
    why: sayWhy(input),
    rest: sayRest(plan),
    dew: input.dew,
    rain: input.rain,
    fire,
    tellsFire,
    official: input.official ?? NOTHING_OFFICIAL,
    dust,
    hauling: sayHauling(farm, plan),
    buyers: sayBuyers(farm, plan),
    changes: input.changes,
    confidence: first && {
      chance: first.chance,
      lowWb: first.lowWb,
      highWb: first.highWb,
      measured: input.measured,
      ...(input.poorRecord ? { poorRecord: input.poorRecord } : {}),
    },
    weather: said,
    ...(said.ageH > OLD_WEATHER_H ? { oldWeatherH: said.ageH } : {}),
    cautions: cautionsFor(fire, tellsFire, first !== undefined),
  }
}

/** The message of a day on which the weather is too old, missing or impossible: it names no field and says why. */
export function composeNoForecast(
  farm: Farm,
  date: Temporal.PlainDate,
  nowEpochH: number,
  reason: string,
  ageH: number,
  official: SaidOfficials = NOTHING_OFFICIAL,
): MorningMessage {
  const fire = unknownFire(farm, date, official)
  return {
    ...openingOf(farm, date, nowEpochH),
    headline: { kind: 'no-forecast', reason, ageH, limitH: farm.morning.weatherAgeLimitH },
    after: [],
    leave: [],
    turns: [],
    why: undefined,
    rest: undefined,
    dew: { kind: 'unknown', offEpochH: Number.NaN, onEpochH: Number.NaN, rainBefore: false, rainAfter: false },
    rain: { kind: 'unknown' },
    fire,
    tellsFire: true,
    official,
    dust: undefined,
    hauling: [],
    buyers: [],
    changes: [],
    confidence: undefined,
    weather: {
      ageH,
      source: 'none usable',
      attribution: '',
      credits: [],
      spread: 'single',
      members: 0,
      remarks: [reason],
    },
    cautions: cautionsFor(fire, true, false),
  }
}

function cautionsFor(fire: SaidFire, tellsFire: boolean, cutting: boolean): Caution[] {
  const cautions: Caution[] = ['eyes-first', 'screen-lags']
  if (tellsFire && fire.level !== 'ordinary') cautions.push('fire-local-rules', 'fire-clean', 'fire-away')
  if (cutting) cautions.push('dust-stop', 'power-lines')
  return cautions
}
