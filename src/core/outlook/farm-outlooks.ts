/** The outlooks of a farm's parts together: what the clock, fire and the buyers hold back, worked out once for all of them. */
import type { Cell } from '#core/field/cell.ts'
import type { PartNow } from '#core/field/state.ts'
import type { Farm } from '#core/operation/farm.ts'
import { calendarOf } from './calendar.ts'
import { buyerShutHours, makeOutlook } from './make-outlook.ts'
import type { Outlook } from './outlook.ts'

/** @param fireStop 1 where fire says stop, laid out as the weather ahead. @returns in the order of the states. */
export function farmOutlooks(farm: Farm, states: readonly PartNow[], ahead: Cell, fireStop: Uint8Array): Outlook[] {
  const { startEpochH, hours } = ahead.weather
  const { holdbackBits, weekday } = calendarOf(startEpochH, hours, farm.timeZone, farm.home, farm.outfits)
  const closedOn = (buyerId: string) => farm.buyers.find(({ id }) => id === buyerId)?.closedOn ?? []
  return states.map((state) =>
    makeOutlook(state, ahead, { always: holdbackBits, fireStop }, buyerShutHours(state.part.field, closedOn, weekday)),
  )
}
