/** A real SMTP server on a free port of this machine that keeps what it takes and answers as it is told. */
import { once } from 'node:events'
import type { AddressInfo } from 'node:net'
import { type ParsedMail, simpleParser } from 'mailparser'
import { SMTPServer, type SMTPServerOptions } from 'smtp-server'

export interface TakenMail {
  readonly raw: Buffer
  readonly mail: ParsedMail
}

export interface MailServer {
  readonly url: string
  readonly taken: readonly TakenMail[]
  readonly connections: () => number
  close(): Promise<void>
}

export interface Manners {
  /** Code to answer at the recipient, or 0 to take him. */
  readonly atRecipient?: (address: string) => number
  /** Code to answer once the letter is in, or 0 to take it. */
  readonly atLetter?: () => number
  readonly login?: boolean
}

export async function mailServer(manners: Manners = {}): Promise<MailServer> {
  const taken: TakenMail[] = []
  let connections = 0
  const refuse = (code: number) => Object.assign(new Error(`refused with ${code}`), { responseCode: code })
  const options: SMTPServerOptions = {
    authOptional: !manners.login,
    disabledCommands: ['STARTTLS'],
    logger: false,
    onConnect: (_, done) => {
      connections++
      done()
    },
    onAuth: (_, __, done) => done(refuse(535)),
    onRcptTo: ({ address }, _, done) => {
      const code = manners.atRecipient?.(address) ?? 0
      done(code ? refuse(code) : undefined)
    },
    onData: (stream, _, done) => {
      const parts: Buffer[] = []
      stream.on('data', (part: Buffer) => parts.push(part))
      stream.on('end', () => {
        const code = manners.atLetter?.() ?? 0
        if (code) return done(refuse(code))
        const raw = Buffer.concat(parts)
        void simpleParser(raw).then((mail) => {
          taken.push({ raw, mail })
          done()
        })
      })
    },
  }
  const server = new SMTPServer(options)
  server.on('error', () => undefined)
  const listening = server.listen(0, '127.0.0.1')
  await once(listening, 'listening')
  const { port } = listening.address() as AddressInfo
  return {
    url: `smtp://127.0.0.1:${port}`,
    taken,
    connections: () => connections,
    close: () => new Promise((done) => server.close(() => done())),
  }
}
