/** The API: the day, and how good what stands behind it is. */
import { z } from '@hono/zod-openapi'
import { dayText } from '#app/day-json.ts'
import { shownBy } from '#app/service.ts'
import { skillReport } from '#app/skill.ts'
import { JSON_TYPE } from '#edges/web/rendered.ts'
import { shownSources } from '#edges/web/sources-page.ts'
import { type Api, type ApiParts, createRoute, json, known, refusals, timeOf } from './parts.ts'
import { Day } from './schemas.ts'

const Skill = z
  .object({
    rows: z.array(
      z.object({
        crop: z.string(),
        leadDays: z.number().int().openapi({ description: 'Whole days from the forecast to the reading.' }),
        readings: z.number().int(),
        biasWb: z.number().nullable().openapi({ description: 'Forecast less reading, on average [points].' }),
        rmseWb: z.number().nullable(),
        crpsWb: z.number().nullable(),
        inside90: z.number().nullable().openapi({ description: 'Share of readings inside the middle 90 %.' }),
      }),
    ),
    poor: z.boolean().openapi({ description: 'The forecasts of the last two weeks did not hold up.' }),
  })
  .openapi('Skill')

const Sources = z
  .object({
    sources: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        kind: z.string(),
        state: z.enum(['well', 'failing', 'down', 'never-asked']),
        ageH: z.number().nullable(),
        lastGood: z.string().nullable(),
        lastFailure: z.string().nullable(),
        calls: z.number().int(),
        failedShare: z.number().nullable(),
      }),
    ),
    credits: z.array(z.object({ id: z.string(), attribution: z.string(), licence: z.string() })),
    lacks: z
      .array(z.enum(['history', 'observations', 'warnings']))
      .openapi({ description: 'What no source of the farm gives.' }),
  })
  .openapi('Sources', { description: 'Empty where recorded weather stands in for live sources.' })

const Settings = z
  .object({
    understood: z.string(),
    lines: z.array(
      z.object({
        text: z.string(),
        depth: z.number().int().openapi({ description: 'Steps that it is indented by.' }),
        line: z.number().int().nullable().openapi({ description: 'Line of the file on which it stands.' }),
      }),
    ),
    warnings: z.array(z.string()),
    fileNow: z.enum(['same', 'changed', 'faulty']).openapi({
      description: 'The file on disk against the one that the service started with.',
    }),
    faults: z.array(z.string()).openapi({ description: 'Of the file on disk, as the loader says them.' }),
  })
  .openapi('Settings', { description: 'The farm file as it was understood, and what in it gives pause.' })

const get = <R extends z.ZodType>(path: string, summary: string, schema: R, description: string) =>
  createRoute({
    method: 'get',
    path,
    tags: ['Day'],
    summary,
    responses: { 200: json(schema, description), ...refusals },
  })

const dayRoute = get('/day', "Today's message, plan and outlooks", Day, 'The day.')
const skillRoute = get('/skill', 'How good the forecasts of moisture have been', Skill, 'By crop and days ahead.')
const sourcesRoute = get('/sources', 'How the weather sources are doing', Sources, 'The last seven days.')
const settingsRoute = get('/settings', 'The farm file as it was understood', Settings, 'In plain text.')

export function wholeDayApi(api: Api, { service, rendered }: ApiParts): void {
  api.openapi(dayRoute, async (context) => {
    const { made } = await shownBy(service)
    return (await rendered.send(context, made, '/today.json', () => dayText(service.farm, made), JSON_TYPE)) as never
  })
}

export function dayApi(api: Api, { service, records, forecasts, sources, settings }: ApiParts): void {
  api.openapi(skillRoute, async (context) => {
    const report = forecasts && (await skillReport(service.farm.id, records, forecasts, service.clock()))
    const rows = (report?.rows ?? []).map(({ crop, leadDays, skill }) => ({
      crop,
      leadDays,
      readings: skill.count,
      biasWb: known(skill.bias),
      rmseWb: known(skill.rmse),
      crpsWb: known(skill.crps),
      inside90: known(skill.inside90),
    }))
    return context.json({ rows, poor: report?.recent.poor ?? false }, 200)
  })

  api.openapi(sourcesRoute, async (context) => {
    const shown = sources && (await shownSources(sources, service.clock()))
    const states = (shown?.states ?? []).map((state) => ({
      id: state.sourceId,
      name: state.name,
      kind: state.kind,
      state: state.state,
      ageH: known(state.ageH),
      lastGood: Number.isNaN(state.lastGoodEpochH) ? null : timeOf(state.lastGoodEpochH),
      lastFailure: state.lastFailure ?? null,
      calls: state.calls,
      failedShare: known(state.failedShare),
    }))
    const credits = (shown?.credits ?? []).map(({ id, attribution, licence }) => ({ id, attribution, licence }))
    return context.json({ sources: states, credits, lacks: [...(shown?.lacks ?? [])] }, 200)
  })

  if (settings) {
    api.openapi(settingsRoute, async (context) => {
      const now = await settings.fileNow()
      const { understood, lines, warnings } = settings
      return context.json(
        {
          understood,
          lines: lines.map(({ text, depth, line }) => ({ text, depth, line: line ?? null })),
          warnings: [...warnings],
          fileNow: now.kind,
          faults: now.kind === 'faulty' ? [...now.faults] : [],
        },
        200,
      )
    })
  }
}
