/** Whom weather that was put together is owed to. */
import type { Provenance } from '#core/units/weather.ts'

/** @returns each text once, in the order given; empty ones are left out. */
export const distinct = (texts: readonly string[]): string[] => [...new Set(texts)].filter((text) => text !== '')

/** @returns the credit and licence that each of them asks for. */
export const creditOf = (all: readonly Provenance[]): Pick<Provenance, 'attribution' | 'licence'> => ({
  attribution: distinct(all.map(({ attribution }) => attribution)).join('; '),
  licence: distinct(all.map(({ licence }) => licence)).join('; '),
})
