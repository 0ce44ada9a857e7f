import { describe, expect, it } from 'vitest'
import { lookForAlerts } from '#app/alerts.ts'
import type { DayMade } from '#app/morning.ts'
import type { Note } from '#app/note.ts'
import type { Farm } from '#core/operation/farm.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { at, burning, links, raining, setUp } from '#tests/app/support/alert-looks.ts'

describe('alerts of a day', () => {
  it('are none on a day that goes as told', async () => {
    const { look, made } = await setUp()
    const dry = raining(made, 0, 0)
    for (let now = at('06:00'); now < at('11:00'); now += 0.5) expect(await look(now, dry)).toEqual([])
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
})
