/** The cab's page and what is told from it, by form or, from the script's queue, asking for JSON. */
import { type Context, Hono } from 'hono'
import type { z } from 'zod'
import type { AddressBook } from '#app/addresses.ts'
import type { OutboxStore } from '#app/outbox-port.ts'
import { type ProblemTools, tellProblem } from '#app/problems.ts'
import type { RecordFault } from '#app/record-faults.ts'
import { findPart } from '#app/record-lookup.ts'
import { type Answer, type Book, takeCut, takeReading } from '#app/records.ts'
import type { RecordStore } from '#app/records-port.ts'
import { type Service, shownBy } from '#app/service.ts'
import type { Farm } from '#core/operation/farm.ts'
import { knownFarm } from '#edges/web/api/parts.ts'
import { problem, wantsPage } from '#edges/web/errors.ts'
import type { Viewer } from '#edges/web/layout.ts'
import type { Reason, Sent } from '#edges/web/refused-form.ts'
import { nameIn } from '#edges/web/sign-in/actor.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { areaHa } from '#edges/web/typed.ts'
import { inLanguage, wordsOf } from '#edges/web/words/of.ts'
import { cabPage, runNow } from './cab-page.ts'
import { CUT_FORM, formPage, PROBLEM_FORM, READING_FORM, TOLD, type ToldKind } from './forms.ts'
import { unread, untaken } from './refused.ts'

export interface CabParts {
  readonly service: Service
  readonly records: RecordStore
  readonly outbox: Pick<OutboxStore, 'post' | 'recent' | 'resend'>
  readonly addresses: AddressBook
  readonly everyone: ProblemTools['everyone']
  readonly viewerOf: (context: Context<WebEnv>) => Viewer
}

type Taken = { readonly kind: 'taken' } | { readonly kind: 'refused' | 'unread'; readonly reasons: readonly Reason[] }

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
      return context.html(formPage(farmOf(day?.farm), viewerOf(context), { kind, field, refused: undefined }), 200, {
        'cache-control': 'private, no-cache',
      })
    })
    routes.post(`/${kind}`, async (context) => {
      const farm = await knownFarm({ service, records })
      const form: Sent = await context.req.parseBody({ all: true })
      const taken = await take[kind](
        form,
        { farm, store: records, nowEpochH: clock() },
        nameIn(context),
        viewerOf(context),
      )
      if (taken.kind === 'taken') {
        service.changed()
        return wantsPage(context) ? context.redirect(`/cab?told=${kind}`, 303) : context.json({ kind: 'taken' }, 201)
      }
      const { reasons } = taken
      if (!wantsPage(context)) {
        const type = taken.kind === 'unread' ? 'bad-request' : 'not-valid'
        // The script shows what the answer says, so it says something to a person.
        return problem(context, type, { detail: reasons.map(({ text }) => text).join(' ') })
      }
      const refused = { sent: form, reasons }
      return context.html(formPage(farm, viewerOf(context), { kind, field: undefined, refused }), 422)
    })
  }

  const take: { readonly [K in ToldKind]: (form: unknown, book: Book, by: string, viewer: Viewer) => Promise<Taken> } =
    {
      async reading(form, book, by, viewer) {
        const { data, error } = READING_FORM.safeParse(form)
        if (!data) return unreadBy(error, viewer)
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
        const { data, error } = CUT_FORM.safeParse(form)
        if (!data) return unreadBy(error, viewer)
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
      async problem(form, book, by, viewer) {
        const { data, error } = PROBLEM_FORM.safeParse(form)
        if (!data) return unreadBy(error, viewer)
        const part = findPart(book.farm, data)
        if ('code' in part) return refusedBy(part, book.farm, viewer)
        const atEpochH = momentOf(data.agoS, book) ?? book.nowEpochH
        const told = { ...data, field: part.field, by, atEpochH, key: data.key ?? `${by}@${atEpochH.toFixed(3)}` }
        const posted = await tellProblem(book.farm, told, { outbox, addresses, everyone }, book.nowEpochH)
        // A key sent before posts nothing and is taken; without a key, nothing posted means that nobody can be reached.
        return posted > 0 || data.key
          ? { kind: 'taken' }
          : { kind: 'refused', reasons: [{ text: wordsOf(viewer.language).cab.nobodyReached, inputs: [] }] }
      },
    }

  const farmOf = (known: Farm | undefined): Farm => known ?? service.farm
  return routes
}

/** Told late, from the queue: that long ago. Phones' clocks are not trusted, only how far they have gone. */
const momentOf = (agoS: number | undefined, { nowEpochH }: Book): number | undefined =>
  agoS === undefined ? undefined : nowEpochH - agoS / SECONDS_PER_HOUR

const takenBy = (answer: Answer<'reading' | 'cut'>, farm: Farm, viewer: Viewer): Taken =>
  answer.kind === 'refused' ? refusedBy(answer.fault, farm, viewer) : { kind: 'taken' }

const refusedBy = (fault: RecordFault, farm: Farm, { language }: Viewer): Taken => ({
  kind: 'refused',
  reasons: [untaken(fault, farm, wordsOf(language))],
})

const unreadBy = (error: z.ZodError, { language }: Viewer): Taken => ({
  kind: 'unread',
  reasons: unread(error, wordsOf(language)),
})
