/** The API: the season so far, and what is likely left of it. */
import { z } from '@hono/zod-openapi'
import { type CropSeason, type SeasonReport, seasonFromBook } from '#app/season-report.ts'
import { SIMPLE_RULES } from '#core/planning/optimiser/simple-rules.ts'
import { CROPS } from '#core/science/crop.ts'
import { type Api, type ApiParts, createRoute, json, known, refusals, timeOf } from './parts.ts'

const date = z.string().openapi({ example: '2010-09-28', description: 'Date at the farm.' })

export const Season = z
  .object({
    date,
    areaHa: z.number(),
    cutHa: z.number(),
    seenTo: date.nullable().openapi({ description: 'Last day of which the plan speaks; null without a plan.' }),
    crops: z.array(
      z.object({
        crop: z.enum(CROPS),
        areaHa: z.number(),
        cutHa: z.number(),
        massT: z.number().nullable().openapi({ description: 'As weighed; null where nothing was.' }),
        yieldTHa: z.number().nullable(),
        moistureWb: z.number().nullable(),
        days: z.array(z.object({ date, areaHa: z.number(), moistureWb: z.number().nullable() })),
        ahead: z
          .object({
            days: z.array(z.object({ date, meanHa: z.number() })),
            leftHa: z.number(),
            likelyDoneOn: date.nullable(),
          })
          .nullable()
          .openapi({ description: 'What the plan expects; null without a plan, or where nothing stands.' }),
      }),
    ),
    loads: z
      .array(
        z.object({
          part: z.string(),
          outfit: z.string(),
          time: z.string(),
          areaHa: z.number(),
          massT: z.number().nullable(),
          moistureWb: z.number().nullable(),
        }),
      )
      .openapi({ description: 'Cuts that were weighed or measured, newest first.' }),
    saved: z
      .object({
        from: date,
        to: date,
        days: z.number().int(),
        against: z.array(z.object({ rule: z.enum(SIMPLE_RULES), days: z.number().int(), money: z.number() })),
      })
      .nullable()
      .openapi({ description: 'Expected money of the plans less that of each rule; null where no plan was priced.' }),
    skill: z
      .object({
        readings: z.number().int(),
        biasWb: z.number().nullable(),
        rmseWb: z.number().nullable(),
        inside90: z.number().nullable(),
      })
      .nullable()
      .openapi({ description: 'Forecasts up to two days ahead against the readings of the season.' }),
  })
  .openapi('Season')

const seasonRoute = createRoute({
  method: 'get',
  path: '/season',
  tags: ['Day'],
  summary: 'The season: what is off, what is left and likely done by when',
  responses: { 200: json(Season, 'The season so far.'), ...refusals },
})

export function seasonApi(api: Api, { service, ...stores }: ApiParts): void {
  api.openapi(seasonRoute, async (context) => {
    const { day } = await service.current()
    const farm = day?.farm ?? service.farm
    return context.json(seasonJson(await seasonFromBook(farm, stores, day?.planned?.week, service.clock())), 200)
  })
}

function seasonJson({
  today,
  areaHa,
  cutHa,
  seenTo,
  crops,
  loads,
  saved,
  skill,
}: SeasonReport): z.infer<typeof Season> {
  return {
    date: today.toString(),
    areaHa,
    cutHa,
    seenTo: seenTo?.toString() ?? null,
    crops: crops.map(cropJson),
    loads: loads.map((load) => ({
      part: load.partKey,
      outfit: load.outfitId,
      time: timeOf(load.atEpochH),
      areaHa: load.areaHa,
      massT: known(load.massT),
      moistureWb: known(load.moistureWb),
    })),
    saved: saved
      ? { from: saved.from.toString(), to: saved.to.toString(), days: saved.days, against: [...saved.against] }
      : null,
    skill: skill
      ? { readings: skill.count, biasWb: known(skill.bias), rmseWb: known(skill.rmse), inside90: known(skill.inside90) }
      : null,
  }
}

const cropJson = ({ crop, areaHa, cutHa, harvested, days, ahead }: CropSeason) => ({
  crop,
  areaHa,
  cutHa,
  massT: known(harvested.massT),
  yieldTHa: known(harvested.yieldTHa),
  moistureWb: known(harvested.moistureWb),
  days: days.map((day) => ({ date: day.date.toString(), areaHa: day.areaHa, moistureWb: known(day.moistureWb) })),
  ahead: ahead
    ? {
        days: ahead.days.map((day) => ({ date: day.date.toString(), meanHa: day.meanHa })),
        leftHa: ahead.leftHa,
        likelyDoneOn: ahead.likelyDoneOn?.toString() ?? null,
      }
    : null,
})
