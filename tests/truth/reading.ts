/**
 * How fast people read. Typed 2026-11-25. Brysbaert 2019, Journal of Memory and Language 109:104047 (confirmed): silent
 * reading of English non-fiction, 238 words a minute on average over 190 studies, most adults 175 to 300.
 */
export const SILENT_WORDS_PER_MIN = { mean: 238, slow: 175, quick: 300 } as const
