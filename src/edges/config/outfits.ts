/** The `outfits` section of the farm file: combines, carts and trucks that move together. */
import { z } from 'zod'
import { count, crop, dayHours, id, name, weekdays } from './common.ts'
import { quantity, type UnitsOfFile } from './units.ts'

const head = (units: UnitsOfFile) =>
  z
    .strictObject({
      crops: z.array(crop).min(1).max(10).describe('Crops it cuts, a list of at least one.'),
      width: quantity(units, 'headWidth', 'Width it cuts.'),
      speed: quantity(units, 'fieldSpeed', 'Usual speed with it in good standing crop.'),
      efficiency: z
        .number()
        .min(0.2)
        .max(1)
        .describe('Field efficiency, 0.2 to 1: share of time and width that cuts. 0.7 is 70 percent.'),
    })
    .describe('A head: crops, width, speed, efficiency.')

const combine = (units: UnitsOfFile) =>
  z
    .strictObject({
      name: name('Name of the combine.'),
      count,
      tank: quantity(units, 'tank', 'Grain tank.'),
      unload: quantity(units, 'unload', 'Unloading rate of the auger.'),
      heads: z.array(head(units)).min(1).max(10).describe('Heads it can carry, at least one.'),
    })
    .describe('A combine: name, tank, unload, heads; count for several alike.')

const cart = (units: UnitsOfFile) =>
  z
    .strictObject({
      name: name('Name of the cart.'),
      count,
      size: quantity(units, 'load', 'What it holds.'),
      unload: quantity(units, 'unload', 'Unloading rate of its auger.'),
    })
    .describe('A grain cart: name, size, unload; count for several alike.')

const truck = (units: UnitsOfFile) =>
  z
    .strictObject({
      name: name('Name of the truck.'),
      count,
      size: quantity(units, 'load', 'What it holds.'),
      speed: quantity(units, 'roadSpeed', 'Usual speed on the road, loaded and empty together.'),
    })
    .describe('A truck: name, size, speed; count for several alike.')

export const outfitSchema = (units: UnitsOfFile) =>
  z
    .strictObject({
      name: name('Name of the outfit.'),
      id,
      combines: z.array(combine(units)).min(1).max(30).describe('Its combines, at least one.'),
      carts: z.array(cart(units)).max(30).default([]).describe('Its grain carts, if it has any.'),
      trucks: z.array(truck(units)).min(1).max(60).describe('Its trucks, at least one.'),
      hours: dayHours('Hours the crew works: from and to within one day.'),
      days_off: weekdays('Weekdays the crew is off.'),
    })
    .describe('An outfit: name, combines, carts, trucks, hours, days_off.')

export type OutfitEntry = z.infer<ReturnType<typeof outfitSchema>>
