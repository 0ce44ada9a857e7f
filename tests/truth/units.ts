/**
 * Factors between US customary units and SI. Typed 2026-11-25.
 *
 * International yard 0.9144 m and pound 0.45359237 kg: agreement of 1 July 1959 (Federal Register doc. 59-5442).
 * Bushel 2,150.42 cubic inches, acre 43,560 square feet: NIST Handbook 44, appendix C, section 4. An almanac's appendix
 * on weights and measures prints the products (confirmed 2026-11-25: acre 0.40468564224 ha by international feet).
 */
const M_PER_YARD = 0.9144
const IN_PER_YARD = 36

export const DEFINED = {
  mPerFt: M_PER_YARD / 3,
  kmPerMi: (1760 * M_PER_YARD) / 1000,
  mmPerIn: (1000 * M_PER_YARD) / IN_PER_YARD,
  kgPerLb: 0.45359237,
  haPerAcre: (43_560 * (M_PER_YARD / 3) ** 2) / 10_000,
  msPerMph: (1760 * M_PER_YARD) / 3600,
  litresPerBushel: 2150.42 * (M_PER_YARD / IN_PER_YARD) ** 3 * 1000,
} as const

/** As printed: the almanac (acre in ha, confirmed); Handbook 44 (bushel in L, mph by its mile; from memory). */
export const PRINTED = {
  haPerAcre: 0.40468564224,
  litresPerBushel: 35.23907,
  msPerMph: 0.44704,
  kmPerMi: 1.609344,
} as const

/** Fixed points: ice and steam on both scales, and the one reading on which both agree. */
export const FIXED_POINTS = [
  { tempC: 0, tempF: 32 },
  { tempC: 100, tempF: 212 },
  { tempC: -40, tempF: -40 },
  { tempC: 37, tempF: 98.6 },
] as const

/** Fowler, Noll & Vo, FNV-1a of 32 bits: test vectors of the authors' page and of the IETF draft (from memory). */
export const FNV1A_32 = [
  { text: '', hash: 0x811c9dc5 },
  { text: 'a', hash: 0xe40c292c },
  { text: 'foobar', hash: 0xbf9cf968 },
] as const
