import { describe, expect, it } from 'vitest'
import type { Carried } from '#app/outbox.ts'
import type { KeptParcel } from '#app/outbox-port.ts'
import { readCommand } from '#edges/cli/arguments.ts'
import { printHello } from '#edges/cli/hello.ts'

const faultOf = (...words: string[]) => {
  const command = readCommand(['hello', ...words])
  return command.name === 'help' ? command.fault : undefined
}
const NOTHING: Carried = { sent: [], postponed: [], dead: [], lapsed: [] }
const parcel = (channel: KeptParcel['channel'], target: string) => ({ channel, target }) as KeptParcel

describe('what is understood', () => {
  it('is to whom and by which way, all when left out', () => {
    expect(readCommand(['hello'])).toEqual({ name: 'hello', farm: undefined, to: undefined, by: undefined })
    expect(readCommand(['hello', '--to', 'Wim Tallow', '--by=push', '--farm', 'f.yaml'])).toEqual({
      name: 'hello',
      farm: 'f.yaml',
      to: 'Wim Tallow',
      by: 'push',
    })
  })

  it('is no way there is not, and no person behind a webhook', () => {
    expect(faultOf('--by', 'pigeon')).toContain('mail, push, webhook')
    expect(faultOf('--by', 'webhook', '--to', 'wim')).toContain('leave --to out')
    expect(faultOf('--whom', 'wim')).toBeDefined()
  })
})

describe('what is printed', () => {
  it('is what the other side said to each', () => {
    const carried = {
      ...NOTHING,
      sent: [parcel('mail', 'wim@example.org')],
      postponed: [{ parcel: parcel('push', 'https://push.example.org/a'), reason: 'answered 500' }],
      dead: [{ parcel: parcel('webhook', 'https://example.org/h'), reason: 'not in the open network' }],
    }
    expect(printHello(carried).split('\n')).toEqual([
      'mail to wim@example.org: taken',
      'push to https://push.example.org/a: failed, answered 500',
      'webhook to https://example.org/h: failed, not in the open network',
      '',
    ])
  })

  it('is that nobody is reached, where nobody is', () => {
    expect(printHello(NOTHING)).toContain('Nobody is reached')
  })
})
