/**
 * Mail through a server that others wrote: Debian's OpenSMTPD, which hands it on to a mailbox of ours. Skipped, loudly,
 * where it is not installed or may not be started (it asks for root).
 */
import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { type AddressInfo, connect, createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as delay } from 'node:timers/promises'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { farmFileAddresses } from '#app/addresses.ts'
import { noLinks } from '#app/links.ts'
import type { Letter } from '#app/mail-port.ts'
import { postMorning } from '#app/morning.ts'
import { Outbox } from '#app/outbox.ts'
import type { Carrier } from '#app/outbox-port.ts'
import { smtpCarrier } from '#edges/delivery/mail.ts'
import { openPainter } from '#edges/delivery/painter.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { demoDay } from '#tests/app/support/demo.ts'
import { type MailServer, mailServer } from '#tests/edges/delivery/support/mail-server.ts'

const SMTPD = '/usr/sbin/smtpd'
const isThere = existsSync(SMTPD) && process.getuid?.() === 0
if (!isThere) {
  process.stderr.write(
    '\n*** NO DEBIAN MAIL SERVER: mail through OpenSMTPD was NOT tried. Install opensmtpd, as root. ***\n\n',
  )
}

describe.skipIf(!isThere)('mail through OpenSMTPD', () => {
  let mailbox: MailServer
  let daemon: ChildProcess
  let folder: string
  let carrier: Carrier

  beforeAll(async () => {
    mailbox = await mailServer()
    const port = await freePort()
    folder = mkdtempSync(join(tmpdir(), 'threshday-smtpd-'))
    const config = join(folder, 'smtpd.conf')
    const next = mailbox.url.replace('smtp://', 'smtp+notls://')
    writeFileSync(
      config,
      `listen on 127.0.0.1 port ${port}\naction "pass" relay host "${next}"\nmatch from any for any action "pass"\n`,
    )
    daemon = spawn(SMTPD, ['-d', '-f', config], { stdio: 'ignore' })
    await answering(port)
    carrier = smtpCarrier({ url: `smtp://127.0.0.1:${port}`, from: 'Threshday <day@farm.example>' })
  }, 30_000)
  afterAll(async () => {
    carrier?.close()
    if (daemon?.exitCode === null) {
      daemon.kill()
      await once(daemon, 'exit')
    }
    await mailbox?.close()
    if (folder) rmSync(folder, { recursive: true })
  })

  it('brings the morning message whole to everybody: text, HTML, picture, under 100 KB', async () => {
    const made = await demoDay('2010-09-30T05:30-05:00')
    const database = await openAt<DayTables & OutboxTables>(':memory:')
    const store = outboxStore(database)
    const { nowEpochH } = made.day!
    const tools = {
      days: dayStore(database),
      outbox: store,
      addresses: farmFileAddresses,
      links: noLinks,
      paint: await openPainter(),
    }
    const posted = await postMorning(made.farm, made, tools, nowEpochH)
    const outbox = new Outbox({ store, carriers: [carrier], owner: 'test', clock: () => nowEpochH, random: () => 0.5 })
    const { sent, postponed, dead } = await outbox.carryDue()
    expect([sent.length, postponed, dead]).toEqual([posted, [], []])
    await expect.poll(() => mailbox.taken.length, { timeout: 20_000 }).toBe(posted)
    for (const { raw, mail } of mailbox.taken) {
      const to = mail.headers.get('to') as { value: { address: string }[] }
      const kept = sent.find(({ target }) => target === to.value[0]!.address)!
      const letter = JSON.parse(kept.body) as Letter
      expect(mail.subject).toBe(letter.subject)
      expect(mail.text?.trimEnd()).toBe(letter.text.trimEnd())
      expect((mail.html as string).length).toBeGreaterThan(letter.html.length / 2)
      expect(mail.attachments.map(({ contentType, related }) => [contentType, related])).toEqual([['image/png', true]])
      expect(raw.length).toBeLessThan(100_000)
      // The server adds where it came from, and leaves the id alone.
      expect(raw.toString('latin1')).toMatch(/^Received: .*\r\n\s+by .* \(OpenSMTPD\)/m)
      expect(mail.messageId).toBe(`<${kept.key.replaceAll('/', '.')}@farm.example>`)
    }
    process.stdout.write(`Through OpenSMTPD: ${mailbox.taken.map(({ raw }) => raw.length).join(', ')} bytes\n`)
  }, 60_000)
})

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1')
  await once(server, 'listening')
  const { port } = server.address() as AddressInfo
  server.close()
  await once(server, 'close')
  return port
}

async function answering(port: number): Promise<void> {
  for (let tries = 0; tries < 100; tries++) {
    const socket = connect(port, '127.0.0.1')
    const answered = await once(socket, 'data').then(
      () => true,
      () => false,
    )
    socket.destroy()
    if (answered) return
    await delay(100)
  }
  throw new Error('OpenSMTPD did not start')
}
