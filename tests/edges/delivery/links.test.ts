import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { LinkDeed } from '#app/links.ts'
import { newLinkKey, sealedLinks } from '#edges/delivery/links.ts'

const KEY = newLinkKey()
const links = sealedLinks(KEY, 'https://farm.example/threshday')
const deed: LinkDeed = { deed: 'acknowledge', farmId: 'larkspur', personId: 'bert', alert: 'fire-stop//7' }
const tokenOf = (url: string) =>
  url
    .split('/')
    .at(-1)!
    .replace(/\.ics$/, '')

describe('a link in a message', () => {
  it('gives back its deed, under the public address', () => {
    const url = links.to(deed)!
    expect(url.startsWith('https://farm.example/threshday/do/')).toBe(true)
    expect(links.read(tokenOf(url))).toEqual(deed)
    expect(links.to({ deed: 'calendar', farmId: 'a', personId: 'b' })).toMatch(/\/calendar\/[\w.-]+\.ics$/)
  })
  it('is none without a public address', () => {
    expect(sealedLinks(KEY, undefined).to(deed)).toBeUndefined()
    expect(sealedLinks(KEY, undefined).reachable).toBe(false)
  })
  it('of another key, or changed in any character, is not ours', () => {
    const token = tokenOf(links.to(deed)!)
    expect(sealedLinks(newLinkKey(), 'https://farm.example').read(token)).toBeUndefined()
    fc.assert(
      fc.property(fc.nat(token.length - 1), fc.constantFrom(...'ABCxyz019_-.'), (place, character) => {
        const changed = token.slice(0, place) + character + token.slice(place + 1)
        const read = links.read(changed)
        // The last character of base64 holds bits that count for nothing: the same bytes may be written otherwise.
        return changed === token || read === undefined || JSON.stringify(read) === JSON.stringify(deed)
      }),
    )
  })
  it('that is any text at all does no harm', () => {
    fc.assert(fc.property(fc.string(), (text) => links.read(text) === undefined))
  })
})
