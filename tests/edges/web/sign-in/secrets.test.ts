import { describe, expect, it } from 'vitest'
import { machineSecrets } from '#edges/web/sign-in/secrets.ts'

/**
 * Encoded hashes of the Argon2 reference implementation, its own tests (src/test.c, version 19, Argon2id), typed from
 * memory on 2026-11-25: a 256-bit tag that the machine's own Argon2 confirms was not remembered wrong.
 */
const REFERENCE = [
  {
    password: 'password',
    hash: '$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc',
  },
]

describe('passwords', () => {
  it('are checked as the reference implementation of Argon2id does', async () => {
    for (const { password, hash } of REFERENCE) {
      expect(await machineSecrets().verify(password, hash)).toBe(true)
      expect(await machineSecrets().verify(`${password}.`, hash)).toBe(false)
    }
  })

  it('are hashed with at least the cost that OWASP asks for, and never alike', async () => {
    const secrets = machineSecrets()
    const [one, two] = await Promise.all([secrets.hash('four words of mine'), secrets.hash('four words of mine')])
    // OWASP Password Storage Cheat Sheet: Argon2id, m = 19456 KiB (19 MiB), t = 2, p = 1.
    expect(one).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$[\w+/]{22}\$[\w+/]{43}$/)
    expect(one).not.toBe(two)
    expect(await secrets.verify('four words of mine', one)).toBe(true)
    expect(await secrets.verify('four words of mine ', one)).toBe(false)
  })

  it('typed with composed or split letters are the same', async () => {
    const secrets = machineSecrets()
    expect(
      await secrets.verify('caf\u0065\u0301 caf\u0065\u0301 café', await secrets.hash('café café caf\u00e9')),
    ).toBe(true)
  })

  it('are refused, not thrown at, when what is kept is no hash', async () => {
    expect(await machineSecrets().verify('x', '')).toBe(false)
    expect(await machineSecrets().verify('x', '$2b$10$abcdefghijklmnopqrstuv')).toBe(false)
  })
})

describe('tokens', () => {
  it('hold 256 bits and never come twice', () => {
    const { token } = machineSecrets()
    const made = new Set(Array.from({ length: 1000 }, token))
    expect(made.size).toBe(1000)
    for (const each of made) expect(Buffer.from(each, 'base64url')).toHaveLength(32)
  })
})
