/** The morning: make the day from the newest weather, keep it, and send it once to everyone who gets it. */
import type { Farm, Person } from '#core/farm/farm.ts'
import { composeNoForecast } from '#core/messages/compose.ts'
import type { MorningMessage } from '#core/messages/morning.ts'
import { renderHtml } from '#core/messages/render-html.ts'
import { renderText, sayMorning } from '#core/messages/render-text.ts'
import { HOURS_PER_DAY, localDateOf, zonedAt } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type { DayStore } from './day-store.ts'
import { SourceFailure } from './failures.ts'
import { findWeather, type Suppliers } from './find-weather.ts'
import type { Mailer } from './mail-port.ts'
import { type Day, makeDay } from './make-day.ts'

/** A day made, or the reason why none can be: either way there is a message. */
export interface DayMade {
  readonly message: MorningMessage
  readonly day: Day | undefined
  /** The forecast behind it, to fall back on when the next asking fails. */
  readonly good: Weather | undefined
  /** What failed on the way, for the log. */
  readonly failures: readonly string[]
}

/** How far back weather is asked for: a season since planting of the longest crop [h]. */
const HOURS_BACK = 24 * 320

export async function dayFromSources(
  farm: Farm,
  suppliers: Suppliers,
  nowEpochH: number,
  store: Pick<DayStore, 'publishedBefore'> | undefined,
  lastGood?: Weather,
): Promise<DayMade> {
  const date = localDateOf(nowEpochH, farm.timeZone)
  const answer = await findWeather(suppliers, {
    place: farm.home,
    nowEpochH,
    ageLimitH: farm.morning.weatherAgeLimitH,
    hoursBack: HOURS_BACK,
    lastGood,
  })
  if (answer.kind === 'none') {
    const message = composeNoForecast(farm, date, nowEpochH, answer.reason, answer.ageH)
    return { message, day: undefined, good: lastGood, failures: answer.failures }
  }
  const yesterday = await store?.publishedBefore(farm.id, date)
  const day = makeDay({ farm, nowEpochH, weather: answer.weather, standingHa: new Map(), yesterday })
  return { message: day.message, day, good: answer.good, failures: answer.failures }
}

/**
 * A memory made on the spot, for weather that can be asked for any moment: yesterday's day at this hour, or none where
 * the record does not reach back.
 */
export function dayBefore(farm: Farm, suppliers: Suppliers, nowEpochH: number): Pick<DayStore, 'publishedBefore'> {
  return {
    publishedBefore: async () => {
      try {
        const made = await dayFromSources(farm, suppliers, nowEpochH - HOURS_PER_DAY, undefined)
        return made.day?.published
      } catch (failure) {
        if (failure instanceof SourceFailure) return undefined
        throw failure
      }
    },
  }
}

/** Is the morning message of this farm due? From its minute until noon; later it would say what is no longer true. */
export function morningDue(farm: Farm, nowEpochH: number): boolean {
  const local = zonedAt(nowEpochH, farm.timeZone)
  const minute = local.hour * 60 + local.minute
  return minute >= farm.morning.minute && minute < Math.max(LATEST_MINUTE, farm.morning.minute + 60)
}

const LATEST_MINUTE = 12 * 60

/** Who gets the morning message: owner and planner; the crew is told by alerts. */
const getsMorning = (person: Person): boolean => person.role !== 'crew' && person.email !== undefined

export interface SendResult {
  readonly sent: number
  readonly failed: readonly { readonly person: string; readonly reason: string }[]
}

/** Sends the message once a person and local date, whatever restarts or second instances there are. */
export async function sendMorning(
  farm: Farm,
  made: DayMade,
  store: DayStore,
  mailer: Mailer,
  nowEpochH: number,
): Promise<SendResult> {
  const { message } = made
  let sent = 0
  const failed: { person: string; reason: string }[] = []
  for (const person of farm.people.filter(getsMorning)) {
    const key = `${farm.id}/morning/${person.id}/${message.date.toString()}`
    if (!(await store.claim(key, nowEpochH))) continue
    try {
      await mailer.send({
        to: { name: person.name, address: person.email! },
        subject: sayMorning(message)[0]!.text,
        text: renderText(message),
        html: renderHtml(message),
        messageId: `<${key.replaceAll('/', '.')}@threshday>`,
      })
      await store.settle(key, 'sent', nowEpochH)
      sent++
    } catch (failure) {
      await store.settle(key, 'failed', nowEpochH)
      failed.push({ person: person.id, reason: failure instanceof Error ? failure.message : String(failure) })
    }
  }
  if (made.day) await store.keepPublished(farm.id, made.day.published)
  return { sent, failed }
}
