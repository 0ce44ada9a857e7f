import { gzipSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { SourceUnreachable, SourceUnreadable } from '#app/failures.ts'
import { failureOf, json, set } from '#tests/edges/http/support/answers.ts'

describe('bodies that are no answer', () => {
  const html = '<!DOCTYPE html>\n<html><head><title>Sign in\n to the network</title></head></html>'
  it.each<[string, string, RegExp]>([
    ['empty', '', /is empty/],
    ['blank', '  \n', /is empty/],
    ['a web page', html, /a web page \("Sign in\s+to the network"\)/],
    ['XML', '<?xml version="1.0"?><alert/>', /is a web page, not data/],
    ['cut off', '{"properties":{"periods":[{"number":1,', /cut off after 38 characters/],
    ['bare nan', '{"latitude":nan,"longitude":nan}', /"nan" where a number should be/],
    ['bare infinity', '{"a":[1,-Infinity]}', /"nan" where a number should be/],
    ['plain words', 'Service busy', /cut off|not valid JSON/],
    ['two bodies', '{}{}', /not valid JSON/],
  ])('%s', async (_, text, what) => {
    const { ask } = await set(json(text))
    const failure = await failureOf(ask())
    expect(failure).toBeInstanceOf(SourceUnreadable)
    expect(failure.message).toMatch(what)
    expect(failure.message).toContain('127.0.0.1')
    expect(failure.message).toContain('asked again')
  })

  it.each([
    ['damaged gzip', Buffer.from('not gzip at all'), 'gzip', /damaged or cut off/],
    ['cut-off gzip', gzipSync('{"a":1}').subarray(0, 20), 'gzip', /damaged or cut off/],
    ['an unknown packing', Buffer.from('{}'), 'compress', /unknown way, "compress"/],
    ['a small body that unpacks to a huge one', gzipSync(Buffer.alloc(300_000, 32)), 'gzip', /longer than the 0.1 MB/],
  ])('%s', async (_, bytes, encoding, what) => {
    const { ask } = await set(
      (_request, response) => {
        response.writeHead(200, { 'content-encoding': encoding }).end(bytes)
      },
      { maxBytes: 100_000 },
    )
    const failure = await failureOf(ask())
    expect(failure).toBeInstanceOf(SourceUnreadable)
    expect(failure.message).toMatch(what)
  })

  it('of 200 MB, refused after a few', async () => {
    let sent = 0
    const chunk = Buffer.alloc(262_144, '[')
    const { ask } = await set((_, response) => {
      response.writeHead(200)
      const pour = () => {
        while (sent < 200_000_000 && !response.destroyed) {
          sent += chunk.length
          if (!response.write(chunk)) return response.once('drain', pour)
        }
        return response.end()
      }
      pour()
    })
    const failure = await failureOf(ask())
    expect(failure.message).toContain('longer than the 8 MB')
    expect(sent).toBeLessThan(40_000_000)
  })

  it.each([
    ['too long', { maxBytes: 1_000_000, retries: 0 }, /longer than the 1 MB/],
    ['too slow', { totalMs: 100, retries: 0 }, /longer than 0.1 s in all/],
  ])('of no announced length that end with the connection, %s', async (_, limits, what) => {
    const { ask } = await set((_request, response) => {
      response.removeHeader('transfer-encoding')
      response.useChunkedEncodingByDefault = false
      response.writeHead(200, { connection: 'close' })
      const timer = setInterval(() => response.write(' '.repeat(100_000)), 5)
      response.on('close', () => clearInterval(timer))
    }, limits)
    expect((await failureOf(ask())).message).toMatch(what)
  })

  it('that stop half way or trickle without end', async () => {
    const stalled = await set(
      (_, response) => {
        response.writeHead(200).write('{"a":')
      },
      { bodyMs: 200, retries: 0 },
    )
    expect((await failureOf(stalled.ask())).message).toMatch(/stopped for more than 0.2 s/)
    const trickle = await set(
      (_, response) => {
        response.writeHead(200)
        const timer = setInterval(() => response.write(' '), 20)
        response.on('close', () => clearInterval(timer))
      },
      { totalMs: 400 },
    )
    const failure = await failureOf(trickle.ask())
    expect(failure).toBeInstanceOf(SourceUnreachable)
    expect(failure.message).toContain('longer than 0.4 s in all')
    expect(failure.facts).toEqual({ kind: 'unreachable', silence: { why: 'slow', afterS: 0.4 } })
  })

  it('never start', async () => {
    const { ask } = await set(() => undefined, { headersMs: 200, retries: 0 })
    expect((await failureOf(ask())).message).toContain('did not start to answer within 0.2 s')
  })

  it('shorter than announced', async () => {
    const { server, ask } = await set((_, response) => {
      response.writeHead(200, { 'content-length': '100' })
      response.write('{"a":1}', () => response.destroy())
    })
    expect(await failureOf(ask())).toBeInstanceOf(SourceUnreachable)
    expect(server.asked).toHaveLength(3)
  })
})
