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
import type { FarmSettings } from '#app/settings-port.ts'
import type { Farm } from '#core/operation/farm.ts'
import { instantOf } from '#core/units/time.ts'
import { type ProblemDetail, type ProblemFault, type ProblemType, problem } from '#edges/web/errors.ts'
import type { Reach } from '#edges/web/reach/reach.ts'
import type { RenderedPages } from '#edges/web/rendered.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import type { LiveSources } from '#edges/web/sources-page.ts'
import { type PageQuery, Problem } from './schemas.ts'

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
  readonly settings: FarmSettings | undefined
  /** Absent where nothing plans the week. */
  readonly desk: PlanDesk | undefined
  /** Absent where nobody can sign up for anything. */
  readonly reach: Reach | undefined
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
export const notThere = { 404: refusal('There is no such one.') }
export const notHolding = { 422: refusal('Something in it does not hold up; `detail` or `errors` say what.') }
export const pageRefusals = { ...refusals, 422: refusal('A parameter is not valid, or there is no such page.') }
export const tellingRefusals = {
  ...refusals,
  404: refusal('There is no such field, patch, outfit or record.'),
  409: refusal('The key stands for something else, or what was to be corrected has been already.'),
  ...notHolding,
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

/** A problem as the answer of a route: the framework's types know only the bodies that it reads itself. */
export const refuse = (context: Context, type: ProblemType, said?: ProblemDetail): never =>
  problem(context, type, said) as never

/** What was told and does not hold up. */
export const refused = (context: Context, fault: RecordFault, farm: Farm): never =>
  refuse(context, PROBLEM_OF[fault.code] ?? 'not-valid', { detail: sayFault(fault, farm) })

/** Where in a body something is (RFC 6901). */
export const pointer = (path: readonly PropertyKey[]): string => `/${path.map(String).join('/')}`

export const shapeFaults = ({ issues }: z.ZodError): ProblemFault[] =>
  issues.map(({ path, message }) => ({ pointer: pointer(path), detail: message }))

export const noSuchPage = (context: Context): never =>
  refuse(context, 'not-valid', { errors: [{ pointer: '/after', detail: 'There is no such page; begin anew.' }] })

/** Answers with so many after the one named; refuses where that one is not there (any more). */
export function pageOf<T, J>(
  context: Context,
  { limit, after }: z.infer<typeof PageQuery>,
  all: readonly T[],
  nameOf: (item: T) => string,
  toJson: (item: T) => J,
) {
  const before = after === undefined ? -1 : all.findIndex((item) => nameOf(item) === after)
  if (after !== undefined && before < 0) return noSuchPage(context)
  const items = all.slice(before + 1, before + 1 + limit)
  const last = items.at(-1)
  const next = last && before + 1 + limit < all.length ? nameOf(last) : null
  return context.json({ items: items.map(toJson), next }, 200)
}

/** For what is shown this once. */
export const NEVER_KEPT = { 'cache-control': 'no-store' }

/** The shape of a page of a list. */
export const listOf = <S extends z.ZodType>(item: S, name: string) =>
  z
    .object({
      items: z.array(item),
      next: z.string().nullable().openapi({ description: 'Value of `after` for the next page; null on the last.' }),
    })
    .openapi(name)

export const keyQuery = (description: string) =>
  z.object({
    key: z
      .string()
      .min(1)
      .openapi({ param: { name: 'key', in: 'query' }, description }),
  })
