/**
 * The 7-bit alphabet of text messages: 160 characters in one, 3GPP TS 23.038, 6.2.1 (default alphabet and its extension,
 * whose characters count twice).
 */
const BASIC =
  '@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !"#¤%&\'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà'
const EXTENSION = '^{}\\[~]|€\f'

/** What stands for a character that the alphabet lacks and that has no plain letter under its accent. */
const STAND_INS: Readonly<Record<string, string>> = {
  '‘': "'",
  '’': "'",
  '“': '"',
  '”': '"',
  '–': '-',
  '—': '-',
  '…': '...',
  '·': '-',
  '°': ' deg',
  '\u00a0': ' ',
  '\u202f': ' ',
  '\t': ' ',
  ł: 'l',
  Ł: 'L',
  đ: 'd',
  œ: 'oe',
  Œ: 'OE',
}

export const SEPTETS_IN_ONE = 160

/** @returns the text in characters of the alphabet; an accent it lacks is dropped, what is left over becomes `?`. */
export function toGsm7(text: string): string {
  return Array.from(text.normalize('NFC'), (character) => {
    if (BASIC.includes(character) || EXTENSION.includes(character)) return character
    const standIn = STAND_INS[character] ?? character.normalize('NFD').replace(/\p{M}/gu, '')
    return standIn !== '' && Array.from(standIn).every((plain) => BASIC.includes(plain)) ? standIn : '?'
  }).join('')
}

/** @returns length as sent, in septets; NaN for text that is not in the alphabet. */
export function septets(text: string): number {
  let count = 0
  for (const character of text) count += BASIC.includes(character) ? 1 : EXTENSION.includes(character) ? 2 : Number.NaN
  return count
}
