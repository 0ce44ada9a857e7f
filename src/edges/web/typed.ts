/** Numbers as people type them in forms, and in the units of their farm. */
import type { Farm } from '#core/operation/farm.ts'
import { HA_PER_ACRE, L_PER_BUSHEL, M_PER_FT, MS_PER_KMH, MS_PER_MPH } from '#core/units/convert.ts'

type Units = Pick<Farm, 'units'>

/** @param text with a point or a comma. @returns NaN where it is no number. */
export const decimal = (text: string): number => Number(text.trim().replace(',', '.'))

/** What one of the farm's own units is [ha], [m], [m/s], [L]. */
const one = ({ units }: Units) =>
  units === 'us'
    ? { areaHa: HA_PER_ACRE, widthM: M_PER_FT, speedMs: MS_PER_MPH, grainL: L_PER_BUSHEL }
    : { areaHa: 1, widthM: 1, speedMs: MS_PER_KMH, grainL: 1 }

export const areaHa = (area: number, farm: Units): number => area * one(farm).areaHa
export const widthM = (width: number, farm: Units): number => width * one(farm).widthM
export const speedMs = (speed: number, farm: Units): number => speed * one(farm).speedMs
/** Of what a machine holds, and of what it unloads in a second. */
export const grainL = (grain: number, farm: Units): number => grain * one(farm).grainL

/** For an input that starts with what is known: to a tenth. */
export const typedWidth = (metres: number, farm: Units): string => tenths(metres / one(farm).widthM)
export const typedSpeed = (metresPerS: number, farm: Units): string => tenths(metresPerS / one(farm).speedMs)
export const typedGrain = (litres: number, farm: Units): string => tenths(litres / one(farm).grainL)
export const typedPercent = (share: number): string => tenths(100 * share)

const tenths = (value: number): string => String(Number(value.toFixed(1)))
