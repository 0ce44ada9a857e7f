import { generateKeyPairSync } from 'node:crypto'
import { dkimVerify } from 'mailauth/lib/dkim/verify.js'
import { afterEach, describe, expect, it } from 'vitest'
import type { Letter } from '#app/mail-port.ts'
import type { Carrier, KeptParcel } from '#app/outbox-port.ts'
import { renderHtml } from '#core/messages/render-html.ts'
import { renderText } from '#core/messages/render-text.ts'
import { domainOf, type MailSettings, smtpCarrier } from '#edges/delivery/mail.ts'
import { demoDay } from '#tests/app/support/demo.ts'
import { type MailServer, type Manners, mailServer } from '#tests/edges/delivery/support/mail-server.ts'

const FROM = 'Threshday <day@farm.example>'
const LETTER: Letter = {
  to: { name: 'Orla Fenn', address: 'orla@example.org' },
  subject: 'Run Twin Elms, 11:30 to 13:30. Año nuevo',
  text: 'Run Twin Elms.\n.\nA line with a single dot before it.\n',
  html: '<!doctype html><p>Run Twin Elms.</p>',
}

const parcelOf = (letter: Letter, recipient = 'orla-fenn'): KeptParcel => ({
  key: `larkspur/morning/_/2026-09-28/mail/${recipient}`,
  farmId: 'larkspur',
  kind: 'morning',
  subject: '',
  date: '2026-09-28',
  channel: 'mail',
  recipient,
  target: letter.to.address,
  body: JSON.stringify(letter),
  urgent: false,
  createdEpochH: 0,
  closesEpochH: 1,
  state: 'sending',
  attempts: 1,
  nextEpochH: 0,
  touchedEpochH: 0,
  lastReason: '',
  reference: '',
})

