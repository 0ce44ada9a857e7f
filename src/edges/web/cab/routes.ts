/** The cab's page and what is told from it, by form or, from the script's queue, asking for JSON. */
import { type Context, Hono } from 'hono'
import type { AddressBook } from '#app/addresses.ts'
import type { OutboxStore } from '#app/outbox-port.ts'
import { type ProblemTools, tellProblem } from '#app/problems.ts'
import { findPart } from '#app/record-lookup.ts'
import { type Answer, type Book, takeCut, takeReading } from '#app/records.ts'
import type { RecordStore } from '#app/records-port.ts'
import { type Service, shownBy } from '#app/service.ts'
import type { Farm } from '#core/operation/farm.ts'
import { knownFarm } from '#edges/web/api/parts.ts'
import { failure, problem, wantsPage } from '#edges/web/errors.ts'
import type { Viewer } from '#edges/web/layout.ts'
import { nameIn } from '#edges/web/sign-in/actor.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { areaHa } from '#edges/web/typed.ts'
import { inLanguage, wordsOf } from '#edges/web/words/of.ts'
import { cabPage, runNow } from './cab-page.ts'
import { CUT_FORM, formPage, PROBLEM_FORM, READING_FORM, TOLD, type ToldKind } from './forms.ts'

export interface CabParts {
  readonly service: Service
  readonly records: RecordStore
  readonly outbox: Pick<OutboxStore, 'post' | 'recent' | 'resend'>
  readonly addresses: AddressBook
  readonly everyone: ProblemTools['everyone']
  readonly viewerOf: (context: Context<WebEnv>) => Viewer
}

type Taken = { readonly kind: 'taken' } | { readonly kind: 'refused'; readonly text: string } | undefined

const SECONDS_PER_HOUR = 3600

export function cabRoutes({ service, records, outbox, addresses, everyone, viewerOf }: CabParts): Hono<WebEnv> {
  const routes = new Hono<WebEnv>()
  const { clock } = service

  routes.get('/', async (context) => {
    const { made } = await shownBy(service)
    const told = TOLD.find((kind) => kind === context.req.query('told'))
    const viewer = viewerOf(context)
    const page = cabPage(farmOf(made.day?.farm), inLanguage(made, viewer.language), viewer, clock(), told)
    return context.html(page, 200, { 'cache-control': 'private, no-cache' })
  })

  for (const kind of TOLD) {
    routes.get(`/${kind}`, async (context) => {
      const { day } = (await shownBy(service)).made
      const field = day && runNow(day, clock())?.part.key
      return context.html(formPage(farmOf(day?.farm), viewerOf(context), { kind, field, fault: undefined }), 200, {
        'cache-control': 'private, no-cache',
      })
    })
    routes.post(`/${kind}`, async (context) => {
      const farm = await knownFarm({ service, records })
      const form: unknown = await context.req.parseBody()
      const taken = await take[kind](
        form,
        { farm, store: records, nowEpochH: clock() },
        nameIn(context),
        viewerOf(context),
      )
      if (!taken) return unreadable(context, farm)
      const field = fieldIn(form)
      if (taken.kind === 'taken') {
        service.changed()
        return wantsPage(context) ? context.redirect(`/cab?told=${kind}`, 303) : context.json({ kind: 'taken' }, 201)
      }
      if (!wantsPage(context)) return problem(context, 'not-valid', { detail: taken.text })
      return context.html(formPage(farm, viewerOf(context), { kind, field, fault: taken.text }), 422)
    })
  }

  const take: { readonly [K in ToldKind]: (form: unknown, book: Book, by: string, viewer: Viewer) => Promise<Taken> } =
    {
      async reading(form, book, by, viewer) {
        const { data } = READING_FORM.safeParse(form)
        if (!data) return undefined
        if (data.key && (await records.find(book.farm.id, 'reading', data.key))) return { kind: 'taken' }
        const answer = await takeReading(book, {
          by,
          key: data.key,
          at: momentOf(data.agoS, book),
          field: data.field,
          moistureWb: data.moisture,
          instrument: { kind: data.instrument },
        })
        return takenBy(answer, book.farm, viewer)
      },
      async cut(form, book, by, viewer) {
        const { data } = CUT_FORM.safeParse(form)
        if (!data) return undefined
        if (data.key && (await records.find(book.farm.id, 'cut', data.key))) return { kind: 'taken' }
        const answer = await takeCut(book, {
          by,
          key: data.key,
          at: momentOf(data.agoS, book),
          field: data.field,
          ...(data.area === undefined ? {} : { areaHa: areaHa(data.area, book.farm) }),
          done: data.done === 'yes',
          outfit: book.farm.outfits[0]?.id,
        })
        return takenBy(answer, book.farm, viewer)
      },
      async problem(form, book, by, { language }) {
        const { data } = PROBLEM_FORM.safeParse(form)
        if (!data) return undefined
        const part = findPart(book.farm, data)
        if ('code' in part) return { kind: 'refused', text: wordsOf(language).refusal(part, book.farm) }
        const atEpochH = momentOf(data.agoS, book) ?? book.nowEpochH
        const told = { ...data, field: part.field, by, atEpochH, key: data.key ?? `${by}@${atEpochH.toFixed(3)}` }
        const posted = await tellProblem(book.farm, told, { outbox, addresses, everyone }, book.nowEpochH)
        // A key sent before posts nothing and is taken; without a key, nothing posted means that nobody can be reached.
        return posted > 0 || data.key
          ? { kind: 'taken' }
          : { kind: 'refused', text: wordsOf(language).cab.nobodyReached }
      },
    }

  /** The script shows what the answer says, so it says something to a person. */
  const unreadable = (context: Context<WebEnv>, farm: Farm) =>
    wantsPage(context)
      ? failure(context, farm, 'bad-request')
      : problem(context, 'bad-request', { detail: wordsOf(viewerOf(context).language).failures['bad-request'].title })

  const farmOf = (known: Farm | undefined): Farm => known ?? service.farm
  return routes
}

/** Told late, from the queue: that long ago. Phones' clocks are not trusted, only how far they have gone. */
const momentOf = (agoS: number | undefined, { nowEpochH }: Book): number | undefined =>
  agoS === undefined ? undefined : nowEpochH - agoS / SECONDS_PER_HOUR

function takenBy(answer: Answer<'reading' | 'cut'>, farm: Farm, { language }: Viewer): Taken {
  if (answer.kind !== 'refused') return { kind: 'taken' }
  return { kind: 'refused', text: wordsOf(language).refusal(answer.fault, farm) }
}

const fieldIn = (form: unknown): string | undefined =>
  typeof form === 'object' && form !== null && 'field' in form && typeof form.field === 'string'
    ? form.field
    : undefined
