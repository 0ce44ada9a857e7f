/** Bodies kept as JSON. */

/** @returns what was kept: NaN is "not known" and has no JSON, so null stands for it and becomes it again. */
export const withUnknown = <T>(body: string): T =>
  JSON.parse(body, (_, value) => (value === null ? Number.NaN : value)) as T
