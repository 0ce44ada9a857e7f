import { beforeAll, describe, expect, it } from 'vitest'
import { invite, join } from '#app/people.ts'
import { PASSWORD } from '#tests/edges/web/support/people.ts'
import { type PlanningSite, planningSite } from '#tests/edges/web/support/planning-site.ts'

let here: PlanningSite
let spanish: string
beforeAll(async () => {
  here = await planningSite(undefined)
  const { people } = here.site
  const owner = (await people.store.accounts(people.farm.id)).find(({ role }) => role === 'owner')!
  const joined = await join(people, await invite(people, 'planner', 'es', owner), 'Pilar Surco', PASSWORD)
  if (joined.kind === 'refused') throw new Error(joined.fault)
  spanish = `threshday_session=${joined.session}`
}, 60_000)

type Form = Readonly<Record<string, string | readonly string[]>>
const bodyOf = (form: Form) =>
  new URLSearchParams(Object.entries(form).flatMap(([name, value]) => [value].flat().map((one) => [name, one])))
const HEADERS = { 'sec-fetch-site': 'same-origin', accept: 'text/html' }
const send = async (form: Form, path = '/week/try', language: 'en' | 'es' = 'en') => {
  const options = { method: 'POST', body: bodyOf(form) }
  return language === 'en'
    ? await here.site.as('planner', path, { ...options, headers: HEADERS })
    : await here.site.app.request(path, { ...options, headers: { ...HEADERS, cookie: spanish } })
}

/** The form that was sent, on the page that came back. */
function formIn(page: string, { kind, outfit }: Form): string {
  const forms = [...page.matchAll(/<details[^>]*>(?:(?!<\/details>).)*<\/details>/gs)]
  const fold = forms.find(([text]) => text.includes(`name="kind" value="${kind}"`) && isOpen(text))
  expect(fold, `an open form of kind ${kind}`).toBeDefined()
  const own = [...fold![0].matchAll(/<form.*?<\/form>/gs)].map(([text]) => text)
  const isIts = (text: string) =>
    text.includes(`name="kind" value="${kind}"`) &&
    (!['hours', 'days-off'].includes(String(kind)) || text.includes(`name="outfit" value="${outfit}"`))
  return own.find(isIts)!
}
const isOpen = (details: string) => /^<details[^>]* open/.test(details)

/** What a browser would send again, untouched: inputs, ticks and what is selected. */
function valuesIn(form: string): Record<string, string[]> {
  const values: Record<string, string[]> = {}
  const add = (name: string, value: string) => {
    values[name] = [
      ...(values[name] ?? []),
      value.replaceAll('&quot;', '"').replaceAll('&lt;', '<').replaceAll('&gt;', '>'),
    ]
  }
  for (const [input] of form.matchAll(/<input[^>]*>/g)) {
    if (input.includes('type="checkbox"') && !input.includes(' checked')) continue
    add(/ name="([^"]*)"/.exec(input)![1]!, / value="([^"]*)"/.exec(input)?.[1] ?? '')
  }
  for (const [, name, options] of form.matchAll(/<select name="([^"]*)"[^>]*>(.*?)<\/select>/gs)) {
    add(name!, / ?value="([^"]*)" selected/.exec(options!)?.[1] ?? '(the first)')
  }
  return values
}
const asSent = (form: Form) => Object.fromEntries(Object.entries(form).map(([name, value]) => [name, [value].flat()]))

/** Inputs marked as wrong, each with the text that describes it, read from the whole page. */
function wrongIn(form: string): Record<string, string> {
  const marked = [...form.matchAll(/<(?:input|select)[^>]* aria-invalid="true"[^>]*>/g)].map(([tag]) => {
    const id = / aria-describedby="([^"]*)"/.exec(tag)![1]!
    const told = new RegExp(`id="${id}"[^>]*>([^<]*)<`).exec(form)
    return [/ name="([^"]*)"/.exec(tag)![1]!, told?.[1] ?? '(nothing)'] as const
  })
  return Object.fromEntries(marked)
}

