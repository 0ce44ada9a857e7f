/** Events over a real connection, read as the standard says (WHATWG HTML, 9.2.6). */
import { afterEach, describe, expect, it } from 'vitest'
import type { KeptParcel } from '#app/outbox-port.ts'
import { type LiveFeed, liveFeed, marksOf, planMark } from '#edges/web/live/feed.ts'
import { type LiveTimes, liveStream } from '#edges/web/live/route.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { listenApp } from '#tests/edges/web/support/listen.ts'
import { siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()
const made = await service.current()
const closing: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close()
})

interface Event {
  id?: string
  event?: string
  data?: string
  retry?: string
  comment?: true
}

/** Reads events until so many have come or the stream ends. */
async function read(response: Response, most: number): Promise<Event[]> {
  const events: Event[] = []
  const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader()
  let rest = ''
  while (events.length < most) {
    const { done, value } = await reader.read()
    if (done) break
    rest += value
    for (let end = rest.indexOf('\n\n'); end >= 0; end = rest.indexOf('\n\n')) {
      const event: Record<string, unknown> = {}
      for (const line of rest.slice(0, end).split('\n')) {
        if (line.startsWith(':')) event.comment = true
        else event[line.slice(0, line.indexOf(':'))] = line.slice(line.indexOf(':') + 1).replace(/^ /, '')
      }
      events.push(event as Event)
      rest = rest.slice(end + 2)
    }
  }
  await reader.cancel()
  return events
}

async function site(live: LiveFeed) {
  const { app, cookies } = await siteOf(service, { live })
  const listening = await listenApp(app)
  closing.push(async () => {
    live.close()
    await listening.close()
  })
  return (headers: Record<string, string> = {}) =>
    fetch(`${listening.origin}/api/live`, { headers: { cookie: cookies.crew, ...headers } })
}

/** A stream by itself, with times of its own. */
function stream(live: LiveFeed, times: LiveTimes, lastId?: string): Response {
  const context = {
    req: { header: () => lastId },
    body: (body: ReadableStream, status: number, headers: Record<string, string>) =>
      new Response(body, { status, headers }),
  }
  return liveStream(context as never, live, times)
}
const LONG = { heartbeatMs: 60_000, longestMs: 60_000 }
const message = (n: number) => ({ key: `larkspur/morning/${n}`, channel: 'mail', recipient: 'ola' }) as KeptParcel

describe('the stream of events', () => {
  it('begins with the newest day, then tells what happens as it happens, in their order', async () => {
    const live = liveFeed()
    live.hear({ kind: 'day-made', made })
    const response = await (await site(live))()
    expect(response.headers.get('content-type')).toBe('text/event-stream')
    expect(response.headers.get('cache-control')).toBe('no-store')
    setTimeout(() => {
      live.hear({ kind: 'told' })
      live.hear({ kind: 'message', parcel: message(1), state: 'sent' })
    }, 50)
    const [start, day, told, sent] = await read(response, 4)
    expect(Number(start!.retry)).toBeGreaterThan(0)
    expect(day!.event).toBe('day')
    expect(JSON.parse(day!.data!)).toEqual({ date: '2010-09-30', headline: 'run', ...marksOf(made) })
    expect(told).toMatchObject({ event: 'told', data: '{}' })
    expect(JSON.parse(sent!.data!)).toEqual({
      key: 'larkspur/morning/1',
      channel: 'mail',
      recipient: 'ola',
      state: 'sent',
    })
    expect(new Set([day!.id, told!.id, sent!.id]).size).toBe(3)
  })

  it('tells first what was missed since the last that was heard', async () => {
    const live = liveFeed()
    for (let n = 0; n < 5; n++) live.hear({ kind: 'message', parcel: message(n), state: 'sent' })
    const all = await read(stream(live, LONG, 'nothing-known'), 2)
    // Of an event nobody knows any more it is said that some were missed.
    expect(all[1]!.event).toBe('missed')
    const [, run] = /^(.*)-\d+$/.exec(all[1]!.id!)!
    const again = await read(stream(live, LONG, `${run}-3`), 3)
    expect(again.slice(1).map(({ id }) => id)).toEqual([`${run}-4`, `${run}-5`])
    expect((await read(stream(live, LONG, `${run}-5`), 1)).map(({ event }) => event)).toEqual([undefined])
  })

  it('says when what was missed is no longer known', async () => {
    const live = liveFeed()
    live.hear({ kind: 'message', parcel: message(0), state: 'sent' })
    const [, first] = await read(stream(live, LONG, 'x'), 2)
    for (let n = 1; n < 400; n++) live.hear({ kind: 'message', parcel: message(n), state: 'sent' })
    expect((await read(stream(live, LONG, first!.id), 2))[1]!.event).toBe('missed')
  })

  it('gives a sign of life while nothing happens, and ends in time', async () => {
    const events = await read(stream(liveFeed(), { heartbeatMs: 10, longestMs: 80 }), 1000)
    expect(events.filter(({ comment }) => comment).length).toBeGreaterThan(2)
    expect(events.length).toBeLessThan(1000)
  })

  it('ends at once when the service stops, and then the server can close', async () => {
    const live = liveFeed()
    const response = await (await site(live))()
    const ended = read(response, 1000)
    live.close()
    expect((await ended).length).toBe(1)
  })

  it('is dropped by a listener that takes nothing, and costs a bounded number of events', () => {
    const live = liveFeed()
    let ended = false
    let held = 0
    live.listen(
      () => ++held < 10,
      undefined,
      () => {
        ended = true
      },
    )
    for (let n = 0; n < 50; n++) live.hear({ kind: 'told' })
    expect([ended, held]).toEqual([true, 10])
    const slow = stream(live, LONG)
    for (let n = 0; n < 500; n++) live.hear({ kind: 'told' })
    return read(slow, 1000).then((events) => expect(events.length).toBeLessThanOrEqual(64))
  })

  it('is refused when too many listen, until one leaves', async () => {
    const live = liveFeed()
    const leaves = Array.from({ length: 200 }, () =>
      live.listen(
        () => true,
        undefined,
        () => {},
      ),
    )
    expect(leaves.every((leave) => leave !== undefined)).toBe(true)
    const ask = await site(live)
    expect((await ask()).status).toBe(429)
    leaves[0]!()
    const response = await ask()
    expect(response.status).toBe(200)
    await response.body!.cancel()
  })

  it('forgets a listener that went away', async () => {
    const live = liveFeed()
    const ask = await site(live)
    for (let n = 0; n < 210; n++) {
      const response = await ask()
      expect(response.status).toBe(200)
      await response.body!.cancel()
    }
  })
})

describe('the mark of a plan', () => {
  it('is the same for the same plan and another for another', async () => {
    const { day } = made
    expect(planMark({ ...made })).toBe(planMark(made))
    const later = day!.plan.runs.map((run) => ({ ...run, startEpochH: run.startEpochH + 1 }))
    expect(planMark({ ...made, day: { ...day!, plan: { ...day!.plan, runs: later } } })).not.toBe(planMark(made))
    expect(planMark({ ...made, day: undefined })).not.toBe(planMark(made))
  })
})
