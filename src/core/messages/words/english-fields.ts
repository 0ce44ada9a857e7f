/** English words for what to do: the fields, the machines, the hauling. */
import type { Headline, SaidBuyer, SaidHauling, SaidLeave, SaidRest, SaidRun, SaidWhy } from '#core/messages/morning.ts'
import type { CropName } from '#core/science/crop.ts'
import { capital } from './capital.ts'
import { chance, count, crop, holdback } from './english.ts'
import {
  area,
  bareArea,
  clock,
  dayAndClock,
  dayName,
  daysFromToday,
  grain,
  type Manner,
  moisture,
  money,
  wholeMoisture,
} from './format.ts'

export function headline(said: Headline, manner: Manner): string {
  switch (said.kind) {
    case 'run':
      return runFirst(said.run, manner)
    case 'done':
      return 'Nothing left to cut: every field is done.'
    case 'no-forecast':
      return `No field named today: ${said.reason}. Go by eye, hand meter and local forecast until it is back.`
    case 'wait': {
      const why = said.reason ? `${capital(holdback(said.reason))} today.` : 'No field is fit today.'
      if (said.nextFieldName === undefined) return `Stand by. ${why} No window in sight in the next ten days.`
      return `Stand by. ${why} Next up: ${said.nextFieldName}, ${dayAndClock(said.nextEpochH, manner)} (${chance(said.chance)}).`
    }
  }
}

function runFirst(run: SaidRun, manner: Manner): string {
  const span = `${clock(run.startEpochH, manner)} to ${clock(run.endEpochH, manner)}`
  return `Run ${run.partName}, ${span}. ${runMoisture(run, manner)}`
}

const BRITTLE_WORDS: Partial<Record<CropName, string>> = {
  soybean: 'Brittle: pods will shatter, slow the reel.',
  corn: 'Dry: watch for shelled corn at the head.',
  canola: 'Brittle: pods will shatter, cut on the damp side of the day.',
}

function runMoisture(run: SaidRun, manner: Manner): string {
  const start = moisture(run.startMoistureWb, manner)
  const end = moisture(run.endMoistureWb, manner)
  if (Math.abs(run.startMoistureWb - run.endMoistureWb) < 0.15)
    return `${capital(crop(run.crop))} near ${end} throughout.`
  return `${capital(crop(run.crop))} ${start} at the start, ${end} at the end.`
}

export function work(run: SaidRun, manner: Manner): string {
  const machines = count(run.combines, 'combine takes', 'combines take')
  const share =
    run.areaHa >= run.ofAreaHa * 0.98
      ? `all ${area(run.ofAreaHa, manner)}`
      : `${bareArea(run.areaHa, manner)} of ${area(run.ofAreaHa, manner)}`
  const who = run.outfitName === undefined ? '' : `${run.outfitName}: `
  const brittle = run.brittle ? ` ${BRITTLE_WORDS[run.crop] ?? 'Over-dry: go easy at the head.'}` : ''
  return `${who}${machines} ${share}: ${grain(run.massT, run.lbPerBu, manner)}, ${count(run.truckLoads, 'truckload', 'truckloads')}.${through(run.through)}${brittle}`
}

function through(names: readonly string[] | undefined): string {
  if (names === undefined) return ''
  const list = new Intl.ListFormat('en', { type: 'conjunction' }).format(names)
  return ` Cut through ${list}: moistures are of the blended load.`
}

export function afterwards(run: SaidRun, manner: Manner): string {
  const who = run.outfitName === undefined ? 'Then' : `${run.outfitName} runs`
  return `${who} ${run.partName} from ${clock(run.startEpochH, manner)} to ${clock(run.endEpochH, manner)}: ${crop(run.crop)} ${moisture(run.startMoistureWb, manner)}, ${bareArea(run.areaHa, manner)} of ${area(run.ofAreaHa, manner)}.`
}

