/**
 * The day as JSON for other programs: `npm run today -- --json` and the service give the same. Documented in
 * docs/today-json.md; `format` changes when a field changes its meaning or goes. SI units, moisture in % wet basis,
 * times as RFC 3339 with the farm's offset; what is not known is null.
 */

import type { MorningMessage } from '#core/messages/morning.ts'
import { partName } from '#core/messages/names.ts'
import { sayMorning } from '#core/messages/render-text.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { commonestHoldback } from '#core/outlook/windows.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import type { Run, Waiting } from '#core/planning/plan.ts'
import { zonedAt } from '#core/units/time.ts'
import type { Day } from './make-day.ts'

const DAY_FORMAT = 'threshday-day/1'

export function dayJson(day: Day) {
  const time = (epochHours: number) => timeIn(epochHours, day.farm.timeZone)
  const { provenance, members } = day.ahead
  return {
    ...headJson(day.farm, day.message),
    runs: day.plan.runs.map((run) => runJson(run, time)),
    waiting: day.plan.waiting.map((waiting) => waitingJson(waiting, time)),
    plan: day.planned ? planJson(day.planned.week) : null,
    parts: day.outlooks.map((outlook) => partJson(outlook, day, time)),
    fire: fireJson(day.message.fire, time),
    official: officialJson(day.message.official, time),
    weather: {
      source: provenance.source,
      attribution: provenance.attribution,
      licence: provenance.licence,
      issued: time(provenance.issuedAtEpochH),
      spread: provenance.spread,
      members,
      credits: day.message.weather.credits,
      agreement: agreementJson(day.message.weather.agreement),
      remarks: provenance.remarks,
    },
  }
}

/** The same shape for a day on which the weather could not be used: nothing is named, `reason` says why. */
export function noDayJson(farm: Farm, message: MorningMessage) {
  const time = (epochHours: number) => timeIn(epochHours, farm.timeZone)
  return {
    ...headJson(farm, message),
    runs: [],
    waiting: [],
    plan: null,
    parts: [],
    fire: fireJson(message.fire, time),
    official: officialJson(message.official, time),
    weather: null,
  }
}

/** Either of the two, as text. */
export const dayText = (
  farm: Farm,
  { day, message }: { readonly day: Day | undefined; readonly message: MorningMessage },
) => JSON.stringify(day ? dayJson(day) : noDayJson(farm, message))

type Time = (epochHours: number) => string | null

function headJson(farm: Farm, message: MorningMessage) {
  const { headline } = message
  return {
    format: DAY_FORMAT,
    farm: { id: farm.id, name: farm.name, timeZone: farm.timeZone },
    now: timeIn(message.nowEpochH, farm.timeZone),
    date: message.date.toString(),
    headline: headline.kind,
    reason: headline.kind === 'no-forecast' ? headline.reason : null,
    lines: sayMorning(message),
  }
}

function fireJson(fire: MorningMessage['fire'], time: Time) {
  return {
    level: fire.level,
    from: time(fire.fromEpochH),
    until: time(fire.untilEpochH),
    lowestRelHumidity: known(fire.relHumidity, 3),
    highestGustMs: known(fire.gustMs, 1),
    highestGrassIndex: known(fire.grassIndex, 1),
  }
}

/** Official warnings of the day in the issuers' words; `unread` when an issuer could not be asked. */
function officialJson({ quoted, unread }: MorningMessage['official'], time: Time) {
  return {
    unread,
    warnings: quoted.map(({ notice, event, headline, issuer, fromEpochH, untilEpochH }) => ({
      fireNotice: notice,
      event,
      headline,
      issuer,
      from: time(fromEpochH),
      until: time(untilEpochH),
    })),
  }
}

/** How far apart the sources are on today; null where there are not two. */
const agreementJson = (said: MorningMessage['weather']['agreement']) =>
  said
    ? {
        sources: said.sources,
        differs: said.differs,
        airTempC: known(said.airTempC, 1),
        relHumidity: known(said.relHumidity, 3),
        rainChance: known(said.rainChance, 2),
      }
    : null

