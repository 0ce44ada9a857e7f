import { describe, expect, it } from 'vitest'
import { farmFileAddresses } from '#app/addresses.ts'
import { lookForAlerts, type Sidelights } from '#app/alerts.ts'
import { type Links, noLinks } from '#app/links.ts'
import type { Letter } from '#app/mail-port.ts'
import type { Day } from '#app/make-day.ts'
import type { DayMade } from '#app/morning.ts'
import type { Note } from '#app/note.ts'
import type { SaidAlert } from '#core/messages/alerts/alert.ts'
import type { Farm } from '#core/operation/farm.ts'
import { HOLDBACK_BIT } from '#core/outlook/holdback.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { LEVEL_STOP } from '#core/science/fire/care.ts'
import { epochHoursOf, zonedAt } from '#core/units/time.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { demoDay } from '#tests/app/support/demo.ts'

const MORNING = '2010-09-30T05:30-05:00'
const at = (text: string) => epochHoursOf(Temporal.Instant.from(`2010-09-30T${text}-05:00`))
const links: Links = {
  reachable: true,
  pathTo: (deed) => `/do/${deed.deed}/${deed.personId}`,
  to: (deed) => `https://farm.example/do/${deed.deed}/${deed.personId}`,
  read: () => undefined,
}

async function setUp(some: Links = noLinks) {
  const database = openDatabase<AlertTables>(':memory:')
  await migrate(database)
  const alerts = alertStore(database)
  const outbox = outboxStore(database)
  const made = await demoDay(MORNING)
  // The whole crew's Sunday calm: no fire in the air unless a test sets it.
  const calm = withDay(made, (day) => ({
    ...day,
    fire: { stop: new Uint8Array(day.fire.stop.length), level: new Uint8Array(day.fire.level.length) },
  }))
  const look = async (now: number, day: DayMade = calm, sidelights?: Sidelights, farm: Farm = made.farm) => {
    const tools = { alerts, addresses: farmFileAddresses, links: some }
    const { alerts: told } = await lookForAlerts(farm, day, tools, now, sidelights)
    return told.map(({ phase, said }) => `${said.kind} ${phase}`).filter((text) => !text.startsWith('over-dry'))
  }
  const letters = async () =>
    (await outbox.recent(made.farm.id, 100)).toReversed().map(({ recipient, body, urgent, subject }) => ({
      recipient,
      urgent,
      subject,
      letter: JSON.parse(body) as Letter,
    }))
  await look(at('05:31'))
  return { made: calm, farm: made.farm, look, letters, alerts, outbox }
}

const withDay = (made: DayMade, change: (day: Day) => Day): DayMade => ({ ...made, day: change(made.day!) })

/** Fire says stop in a share of the courses during some hours. */
const burning = (made: DayMade, fromEpochH: number, toEpochH: number, share = 1) =>
  withDay(made, (day) => {
    const { ahead } = day
    const stop = new Uint8Array(day.fire.stop.length)
    const level = new Uint8Array(day.fire.level.length)
    for (let h = fromEpochH - ahead.startEpochH; h < toEpochH - ahead.startEpochH; h++) {
      level[h] = share >= 1 / 3 ? LEVEL_STOP : 0
      for (let m = 0; m < share * ahead.members; m++) stop[m * ahead.hours + h] = 1
    }
    return { ...day, fire: { stop, level } }
  })

const raining = (made: DayMade, fromEpochH: number, toEpochH: number, share = 1) =>
  withDay(made, (day) => {
    const rainMm = day.ahead.rainMm.slice().fill(0)
    for (let h = fromEpochH - day.ahead.startEpochH; h < toEpochH - day.ahead.startEpochH; h++) {
      for (let m = 0; m < share * day.ahead.members; m++) rainMm[m * day.ahead.hours + h] = 2
    }
    return { ...day, ahead: { ...day.ahead, rainMm } }
  })

/** Another outlook for the part that is run first, from an hour on. */
const firstPart = (made: DayMade, fromEpochH: number, change: (hour: number, outlook: Outlook) => void) =>
  withDay(made, (day) => ({
    ...day,
    ahead: { ...day.ahead, rainMm: day.ahead.rainMm.slice().fill(0) },
    outlooks: day.outlooks.map((outlook) => {
      if (outlook.part.key !== day.plan.runs[0]!.part.key) return outlook
      const copy = { ...outlook, medianWb: outlook.medianWb.slice(), holdbackBits: outlook.holdbackBits.slice() }
      for (let h = Math.max(0, fromEpochH - outlook.startEpochH); h < outlook.hours; h++) change(h, copy)
      return copy
    }),
  }))

