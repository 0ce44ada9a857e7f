/** What the parts of the API share: what they stand on, how lists are paged, how answers and refusals look. */
import { createRoute, type OpenAPIHono, z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { AddressBook } from '#app/addresses.ts'
import type { AlertStore } from '#app/alert-store.ts'
import { farmFromBook } from '#app/farm-fields.ts'
import type { ForecastStore } from '#app/forecasts-port.ts'
import type { OutboxStore } from '#app/outbox-port.ts'
import type { OutlineReader } from '#app/outline-port.ts'
import type { People } from '#app/people.ts'
import type { PlanDesk } from '#app/plan-desk.ts'
import type { PlanStore } from '#app/plan-store.ts'
import type { ProblemTools } from '#app/problems.ts'
import { type RecordFault, sayFault } from '#app/record-faults.ts'
import type { Book } from '#app/records.ts'
import type { RecordStore } from '#app/records-port.ts'
import type { Service } from '#app/service.ts'
import type { Farm } from '#core/operation/farm.ts'
import { instantOf } from '#core/units/time.ts'
import { type ProblemType, problem } from '#edges/web/errors.ts'
import type { RenderedPages } from '#edges/web/rendered.ts'
import type { Settings } from '#edges/web/settings-page.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import type { LiveSources } from '#edges/web/sources-page.ts'
import { Problem } from './schemas.ts'

export interface ApiParts {
  readonly rendered: RenderedPages
  readonly service: Service
  readonly records: RecordStore
  readonly outbox: Pick<OutboxStore, 'post' | 'recent' | 'resend'>
  readonly addresses: AddressBook
  readonly everyone: ProblemTools['everyone']
  readonly outlines: OutlineReader
  readonly alerts: Pick<AlertStore, 'load' | 'acknowledge' | 'isAcknowledged'>
  readonly people: People | undefined
  readonly forecasts: Pick<ForecastStore, 'forecasts'> | undefined
  readonly plans: Pick<PlanStore, 'history'> | undefined
  readonly sources: LiveSources | undefined
  readonly settings: Settings | undefined
  /** Absent where nothing plans the week. */
  readonly desk: PlanDesk | undefined
}

export type Api = OpenAPIHono<WebEnv>
export { createRoute }

/** The farm with its fields as the book knows them by now; as the farm file has them while the book has none. */
export async function knownFarm({ service, records }: Pick<ApiParts, 'service' | 'records'>): Promise<Farm> {
  const known = await farmFromBook(service.farm, records)
  return known.fields.length > 0 ? known : service.farm
}

export const bookNow = async (parts: ApiParts): Promise<Book> => ({
  farm: await knownFarm(parts),
  store: parts.records,
  nowEpochH: parts.service.clock(),
})

export const nameIn = (context: Context<WebEnv>): string => context.get('who').name

export const timeOf = (epochH: number): string => instantOf(epochH).toString()

/** What is not known is null: JSON has no NaN. */
export const known = (value: number): number | null => (Number.isFinite(value) ? value : null)

export const json = <S extends z.ZodType>(schema: S, description: string) => ({
  content: { 'application/json': { schema } },
  description,
})
export const text = (type: string, description: string) => ({
  content: { [type]: { schema: z.string() } },
  description,
})
export const jsonBody = <S extends z.ZodType>(schema: S) => ({
  required: true,
  content: { 'application/json': { schema } },
})
export const refusal = (description: string) => ({
  content: { 'application/problem+json': { schema: Problem } },
  description,
})
export const refusals = {
  401: refusal('Nobody is signed in, or the token is not known.'),
  403: refusal('The role may not do this.'),
}
export const pageRefusals = { ...refusals, 422: refusal('A parameter is not valid, or there is no such page.') }
export const tellingRefusals = {
  ...refusals,
  404: refusal('There is no such field, patch, outfit or record.'),
  409: refusal('The key stands for something else, or what was to be corrected has been already.'),
  422: refusal('Something in it does not hold up; `detail` or `errors` say what.'),
}

const PROBLEM_OF: { readonly [C in RecordFault['code']]?: ProblemType } = {
  'unknown-field': 'not-found',
  'unknown-patch': 'not-found',
  'unknown-outfit': 'not-found',
  'unknown-record': 'not-found',
  'already-replaced': 'conflict',
  'changed-meanwhile': 'conflict',
  'key-taken': 'conflict',
  'outfit-exists': 'conflict',
  'patch-exists': 'conflict',
}

/** What was told and does not hold up. */
export const refused = (context: Context, fault: RecordFault, farm: Farm): Response =>
  problem(context, PROBLEM_OF[fault.code] ?? 'not-valid', { detail: sayFault(fault, farm) })

interface Page<T> {
  readonly items: readonly T[]
  readonly next: string | null
}

/** So many after the one named; undefined where that one is not there (any more). */
export function page<T>(
  all: readonly T[],
  { limit, after }: { readonly limit: number; readonly after?: string | undefined },
  nameOf: (item: T) => string,
): Page<T> | undefined {
  const before = after === undefined ? -1 : all.findIndex((item) => nameOf(item) === after)
  if (after !== undefined && before < 0) return undefined
  const items = all.slice(before + 1, before + 1 + limit)
  const last = items.at(-1)
  return { items, next: last && before + 1 + limit < all.length ? nameOf(last) : null }
}

export const noSuchPage = (context: Context): Response =>
  problem(context, 'not-valid', { errors: [{ pointer: '/after', detail: 'There is no such page; begin anew.' }] })

/** The shape of a page of a list. */
export const listOf = <S extends z.ZodType>(item: S, name: string) =>
  z
    .object({
      items: z.array(item),
      next: z.string().nullable().openapi({ description: 'Value of `after` for the next page; null on the last.' }),
    })
    .openapi(name)