export function leave(said: SaidLeave, manner: Manner): string {
  const next =
    said.nextEpochH === undefined
      ? 'no window in sight yet'
      : `likely fit ${daysFromToday(said.nextEpochH, manner) === 0 ? `today from ${clock(said.nextEpochH, manner)}` : dayName(said.nextEpochH, manner)} (${chance(said.chance)})`
  switch (said.reason) {
    case 'later-turn':
      return `${said.partName} is fit too and waits its turn: ${crop(said.crop)} about ${wholeMoisture(said.moistureWb, manner)}.`
    case 'kept-off':
      return `Keep off ${said.partName}, as planned: fit, ${crop(said.crop)} about ${wholeMoisture(said.moistureWb, manner)}.`
    case 'worth-waiting':
      return `${said.partName} is fit too, but brings more on a damper day: ${next}.`
    case 'patch-green':
      return `Leave ${said.partName} standing: still about ${wholeMoisture(said.moistureWb, manner)}, ${next}.`
    case 'short-window':
      return `Leave ${said.partName}: today's window is too short to move for, ${next}.`
    case 'no-outfit':
      return `${said.partName} is fit but no head on the farm cuts ${crop(said.crop)}.`
    case 'no-buyer':
      return `${said.partName} is fit but its buyer takes no ${crop(said.crop)}.`
    case 'unripe':
    case 'wet-grain':
      return `Leave ${said.partName}: ${crop(said.crop)} still about ${wholeMoisture(said.moistureWb, manner)}, ${next}.`
    default:
      return `Leave ${said.partName}: ${holdback(said.reason)}, ${next}.`
  }
}

/** Fit fields that wait for machines, in one line. */
export function turns(names: readonly string[]): string {
  const list = new Intl.ListFormat('en', { type: 'conjunction' }).format(names)
  return `Fit too, waiting ${names.length === 1 ? 'its' : 'their'} turn: ${list}.`
}

const WHY_WORDS: Record<SaidWhy['reason'], string> = {
  pinned: 'it is pinned for today',
  'only-one-fit': 'nothing else is fit for this outfit today',
  'loses-more': 'it loses most by waiting',
  nearer: 'it is the shorter move',
  'longer-window': 'its window is longer today',
  promised: 'it was planned for today, and nothing gains by a change',
  'better-week': 'the week comes out better',
}

export function why(said: SaidWhy, manner: Manner): string {
  const waiting = said.perDayWaiting >= 1 ? `, about ${money(said.perDayWaiting, manner)} a day` : ''
  const instead = said.instead
    ? ` ${said.instead.partName} in its place would cost about ${money(said.instead.costs, manner)}.`
    : ''
  const loses = said.reason === 'loses-more' ? waiting : ''
  return `Why ${said.partName} first: ${WHY_WORDS[said.reason]}${loses}.${instead}`
}

/** Fit fields for which there is time today, but that pay for waiting. */
export function rest({ fromEpochH, partNames, costs }: SaidRest, manner: Manner): string {
  const list = new Intl.ListFormat('en', { type: 'conjunction' }).format(partNames)
  const stop = Number.isNaN(fromEpochH) ? 'Do not cut today' : `Stop at ${clock(fromEpochH, manner)}`
  const they = partNames.length === 1 ? 'is fit too, but brings' : 'are fit too, but bring'
  return `${stop}: ${list} ${they} more on a damper day. ${partNames[0]} today would cost about ${money(costs, manner)}.`
}

const LIMIT_WORDS: Record<SaidHauling['limitedBy'], string> = {
  combines: '',
  carts: ', so carts set the pace',
  trucks: ', so trucks set the pace',
  buyer: ', so the pit or dryer sets the pace',
}

export function hauling(said: SaidHauling): string {
  const short = said.trucksNeeded > said.trucksThere || said.cartsNeeded > said.cartsThere
  const need = `${count(said.cartsNeeded, 'cart', 'carts')} and ${count(said.trucksNeeded, 'truck', 'trucks')} keep them cutting`
  const have = `you have ${said.cartsThere} and ${said.trucksThere}`
  const limit = LIMIT_WORDS[said.limitedBy]
  const who = said.outfitName === undefined ? 'Hauling' : `Hauling for ${said.outfitName}`
  return `${who}: ${need}${short ? `; ${have}${limit}` : limit}.`
}

export function buyers([first, ...others]: readonly SaidBuyer[], manner: Manner): string {
  if (!first) return ''
  const more = others.map(({ name, closesEpochH }) => `, ${name} until ${clock(closesEpochH, manner)}`)
  return `${first.name} takes grain until ${clock(first.closesEpochH, manner)}${more.join('')}.`
}
