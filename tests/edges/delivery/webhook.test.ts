import { Webhook } from 'standardwebhooks'
import { afterEach, describe, expect, it } from 'vitest'
import { network } from '#edges/delivery/ask.ts'
import { openNetwork } from '#edges/delivery/guard.ts'
import { newSecret, sign, webhookCarrier } from '#edges/delivery/webhook.ts'
import { listener } from '#tests/edges/delivery/support/listener.ts'
import { keptParcel } from '#tests/edges/delivery/support/parcel.ts'

const nowSeconds = () => Temporal.Now.instant().epochMilliseconds / 1000
const BODY = JSON.stringify({ type: 'morning', farm: 'larkspur', text: 'Año' })

describe('a webhook', () => {
  const open: { close(): unknown }[] = []
  afterEach(async () => {
    for (const thing of open.splice(0)) await thing.close()
  })
  async function setUp(answer?: Parameters<typeof listener>[0], secrets: readonly string[] = [newSecret()]) {
    const there = await listener(answer)
    open.push(there)
    const carrier = webhookCarrier({ network: there.network, secretsOf: async () => secrets, nowSeconds })
    const parcel = keptParcel({ channel: 'webhook', recipient: 'screen', target: `${there.url}/hook`, body: BODY })
    return { there, carrier, parcel, secrets }
  }

  it('is signed as the worked example of the specification is', () => {
    // Test vector of the Standard Webhooks reference libraries (from memory; it verifies with the library below too).
    const secret = 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw'
    const signature = sign(secret, 'msg_p5jXN8AQM9LWM0D4loKWxJek', 1_614_265_330, '{"test": 2432232314}')
    expect(signature).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=')
  })

  it('verifies with the reference library, at a later try with the same id', async () => {
    const { there, carrier, parcel, secrets } = await setUp()
    expect(await carrier.carry(parcel)).toMatchObject({ kind: 'taken' })
    await carrier.carry(parcel)
    for (const { body, headers } of there.heard) {
      expect(new Webhook(secrets[0]!).verify(body.toString(), headers as Record<string, string>)).toEqual(
        JSON.parse(BODY),
      )
    }
    expect(there.heard[0]!.headers['webhook-id']).toBe(there.heard[1]!.headers['webhook-id'])
    expect(() => new Webhook(newSecret()).verify(BODY, there.heard[0]!.headers as Record<string, string>)).toThrow()
  })

  it('is signed with the old and the new secret while one is being replaced', async () => {
    const { there, carrier, parcel, secrets } = await setUp(undefined, [newSecret(), newSecret()])
    await carrier.carry(parcel)
    const { body, headers } = there.heard[0]!
    for (const secret of secrets) new Webhook(secret).verify(body.toString(), headers as Record<string, string>)
    expect(String(headers['webhook-signature']).split(' ')).toHaveLength(2)
  })

  it.each([
    [{ status: 204 }, { kind: 'taken' }],
    [{ status: 410 }, { kind: 'gone' }],
    [{ status: 404 }, { kind: 'later' }],
    [{ status: 500 }, { kind: 'later', wholeChannel: false }],
    [
      { status: 429, headers: { 'retry-after': '120' } },
      { kind: 'later', waitH: 120 / 3600 },
    ],
    [
      { status: 503, headers: { 'retry-after': '99999999' } },
      { kind: 'later', waitH: 6 },
    ],
    [{ status: 302, headers: { location: 'http://127.0.0.1/' } }, { kind: 'later' }],
  ])('reads %j as %j', async (answer, expected) => {
    const { there, carrier, parcel } = await setUp(answer)
    expect(await carrier.carry(parcel)).toMatchObject(expected)
    expect(there.heard).toHaveLength(1)
  })

  it('never asks this machine or house, by number or by name', async () => {
    const there = await listener()
    open.push(there)
    const carrier = webhookCarrier({
      network: network(openNetwork()),
      secretsOf: async () => [newSecret()],
      nowSeconds,
    })
    open.push(carrier)
    for (const target of [there.url, 'https://127.0.0.1/hook', 'https://localhost/hook', 'https://[::1]/']) {
      expect(await carrier.carry(keptParcel({ target, body: BODY }))).toMatchObject({ kind: 'refused' })
    }
    expect(there.heard).toHaveLength(0)
  })

  it('without a secret is not sent', async () => {
    const { carrier, parcel, there } = await setUp(undefined, [])
    expect(await carrier.carry(parcel)).toMatchObject({ kind: 'refused' })
    expect(there.heard).toHaveLength(0)
  })
})