function runJson(run: Run, time: Time) {
  return {
    part: run.part.key,
    name: partName(run.part),
    outfit: run.outfitId,
    start: time(run.startEpochH),
    end: time(run.endEpochH),
    areaHa: known(run.areaHa, 2),
    ofAreaHa: known(run.ofAreaHa, 2),
    massT: known(run.massT, 1),
    truckLoads: run.truckLoads,
    cartsNeeded: known(run.cartsNeeded, 0),
    trucksNeeded: known(run.trucksNeeded, 0),
    limitedBy: run.limitedBy,
    startMoistureWb: known(run.startMoistureWb, 2),
    endMoistureWb: known(run.endMoistureWb, 2),
    chance: known(run.chance, 2),
    atRiskPerHaDay: known(run.atRiskPerHaDay, 2),
  }
}

function waitingJson(waiting: Waiting, time: Time) {
  return {
    part: waiting.part.key,
    name: partName(waiting.part),
    reason: waiting.reason,
    moistureWb: known(waiting.moistureWb, 2),
    waitingSaves: known(waiting.waitingSaves ?? Number.NaN, 0),
    next: waiting.next ? { start: time(waiting.next.startEpochH), chance: known(waiting.next.chance, 2) } : null,
  }
}

function planJson({ status, value, loss, leastLoss, choices }: WeekPlan) {
  return {
    status,
    value: known(value, 0),
    loss: known(loss, 0),
    leastLoss: known(leastLoss, 0),
    choices: choices.map(({ partKey, outfitId, reason, perDayWaiting, instead }) => ({
      part: partKey,
      outfit: outfitId,
      reason,
      perDayWaiting: known(perDayWaiting, 0),
      instead: instead ? { part: instead.partKey, costs: known(instead.costs, 0) } : null,
    })),
  }
}

function partJson(outlook: Outlook, day: Day, time: Time) {
  const { part, hours } = outlook
  const maturity = day.maturity.get(part.field.id)
  return {
    part: part.key,
    name: partName(part),
    field: part.field.id,
    crop: part.field.crop,
    areaHa: known(part.areaHa, 2),
    band: part.field.band,
    maturity: maturity
      ? { date: maturity.matureOn.toString(), sdDays: known(maturity.sdDays, 1), basis: maturity.basis }
      : null,
    windows: outlook.windows.map((window) => ({
      start: time(window.startEpochH),
      end: time(window.endEpochH),
      chance: known(window.chance, 2),
      startMoistureWb: known(window.startMoistureWb, 2),
      endMoistureWb: known(window.endMoistureWb, 2),
      opensAfter: window.opensAfter ?? null,
      closesWith: window.closesWith ?? null,
    })),
    hours: Array.from({ length: hours }, (_, h) => ({
      start: time(outlook.startEpochH + h),
      medianWb: known(outlook.medianWb[h]!, 2),
      lowWb: known(outlook.lowWb[h]!, 2),
      highWb: known(outlook.highWb[h]!, 2),
      fitChance: known(outlook.fitChance[h]!, 2),
      heldBackBy: outlook.fitChance[h]! >= 0.5 ? null : (commonestHoldback(outlook, h) ?? null),
    })),
  }
}

/** A number with so many digits, or null for what is not known: JSON has no NaN. */
const known = (value: number, digits: number): number | null =>
  Number.isFinite(value) ? Number(value.toFixed(digits)) : null

/** RFC 3339 with the farm's offset, to the minute; null for what is not known. */
export const timeIn = (epochHours: number, timeZone: string): string | null =>
  Number.isFinite(epochHours)
    ? zonedAt(epochHours, timeZone).round('minute').toString({ timeZoneName: 'never', smallestUnit: 'minute' })
    : null