describe('mail', () => {
  const open: { close(): unknown }[] = []
  afterEach(async () => {
    for (const thing of open.splice(0)) await thing.close()
  })
  async function setUp(manners: Manners = {}, settings: Partial<MailSettings> = {}) {
    const server = await mailServer(manners)
    const carrier = smtpCarrier({ url: server.url, from: FROM, ...settings })
    open.push(carrier, server)
    return { server, carrier }
  }
  const sendOne = async (carrier: Carrier, server: MailServer, letter = LETTER) => {
    expect(await carrier.carry(parcelOf(letter))).toMatchObject({ kind: 'taken' })
    return server.taken.at(-1)!
  }

  it('arrives whole: text, HTML, subject, sender, recipient', async () => {
    const { server, carrier } = await setUp()
    const { mail } = await sendOne(carrier, server)
    expect(mail.subject).toBe(LETTER.subject)
    expect(mail.text).toBe(LETTER.text)
    expect(mail.html).toBe(LETTER.html)
    expect(mail.from?.value).toEqual([{ name: 'Threshday', address: 'day@farm.example' }])
    expect(mail.headers.get('to')).toMatchObject({ value: [{ name: 'Orla Fenn', address: 'orla@example.org' }] })
  })

  it('carries the day of the demo farm, text and HTML complete, under 100 KB, in lines a mail may have', async () => {
    const { server, carrier } = await setUp()
    const { message } = await demoDay('2010-09-30T05:30-05:00')
    const text = renderText(message)
    const html = renderHtml(message)
    const { mail, raw } = await sendOne(carrier, server, { ...LETTER, text, html })
    expect(mail.text).toBe(text)
    expect((mail.html as string).trimEnd()).toBe(html.trimEnd())
    expect(raw.length).toBeLessThan(100_000)
    // RFC 5322, 2.1.1: at most 998 characters a line, better 78; every line ends with CR and LF.
    const lines = raw.toString('latin1').split('\r\n')
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(998)
    expect(raw.toString('latin1').replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  })

  it('keeps its id at every try, under the domain of the sender', async () => {
    const { server, carrier } = await setUp()
    await sendOne(carrier, server)
    await sendOne(carrier, server)
    const ids = server.taken.map(({ mail }) => mail.messageId)
    expect(ids).toEqual([ids[0], ids[0]])
    // RFC 5322, 3.6.4: "<" dot-atom "@" dot-atom ">".
    const atom = "[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+"
    expect(ids[0]).toMatch(new RegExp(`^<${atom}(\\.${atom})*@farm\\.example>$`))
  })

  it('says that a program wrote it (RFC 3834) and how to end it with one click (RFC 8058)', async () => {
    const { server, carrier } = await setUp()
    const { mail, raw } = await sendOne(carrier, server, { ...LETTER, unsubscribeUrl: 'https://farm.example/u/abc' })
    expect(mail.headers.get('auto-submitted')).toBe('auto-generated')
    const head = raw
      .toString('utf8')
      .split('\r\n\r\n')[0]!
      .replaceAll(/\r\n\s+/g, ' ')
    expect(head).toContain('List-Unsubscribe: <https://farm.example/u/abc>')
    expect(head).toContain('List-Unsubscribe-Post: List-Unsubscribe=One-Click')
    const { raw: plain } = await sendOne(carrier, server, { ...LETTER, unsubscribeUrl: 'http://farm.example/u/abc' })
    expect(plain.toString('utf8')).not.toContain('List-Unsubscribe')
  })

  it('is signed so that another library finds the signature good, the unsubscribe headers under it', async () => {
    const { privateKey, publicKey } = generateKeyPairSync('rsa', { modulusLength: 2048 })
    const key = privateKey.export({ type: 'pkcs8', format: 'pem' }) as string
    const { server, carrier } = await setUp({}, { dkim: { domain: 'farm.example', selector: 's1', privateKey: key } })
    const { raw } = await sendOne(carrier, server, { ...LETTER, unsubscribeUrl: 'https://farm.example/u/abc' })
    const record = `v=DKIM1; k=rsa; p=${publicKey.export({ type: 'spki', format: 'der' }).toString('base64')}`
    const resolver = async (name: string) => (name === 's1._domainkey.farm.example' ? [[record]] : [])
    const good = await dkimVerify(raw, { resolver })
    expect(good.results.map(({ status }) => status.result)).toEqual(['pass'])
    expect(good.results[0]!.signingHeaders?.keys.toLowerCase()).toMatch(/list-unsubscribe.*list-unsubscribe-post/)
    const spoiled = Buffer.from(raw.toString('latin1').replace('Twin Elms.', 'Dry Slough'), 'latin1')
    expect((await dkimVerify(spoiled, { resolver })).results.map(({ status }) => status.result)).not.toContain('pass')
  })

  it('reuses its connections', async () => {
    const { server, carrier } = await setUp()
    for (let i = 0; i < 6; i++) await sendOne(carrier, server)
    expect(server.connections()).toBeLessThanOrEqual(2)
  })

  it('puts a picture beside the HTML that names it', async () => {
    const { server, carrier } = await setUp()
    // The eight bytes that every PNG starts with (W3C PNG, 5.2).
    const base64 = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]).toString('base64')
    const html = '<img src="cid:day" alt="Windows of the day">'
    const { mail } = await sendOne(carrier, server, {
      ...LETTER,
      html,
      pictures: [{ cid: 'day', mediaType: 'image/png', base64 }],
    })
    expect(mail.attachments).toHaveLength(1)
    expect(mail.attachments[0]).toMatchObject({ contentType: 'image/png', cid: 'day', related: true })
  })

  it.each([
    [{ atRecipient: () => 550 }, { kind: 'refused' }],
    [{ atRecipient: () => 450 }, { kind: 'later', wholeChannel: false }],
    [{ atLetter: () => 554 }, { kind: 'refused' }],
    [{ atLetter: () => 451 }, { kind: 'later', wholeChannel: false }],
    [{ atLetter: () => 421 }, { kind: 'later', wholeChannel: true }],
  ] as [Manners, object][])('reads the server that behaves as %o', async (manners, expected) => {
    const { carrier } = await setUp(manners)
    expect(await carrier.carry(parcelOf(LETTER))).toMatchObject(expected)
  })

  it('takes a refused login, or no server at all, for a fault of the whole channel', async () => {
    const { server } = await setUp({ login: true })
    const wrong = smtpCarrier({ url: server.url.replace('//', '//user:wrong@'), from: FROM })
    open.push(wrong)
    expect(await wrong.carry(parcelOf(LETTER))).toMatchObject({ kind: 'later', wholeChannel: true })
    const nobody = smtpCarrier({ url: 'smtp://127.0.0.1:1', from: FROM })
    open.push(nobody)
    expect(await nobody.carry(parcelOf(LETTER))).toMatchObject({ kind: 'later', wholeChannel: true })
  })

  it('does not wait for ever for a server that is silent', async () => {
    const { promise, resolve } = Promise.withResolvers<number>()
    const { createServer } = await import('node:net')
    const silent = createServer(() => undefined)
    silent.listen(0, '127.0.0.1', () => resolve((silent.address() as { port: number }).port))
    const carrier = smtpCarrier({ url: `smtp://127.0.0.1:${await promise}`, from: FROM, wholeMs: 200 })
    open.push(carrier, silent)
    expect(await carrier.carry(parcelOf(LETTER))).toMatchObject({ kind: 'later', reason: 'No answer within 0.2 s' })
  })

  it.each([
    ['Threshday <day@farm.example>', 'farm.example'],
    ['day@farm.example', 'farm.example'],
    ['"a@b" <c@d.example>', 'd.example'],
  ])('finds the domain of %s', (from, domain) => expect(domainOf(from)).toBe(domain))
})
