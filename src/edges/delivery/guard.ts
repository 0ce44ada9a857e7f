/**
 * Addresses that others gave us are asked only where they lie in the open network: https, port 443, no address of this
 * machine, this house or of no place at all, whatever a name resolves to at the moment of asking. No redirect is followed.
 */
import { lookup as lookUp } from 'node:dns'
import { BlockList, isIP, type LookupFunction } from 'node:net'
import { Agent, type Dispatcher } from 'undici'

/** IANA special-purpose address registries (RFC 6890 and updates), what is not globally reachable; and multicast. */
const CLOSED_V4 = [
  ['0.0.0.0', 8],
  ['10.0.0.0', 8],
  ['100.64.0.0', 10],
  ['127.0.0.0', 8],
  ['169.254.0.0', 16],
  ['172.16.0.0', 12],
  ['192.0.0.0', 24],
  ['192.0.2.0', 24],
  ['192.88.99.0', 24],
  ['192.168.0.0', 16],
  ['198.18.0.0', 15],
  ['198.51.100.0', 24],
  ['203.0.113.0', 24],
  ['224.0.0.0', 4],
  ['240.0.0.0', 4],
] as const
const CLOSED_V6 = [
  ['::', 96],
  ['::ffff:0:0', 96],
  ['64:ff9b::', 96],
  ['64:ff9b:1::', 48],
  ['100::', 64],
  ['2001::', 23],
  ['2001:db8::', 32],
  ['2002::', 16],
  ['3fff::', 20],
  ['5f00::', 16],
  ['fc00::', 7],
  ['fe80::', 10],
  ['fec0::', 10],
  ['ff00::', 8],
] as const

// Two lists: in one, every IPv4 address would be found under its mapped form.
const closedV4 = new BlockList()
const closedV6 = new BlockList()
for (const [net, prefix] of CLOSED_V4) closedV4.addSubnet(net, prefix, 'ipv4')
for (const [net, prefix] of CLOSED_V6) closedV6.addSubnet(net, prefix, 'ipv6')

export const isOpenAddress = (address: string): boolean => {
  const family = isIP(address)
  if (family === 0) return false
  return family === 4 ? !closedV4.check(address, 'ipv4') : !closedV6.check(address, 'ipv6')
}

/** @returns why this address may not be asked, or undefined when it may. A name is looked at when it is resolved. */
export function faultOfTarget(text: string): string | undefined {
  if (!URL.canParse(text)) return 'not a web address'
  const { protocol, hostname, port, username, password } = new URL(text)
  if (protocol !== 'https:') return 'only https is asked'
  if (port !== '') return 'only port 443 is asked'
  if (username || password) return 'no name and password may stand in it'
  const literal = hostname.replace(/^\[|\]$/g, '')
  if (isIP(literal) !== 0 && !isOpenAddress(literal)) return 'not in the open network'
  return undefined
}

export class ClosedAddressError extends Error {
  constructor(hostname: string) {
    super(`${hostname} does not lie in the open network`)
    this.name = 'ClosedAddressError'
  }
}

/** Resolves a name and refuses it when any of its addresses is closed: one of several may be the trap. */
export const openLookup =
  (resolve: typeof lookUp = lookUp): LookupFunction =>
  (hostname, options, done) => {
    resolve(hostname, { ...options, all: true }, (failure, addresses) => {
      if (failure) return done(failure, [])
      if (addresses.length === 0 || addresses.some(({ address }) => !isOpenAddress(address))) {
        return done(new ClosedAddressError(hostname), [])
      }
      const [first] = addresses
      if (options.all) return done(null, addresses)
      return done(null, first!.address, first!.family)
    })
  }

const CONNECT_MS = 10_000

export const openNetwork = (): Dispatcher => new Agent({ connect: { lookup: openLookup(), timeout: CONNECT_MS } })