const holdBack = (hour: number, { holdbackBits, courses, hours }: Outlook, bit: number, share: number) => {
  for (let c = 0; c < share * courses; c++) holdbackBits[c * hours + hour]! |= bit
}

describe('alerts of a day', () => {
  it('are none on a day that goes as told', async () => {
    const { look, made } = await setUp()
    const dry = raining(made, 0, 0)
    for (let now = at('06:00'); now < at('11:00'); now += 0.5) expect(await look(now, dry)).toEqual([])
  })

  it('tell of rain that reaches a field being cut, with time, chance and deed, and of its end', async () => {
    const { look, made, letters } = await setUp()
    const wet = raining(made, at('14:00'), at('16:00'), 0.8)
    expect(await look(at('10:30'), wet)).toEqual([])
    expect(await look(at('12:10'), wet)).toEqual(['rain start'])
    expect(await look(at('12:40'), wet)).toEqual([])
    expect(await look(at('16:10'), wet)).toEqual([])
    expect(await look(at('17:20'), wet)).toEqual(['rain end'])
    const crew = (await letters()).filter(({ recipient }) => recipient === 'bert-quill')
    expect(crew.map(({ letter }) => letter.subject)).toEqual(['Rain about 14:00', 'Rain is past'])
    expect(crew[0]!.letter.text).toMatch(
      /^Rain about 14:00 at Twin Elms.*: 8 in 10, about 0\.\d\d in, likely until 16:00\. Get the cut grain under cover, tarp trucks and carts\.\n$/,
    )
  })

  it('call a fire stop at once, to everyone, urgently, in each language, past quiet hours', async () => {
    const { look, made, letters } = await setUp()
    // 23:10 lies in the quiet hours of two of the four.
    const night = at('23:10')
    expect(await look(night, burning(made, at('22:00'), at('23:00') + 3, 0.4))).toEqual(['fire-stop start'])
    const sent = await letters()
    expect(sent.map(({ recipient }) => recipient).sort()).toEqual([
      'bert-quill',
      'chayo-lindero',
      'orla-fenn',
      'wim-tallow',
    ])
    expect(sent.every(({ urgent }) => urgent)).toBe(true)
    const textTo = (person: string) => sent.find(({ recipient }) => recipient === person)!.letter.text
    expect(textTo('bert-quill')).toMatch(
      /^FIRE STOP now until about Friday 2:00: .*Local bans and rules come first\.\n$/,
    )
    expect(textTo('chayo-lindero')).toMatch(/^ALTO POR FUEGO ahora.*Primero las prohibiciones y reglas locales\.\n$/)
  })

  it('do not call a fire stop below a third of the courses, nor end one while a fifth say it', async () => {
    const { look, made } = await setUp()
    expect(await look(at('13:00'), burning(made, at('12:00'), at('18:00'), 0.3))).toEqual([])
    expect(await look(at('13:30'), burning(made, at('12:00'), at('18:00'), 0.34))).toEqual(['fire-stop start'])
    for (let now = at('14:00'); now < at('17:00'); now += 0.5)
      expect(await look(now, burning(made, at('12:00'), at('20:00'), 0.22))).toEqual([])
  })

  it('tell a ban of the farm file before work starts, in its own words', async () => {
    const { look, made, letters, farm } = await setUp()
    const day = Temporal.PlainDate.from('2010-09-30')
    const banned: Farm = {
      ...farm,
      fireRules: { ...farm.fireRules, bans: [{ from: day, to: day, text: 'County burn and harvest ban' }] },
    }
    expect(await look(at('05:40'), made, undefined, banned)).toEqual(['fire-stop start'])
    expect((await letters())[0]!.letter.text).toContain('County burn and harvest ban. Stop cutting')
  })

  it('tell owner and planner when nobody acknowledges a fire stop, and not when somebody does', async () => {
    for (const acknowledged of [false, true]) {
      const { look, made, letters, alerts, farm } = await setUp(links)
      const fire = burning(made, at('12:00'), at('20:00'))
      await look(at('13:00'), fire)
      const first = await letters()
      expect(first.find(({ recipient }) => recipient === 'bert-quill')!.letter.text).toContain(
        'https://farm.example/do/acknowledge/bert-quill',
      )
      const id = (await alerts.load(farm.id)).kept.awaited[0]!.id
      if (acknowledged) expect(await alerts.acknowledge(farm.id, id, 'bert-quill', at('13:05'))).toBe(true)
      await look(at('13:10'), fire)
      expect((await letters()).length).toBe(first.length)
      await look(at('13:16'), fire)
      await look(at('13:40'), fire)
      const told = (await letters()).slice(first.length)
      expect(told.map(({ recipient }) => recipient).sort()).toEqual(acknowledged ? [] : ['orla-fenn', 'wim-tallow'])
      for (const { letter } of told)
        expect(letter.text).toBe('Nobody has acknowledged the fire stop of 13:00. Call the crew.\n')
    }
  })

  it('pass on an official warning in the words of its issuer, once for all its renewals, and tell its end', async () => {
    const { look, made, letters } = await setUp()
    const warning = {
      event: 'Red Flag Warning',
      headline: 'Red Flag Warning until 7 PM',
      issuer: 'NWS Lincoln IL',
      fromEpochH: at('11:00'),
      untilEpochH: at('19:00'),
    }
    expect(await look(at('09:00'), made, { meters: [], warnings: [warning] })).toEqual(['official-warning start'])
    expect(await look(at('10:00'), made, { meters: [], warnings: [{ ...warning, headline: 'renewed' }] })).toEqual([])
    expect(await look(at('11:00'), made, { meters: [], warnings: undefined })).toEqual([])
    expect(await look(at('12:00'), made, { meters: [], warnings: [] })).toEqual(['official-warning end'])
    expect((await letters())[0]!.letter.text).toContain('Red Flag Warning until 7 PM')
  })

  it('tell owner and planner, not the crew, of old weather and of a reading that can hardly be so', async () => {
    const { look, made, letters } = await setUp()
    const old: DayMade = { ...made, message: { ...made.message, weather: { ...made.message.weather, ageH: 9.5 } } }
    const meter = { id: 'r1', partName: 'Twin Elms', readWb: 19, expectedWb: 12.5, wildChance: 0.9 }
    expect(await look(at('06:00'), old, { meters: [meter], warnings: undefined })).toEqual([
      'meter-disagrees start',
      'sources-down start',
    ])
    expect(await look(at('06:30'), old, { meters: [meter], warnings: undefined })).toEqual([])
    const sent = await letters()
    // One message a person, however many things it tells.
    expect(sent.map(({ recipient }) => recipient).sort()).toEqual(['orla-fenn', 'wim-tallow'])
    expect(sent[0]!.letter.subject).toBe('A reading disagrees, and 1 more')
  })

  it('are told once by two instances that look at once, and none is lost to a crash between look and word', async () => {
    const { made, letters, look } = await setUp()
    const fire = burning(made, at('12:00'), at('20:00'))
    const both = await Promise.all([look(at('13:00'), fire), look(at('13:00'), fire)])
    expect(both.flat().filter((text) => text === 'fire-stop start')).toHaveLength(1)
    expect(await letters()).toHaveLength(4)
  })

  it('tell of grain too wet to go on after half an hour of it, with the limit, and when it is back in its band', async () => {
    const { look, made, letters } = await setUp()
    const wet = (above: number) =>
      firstPart(made, at('11:00'), (h, { medianWb, part }) => {
        medianWb[h] = part.field.band.highWb + above
      })
    expect(await look(at('12:00'), wet(0.4))).toEqual([])
    expect(await look(at('12:10'), wet(0.6))).toEqual([])
    expect(await look(at('12:40'), wet(0.6))).toEqual(['too-wet start'])
    expect(await look(at('12:50'), wet(0.1))).toEqual([])
    expect(await look(at('12:55'), wet(-0.1))).toEqual([])
    expect(await look(at('13:25'), wet(-0.1))).toEqual([])
    const [told] = (await letters()).filter(({ recipient }) => recipient === 'bert-quill')
    expect(told!.letter.text).toMatch(
      /^Too wet at Twin Elms.*: beans about 13\.6%, your limit is 13\.0%\. Stop and probe/,
    )
  })

  it('tell of ground that does not carry, before the carts are on it', async () => {
    const { look, made, letters } = await setUp()
    const soft = (share: number) =>
      firstPart(made, at('08:00'), (h, outlook) => holdBack(h, outlook, HOLDBACK_BIT['soft-ground'], share))
    expect(await look(at('09:00'), soft(0.4))).toEqual([])
    expect(await look(at('09:30'), soft(0.6))).toEqual([])
    expect(await look(at('10:00'), soft(0.6))).toEqual(['soft-ground start'])
    // A firm field two hours on, but not yet for an hour.
    expect(await look(at('12:10'), soft(0))).toEqual([])
    expect(await look(at('13:15'), soft(0))).toEqual(['soft-ground end'])
    expect((await letters()).filter(({ recipient }) => recipient === 'bert-quill')[0]!.letter.text).toMatch(
      /^Ground too soft at Twin Elms.* Keep loaded carts and trucks off it/,
    )
  })

  it('tell of dew that closes a run early, once a day', async () => {
    const { look, made, farm, letters } = await setUp()
    const toldEnd = zonedAt(made.day!.plan.runs[0]!.endEpochH, farm.timeZone)
      .round({ smallestUnit: 'minute', roundingIncrement: 10 })
      .toPlainTime()
      .toString({ smallestUnit: 'minute' })
    const dewy = firstPart(made, at('12:00'), (h, outlook) => holdBack(h, outlook, HOLDBACK_BIT['wet-plants'], 1))
    const early = withDay(dewy, (day) => ({
      ...day,
      outlooks: day.outlooks.map((outlook) => ({
        ...outlook,
        windows: outlook.windows.map((window) =>
          window.startEpochH < at('13:00')
            ? { ...window, endEpochH: at('12:20'), closesWith: 'wet-plants' as const }
            : window,
        ),
      })),
    }))
    expect(await look(at('11:40'), early)).toEqual([])
    expect(await look(at('12:10'), early)).toEqual(['dew start'])
    expect(await look(at('12:25'), early)).toEqual([])
    expect((await letters()).filter(({ recipient }) => recipient === 'bert-quill')[0]!.letter.text).toMatch(
      new RegExp(`^Dew closes Twin Elms.* about 12:20, not ${toldEnd}\\. Plan the last loads for then`),
    )
  })

  it('tell of a wind that has turned along the rows so that dust blinds the line', async () => {
    const { look, made, letters } = await setUp()
    const blowing = (windFromDeg: number, windMs: number) =>
      withDay(made, (day) => ({
        ...day,
        ahead: {
          ...day.ahead,
          rainMm: day.ahead.rainMm.slice().fill(0),
          windFromDeg: day.ahead.windFromDeg.slice().fill(windFromDeg),
          windMs: day.ahead.windMs.slice().fill(windMs),
          solarWm2: day.ahead.solarWm2.slice().fill(0),
        },
      }))
    const rows = made.day!.plan.runs[0]!.part.field.rowBearingDeg!
    expect(await look(at('11:40'), blowing(rows + 90, 6))).toEqual([])
    // Along the rows with as much wind as the machine has speed, and no sun to stir it: the cloud goes with the driver.
    expect(await look(at('11:50'), blowing(rows, 2))).toEqual([])
    expect(await look(at('12:20'), blowing(rows, 2))).toEqual(['dust start'])
    expect((await letters()).filter(({ recipient }) => recipient === 'bert-quill')[0]!.letter.text).toContain(
      'Lost sight of the next machine? Stop and call before you move.',
    )
  })

  it('reach a phone under a tag of their own, a fire stop until it is dealt with, its tap leading to where it is read', async () => {
    const database = openDatabase<AlertTables & SubscriptionTables>(':memory:')
    await migrate(database)
    const book = subscriptions(database)
    const { made, farm } = await setUp()
    const bert = farm.people.find(({ id }) => id === 'bert-quill')!
    await book.addPush(farm.id, bert.id, { endpoint: 'https://push.example.org/b', p256dh: 'p', auth: 'a' })
    const tools = { alerts: alertStore(database), addresses: book, links }
    const look = (now: number, day: DayMade) => lookForAlerts(farm, day, tools, now)
    await look(at('05:31'), made)
    const wet = raining(made, at('14:00'), at('16:00'), 0.8)
    await look(at('12:10'), wet)
    await look(at('13:00'), burning(wet, at('13:00'), at('15:00')))
    const notes = (await outboxStore(database).recent(farm.id, 50))
      .filter(({ channel }) => channel === 'push')
      .map(({ body }) => JSON.parse(body) as Note)
    expect(new Set(notes.map(({ tag }) => tag)).size).toBe(notes.length)
    const stop = notes.find(({ title }) => title.startsWith('FIRE STOP'))!
    expect(stop).toMatchObject({ urgent: true, path: '/do/acknowledge/bert-quill' })
    expect(notes.filter(({ urgent }) => !urgent).length).toBeGreaterThan(0)
  })

  it('know a changed plan once they have told it', async () => {
    const { look, made } = await setUp()
    const other = withDay(made, (day) => ({ ...day, plan: { ...day.plan, runs: [] } }))
    expect(await look(at('12:00'), raining(other, 0, 0))).toEqual([])
    expect(await look(at('13:00'), raining(other, 0, 0))).toEqual(['plan-changed start'])
    for (const time of ['13:30', '16:00', '19:00']) expect(await look(at(time), raining(other, 0, 0))).toEqual([])
  })
})