const PIN = { kind: 'pin', part: 'long-eighty', date: '2010-09-30', area: '', outfit: '' }
const OUTFIT = {
  kind: 'add-outfit',
  name: 'Hired <crew> "B"',
  combines: '2',
  tank: '400,5',
  unload: '4.50',
  width: '35',
  speed: '4',
  efficiency: '68',
  crops: ['soybean'],
  carts: '0',
  cartSize: '',
  cartUnload: '9.5',
  trucks: '2',
  truckSize: '800',
  roadSpeed: '45',
  start: '06:10',
  end: '21:40',
  daysOff: ['3', '7'],
}
const { outfit: _, ...PIN_OF_ONE_OUTFIT } = PIN
const REFUSED: readonly (readonly [Form, wrong: Readonly<Record<string, RegExp>>, spanish: RegExp])[] = [
  [{ ...PIN_OF_ONE_OUTFIT, area: '4000' }, { area: /^4000 acres is more than/ }, /^4,000 acres es más de lo que/],
  [{ ...PIN_OF_ONE_OUTFIT, area: 'half' }, { area: /number above 0/ }, /número mayor que 0/],
  [{ ...PIN_OF_ONE_OUTFIT, area: '0' }, { area: /number above 0/ }, /número mayor que 0/],
  [{ ...PIN_OF_ONE_OUTFIT, date: '2010-09-01', area: '12,5' }, { date: /has passed/ }, /ya pasó/],
  [{ ...PIN_OF_ONE_OUTFIT, date: 'soon' }, { date: /Choose/ }, /Elija/],
  [{ ...PIN_OF_ONE_OUTFIT, part: 'home-place' }, { part: /^Nothing of Home Place/ }, /Ya no queda nada en pie/],
  [
    { kind: 'keep-off', part: 'far-half', from: '2010-10-04', to: '2010-10-02' },
    { from: /after/, to: /after/ },
    /primero va el primer día/,
  ],
  [
    { kind: 'deadline', part: 'home-place', date: '2010-10-03' },
    { part: /^Nothing of Home Place/ },
    /Ya no queda nada/,
  ],
  [
    { kind: 'hours', outfit: 'main-outfit', start: '20:15', end: '08:05' },
    { start: /A crew starts before/, end: /A crew starts before/ },
    /La cuadrilla empieza antes/,
  ],
  [{ kind: 'hours', outfit: 'main-outfit', start: '7', end: '21:20' }, { start: /like 07:30/ }, /07:30/],
  [{ kind: 'days-off', outfit: 'main-outfit', daysOff: ['2', '9'] }, { daysOff: /Choose/ }, /Elija/],
  // Beyond what the service takes: 200,000 L are 5675.5 bushels of 2150.42 cubic inches (NIST Handbook 44, appendix C).
  [{ ...OUTFIT, tank: '5700' }, { tank: /at most 5,675\.5/ }, /a lo más 5,675\.5/],
  [{ ...OUTFIT, efficiency: '101' }, { efficiency: /at most 100/ }, /a lo más 100/],
  [{ ...OUTFIT, roadSpeed: 'fast', width: '' }, { roadSpeed: /number above 0/, width: /number above 0/ }, /número/],
  [{ ...OUTFIT, combines: '51' }, { combines: /1 to 50/ }, /1 a 50/],
  [{ ...OUTFIT, name: '!!' }, { name: /letter or a digit/ }, /una letra o una cifra/],
  [{ ...OUTFIT, crops: [] }, { crops: /at least one/ }, /al menos uno/],
  [{ ...OUTFIT, name: 'Main outfit' }, { name: /^There is an outfit called/ }, /^Ya hay un equipo/],
]

