/** The `buyers` section of the farm file: where grain goes and how it is paid. */
import { z } from 'zod'
import { crop, dayHours, id, moisture, name, weekdays } from './common.ts'
import { quantity, type UnitsOfFile } from './units.ts'

const terms = (units: UnitsOfFile) =>
  z
    .strictObject({
      crop,
      price: quantity(units, 'price', 'Price at standard moisture.'),
      moisture: moisture("The buyer's standard moisture; left out, the usual one of the crop.").optional(),
      shrink: z
        .number()
        .min(0)
        .max(5)
        .describe('Weight taken off per point of moisture above standard, in percent, 0 to 5.'),
      dock: z
        .number()
        .min(0)
        .max(20)
        .default(0)
        .describe('Price taken off per point of moisture above standard, in percent, 0 to 20.'),
      drying: quantity(units, 'drying', 'Charge for drying, on the wet grain and each point taken out.').default(0),
      refuse_above: moisture('Loads wetter than this are refused.').optional(),
    })
    .describe('How one crop is paid: crop, price, moisture, shrink, dock, drying, refuse_above.')

export const buyerSchema = (units: UnitsOfFile) =>
  z
    .strictObject({
      name: name('Name of the buyer.'),
      id,
      hours: dayHours('Hours the buyer takes grain: from and to within one day.'),
      closed: weekdays('Weekdays the buyer is shut.'),
      daily_limit: quantity(
        units,
        'dailyLimit',
        'Most the buyer takes in a day; left out, no limit. Bushels are weighed as those of the first crop under `pays`.',
      ).optional(),
      hourly_limit: quantity(
        units,
        'hourlyLimit',
        'Most the pit takes in an hour; left out, no limit. Bushels as for daily_limit.',
      ).optional(),
      dryer: z
        .strictObject({
          takes: quantity(units, 'hourlyLimit', 'Wet grain it dries in an hour while it takes out `points`.'),
          points: z
            .number()
            .min(1)
            .max(20)
            .default(5)
            .describe('Points of moisture taken out at that rate, 1 to 20; left out, 5.'),
          wet_bin: quantity(units, 'wetBin', 'Wet grain that can stand beside it; left out, none.').default(0),
        })
        .optional()
        .describe('Dryer that wet grain has to pass: takes, points, wet_bin. Left out, wet grain is taken as dry.'),
      turnaround: z
        .number()
        .min(0)
        .max(600)
        .describe('Minutes a truck spends there, from the queue to the empty scale, 0 to 600.'),
      pays: z.array(terms(units)).min(1).max(10).describe('Terms for each crop he buys, at least one.'),
    })
    .describe('A buyer or own bin: name, hours, closed, daily_limit, hourly_limit, dryer, turnaround, pays.')

export type BuyerEntry = z.infer<ReturnType<typeof buyerSchema>>