/** Every kind once, so that a text for it exists in both languages. */
const SAID: readonly SaidAlert[] = [
  { kind: 'fire-stop', fromEpochH: 0, untilEpochH: 4, relHumidity: 0.2, gustMs: 17, banText: undefined },
  {
    kind: 'fire-care',
    fromEpochH: 0,
    untilEpochH: Number.NaN,
    relHumidity: Number.NaN,
    gustMs: Number.NaN,
    banText: undefined,
  },
  { kind: 'official-warning', headline: 'Red Flag Warning', issuer: 'NWS', untilEpochH: 30 },
  {
    kind: 'rain',
    partNames: ['A', 'B', 'C'],
    arrivesEpochH: 0,
    endsEpochH: Number.NaN,
    chance: 0.7,
    amountMm: Number.NaN,
  },
  {
    kind: 'dust',
    partName: 'A',
    windFromDeg: 190,
    windMs: 9,
    sight: 'blind',
    preferBearingDeg: 100,
    rowsFixed: false,
    untilEpochH: 3,
  },
  {
    kind: 'dust',
    partName: 'A',
    windFromDeg: Number.NaN,
    windMs: 0.2,
    sight: 'blind',
    preferBearingDeg: Number.NaN,
    rowsFixed: true,
    untilEpochH: 3,
  },
  { kind: 'too-wet', partNames: ['A'], crop: 'corn', moistureWb: 27.14, limitWb: 25, fitAgainEpochH: Number.NaN },
  { kind: 'dew', partNames: ['A', 'B'], closesEpochH: 2, toldEpochH: 4 },
  { kind: 'soft-ground', partNames: ['A'], carriesAgainEpochH: 50 },
  { kind: 'plan-changed', was: 'A', now: { partName: 'B', startEpochH: 2, endEpochH: 5 } },
  { kind: 'plan-changed', was: 'A', now: undefined },
  { kind: 'over-dry', partNames: ['A', 'B'], crop: 'soybean', lowWb: 10, leavesEpochH: 20 },
  { kind: 'meter-disagrees', partName: 'A', readWb: 19, expectedWb: 12 },
  { kind: 'sources-down', ageH: Number.POSITIVE_INFINITY, limitH: 12 },
]