describe('a form of the week that is refused', () => {
  it.each(REFUSED)(
    'comes back as it was typed, with the reason at what is wrong: %j',
    async (form, wrong, inSpanish) => {
      const answer = await send(form)
      expect(answer.status).toBe(422)
      const page = await answer.text()
      expect(page).toContain('class="ribbons"')
      const back = formIn(page, form)
      const values = valuesIn(back)
      for (const [name, value] of Object.entries(asSent(form)))
        expect([name, values[name] ?? []]).toEqual([name, value])
      const told = wrongIn(back)
      expect(Object.keys(told).toSorted()).toEqual(Object.keys(wrong).toSorted())
      for (const [name, reason] of Object.entries(wrong)) expect(told[name]!.replaceAll('&quot;', '"')).toMatch(reason)
      // Said at the top too, with a way to the place; and the place is where the page opens without a script.
      expect(page).toMatch(/role="alert"[^>]*>[^<]+<a href="#why-[a-zA-Z]+">/)
      expect(page.match(/ autofocus/g)).toHaveLength(1)
      expect(page).not.toMatch(/<b>|<crew>|NaN|undefined/)
      const spanishForm = formIn(await (await send(form, '/week/try', 'es')).text(), form)
      for (const text of Object.values(wrongIn(spanishForm))) expect(text).toMatch(inSpanish)
    },
  )

  it('leaves the other forms as they are', async () => {
    const page = await (await send({ ...PIN_OF_ONE_OUTFIT, area: '4000', part: 'far-half' })).text()
    expect(page.match(/<option value="far-half" selected>/g)).toHaveLength(1)
    expect(page.match(/aria-invalid/g)).toHaveLength(1)
  })

  it('comes back as it was typed when it was tried and can not be kept any more', async () => {
    const tried = await (await send({ ...PIN_OF_ONE_OUTFIT, area: '20,50' })).text()
    const keep = /<form class="decide".*?<\/form>/s.exec(tried)![0]
    const hidden = Object.fromEntries(
      [...keep.matchAll(/name="([^"]+)" value="([^"]*)"/g)].map(([, name, value]) => [
        name!,
        value!.replaceAll('&amp;', '&').replaceAll('&quot;', '"'),
      ]),
    )
    const answer = await send({ ...hidden, date: '2010-09-01' }, '/week/keep')
    expect(answer.status).toBe(422)
    const values = valuesIn(formIn(await answer.text(), PIN))
    expect(values).toMatchObject({ part: ['long-eighty'], area: ['20,50'] })
    const outfit = await (await send({ ...OUTFIT, carts: '1', cartSize: '1100', name: 'Hired crew' })).text()
    expect(outfit).toContain('value="kind=add-outfit&amp;name=Hired+crew&amp;')
  })

  it('comes back too where the outfit it was for is gone meanwhile', async () => {
    const form = { kind: 'hours', outfit: 'hired-crew', start: '06:05', end: '19:35' }
    const page = await (await send(form)).text()
    const back = formIn(page, form)
    expect(valuesIn(back)).toMatchObject(asSent(form))
    expect(back).toMatch(/class="why" id="why-form"[^>]*>No outfit is called/)
    expect(page).toMatch(/role="alert"[^>]*>[^<]+<a href="#why-form">/)
    const off = { kind: 'days-off', outfit: 'hired-crew', daysOff: ['3'] }
    expect(valuesIn(formIn(await (await send(off)).text(), off))).toMatchObject(asSent(off))
  })

  it('that names no form of the page is told of at its top', async () => {
    for (const [path, form] of [
      ['/week/try', { kind: 'sell' }],
      ['/week/try', { kind: 'allow', part: 'nowhere' }],
      ['/week/keep', PIN],
      ['/week/undo', {}],
      ['/week/undo', { key: 'never' }],
    ] as const) {
      const answer = await send(form, path)
      const page = await answer.text()
      expect([path, answer.status]).toEqual([path, 422])
      expect(page).toContain('class="ribbons"')
      expect(page).toMatch(/class="alarm" role="alert"[^>]*>[^<]+/)
    }
  })

  it('is a problem to a program', async () => {
    const answer = await here.site.as('planner', '/week/try', {
      method: 'POST',
      body: bodyOf({ kind: 'sell' }),
      headers: { 'sec-fetch-site': 'same-origin', accept: 'application/json' },
    })
    expect([answer.status, answer.headers.get('content-type')]).toEqual([422, 'application/problem+json'])
  })
})
