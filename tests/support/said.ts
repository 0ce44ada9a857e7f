/** What may stand in a message: each number with its unit, and none of the signs of a number gone wrong. */

/** Ways in which a message tells a number, each whole with its unit; clock times and dates are told as such. */
const TOLD = [
  /\b\d{1,2}:\d{2}\b/g,
  /\b(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) \d{1,2}\b/g,
  /\b\d{1,2} in 10\b/g,
  /-?\b\d[\d,]*(?:\.\d+)?%/g,
  /\b[\d,.]+ of [\d,.]+ (?:acres|ha)\b/g,
  /\b[\d,.]+(?:-[\d,.]+)? (?:acres?|ha|bu|t|mph|km\/h|ft|m|in|mm|h|minutes)\b/g,
  /\b\d+ (?:combines?|truckloads?|carts?|trucks?|courses)\b/g,
  // "you have 2 and 6": carts and trucks, named just before.
  /\byou have \d+ and \d+\b/g,
]

/** @returns the numbers of a text that carry no unit. */
export function bareNumbers(text: string): string[] {
  const rest = TOLD.reduce((left, pattern) => left.replace(pattern, ''), text)
  return rest.match(/\S*\d\S*/g) ?? []
}

/** @returns signs of a number gone wrong: what JavaScript writes for what is not known or not there. */
export function wrongSigns(text: string): string[] {
  return text.match(/NaN|undefined|null|Infinity|∞|\[object|-0\b|Invalid/g) ?? []
}

export const countWords = (text: string): number =>
  text.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length
