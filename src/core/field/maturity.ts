/** When the fields of a farm are mature, by the warmth they had and are likely to have. */
import type { Farm } from '#core/operation/farm.ts'
import { estimateMaturity, type MaturityEstimate } from '#core/science/growth/maturity.ts'
import { climateNormal } from '#core/science/growth/normals.ts'
import type { Weather } from '#core/units/weather.ts'
import { dailyExtremes } from './daily-temps.ts'

/** @param weathers stretches of the farm's weather, in order of time; the first member of each is used. @returns by field id. */
export function maturityOf(
  farm: Pick<Farm, 'fields' | 'timeZone'> & { readonly home: Pick<Farm['home'], 'latDeg'> },
  weathers: readonly Weather[],
): ReadonlyMap<string, MaturityEstimate> {
  const extremes = dailyExtremes(weathers, farm.timeZone)
  const normalC = climateNormal(farm.home.latDeg)
  return new Map(
    farm.fields.map((field) => [
      field.id,
      estimateMaturity({
        ...extremes,
        normalC,
        crop: field.crop,
        plantedOn: field.plantedOn,
        latDeg: field.centre.latDeg,
        followsWheat: field.followsWheat,
        ...(field.maturityGroup === undefined ? {} : { maturityGroup: field.maturityGroup }),
        ...(field.relativeMaturity === undefined ? {} : { relativeMaturity: field.relativeMaturity }),
        ...(field.maturitySeenOn === undefined ? {} : { maturitySeenOn: field.maturitySeenOn }),
      }),
    ]),
  )
}
