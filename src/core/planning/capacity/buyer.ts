/** What a buyer or an own bin takes: his pit by the hour, his day, and a dryer that takes less the wetter the grain is. */
import type { Buyer, Farm, Field } from '#core/operation/farm.ts'
import type { CropName } from '#core/science/crop.ts'
import { massAtMoisture } from '#core/science/money/shrink.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'

const ANY = Number.POSITIVE_INFINITY

/** Hours a day in which grain is taken [h]. */
export const openHours = ({ hours }: Buyer): number => (hours.closeMinute - hours.openMinute) / 60

/** Points of moisture to be taken out before the grain is dry; 0 for a crop that is not bought here. */
function pointsOver({ terms }: Buyer, crop: CropName, moistureWb: number): number {
  const standard = terms.find((one) => one.crop === crop)?.standardMoistureWb
  return standard === undefined ? 0 : Math.max(0, moistureWb - standard)
}

/**
 * Most that is taken in an hour [t/h]; Infinity without a limit.
 *
 * Pit: as given. Dryer: its rate falls as the points to take out rise (rate times points is constant, common practice, no
 * source); while grain comes in, the wet bin takes up what the dryer does not, and it must be empty by the next morning:
 * at most r + bin / open hours, and 24 r / open hours.
 *
 * @param moistureWb of the grain as it comes in [% wet basis]; NaN gives NaN where a dryer is in the way.
 */
export function buyerTPerH(buyer: Buyer, crop: CropName, moistureWb: number): number {
  return Math.min(buyer.pitTPerH ?? ANY, dryerTPerH(buyer, crop, moistureWb))
}

function dryerTPerH(buyer: Buyer, crop: CropName, moistureWb: number): number {
  const { dryer } = buyer
  if (!dryer) return ANY
  const points = pointsOver(buyer, crop, moistureWb)
  if (points === 0) return ANY
  const driesTPerH = dryer.tPointsPerH / points
  const open = openHours(buyer)
  return Math.min(driesTPerH + dryer.wetBinT / open, (HOURS_PER_DAY * driesTPerH) / open)
}

const dayLimitT = (buyer: Buyer): number => Math.min(buyer.dailyT ?? ANY, (buyer.pitTPerH ?? ANY) * openHours(buyer))

/** Room of a day in the buyer's own measure [t], which dry grain takes one for one; Infinity without a limit. */
export function dayRoomT(buyer: Buyer): number {
  const { dryer } = buyer
  const room = dayLimitT(buyer)
  // Only wet grain finds a limit there: any measure will do, such as what dries by one point in a day.
  return room === ANY && dryer ? HOURS_PER_DAY * dryer.tPointsPerH : room
}

/** Room that nothing takes, in problems that divide by it. */
const HARDLY_ANY = 1e-9

/** Room that a hectare of a part takes of its buyer's day [t/ha, above 0]. */
export function roomPerHa(field: Field, { buyers }: Pick<Farm, 'buyers'>, moistureWb: number): number {
  const buyer = buyers.find(({ id }) => id === field.buyerId)
  return Math.max(HARDLY_ANY, buyer ? field.usualYieldTHa * roomPerT(buyer, field.crop, moistureWb) : 0)
}

/**
 * What a tonne as bought, at the standard moisture, takes of the room of a day: 1 for dry grain, more where the dryer is the
 * narrower gate, 0 without a limit.
 *
 * @param moistureWb at which it comes in [% wet basis].
 */
export function roomPerT(buyer: Buyer, crop: CropName, moistureWb: number): number {
  const room = dayRoomT(buyer)
  if (room === ANY) return 0
  const dries = dryerTPerH(buyer, crop, moistureWb) * openHours(buyer)
  const standard = moistureWb - pointsOver(buyer, crop, moistureWb)
  const most = Math.min(dayLimitT(buyer), massAtMoisture(dries, moistureWb, standard))
  return most === ANY ? 0 : room / most
}