describe('the words of alerts', () => {
  it.each(
    SAID.flatMap((said) =>
      (['en', 'es'] as const).flatMap((language) =>
        (['us', 'metric'] as const).map((units) => ({ said, language, units })),
      ),
    ),
  )(
    '$said.kind in $language, $units: whole sentences, no raw value, a title for a lock screen',
    async ({ said, language, units }) => {
      const { alertWordsOf } = await import('#core/messages/words/words.ts')
      const words = alertWordsOf(language)
      const manner = {
        language,
        units,
        timeZone: 'America/Chicago',
        today: Temporal.PlainDate.from('1969-12-31'),
        nowEpochH: 1,
      }
      for (const { title, text } of [words.alertStart(said, manner), words.alertEnd(said)]) {
        expect(`${title} ${text}`).not.toMatch(/NaN|Infinity|undefined|null|\[object/)
        expect(text).toMatch(/^[A-ZÁÉÍÓÚ¿].*[.?]$/)
        expect(title.length).toBeLessThanOrEqual(40)
        // A number with a decimal is a moisture, an amount or a speed: it has its unit behind it.
        expect(text.replace(/\d+\.\d+ ?(%|in\b|mm|mph|km\/h|ha|t\b|pulg\.)/g, '')).not.toMatch(/\d\.\d/)
      }
    },
  )
})
