/** Reading the few response headers that matter here. */
export type Headers = { readonly [name: string]: string | string[] | undefined }

export function headerOf(headers: Headers, name: string): string {
  const value = headers[name]
  return (Array.isArray(value) ? value[0] : value) ?? ''
}

/** @returns seconds to wait as asked for (RFC 9110, 10.2.3: seconds or a date); nothing if not asked for or senseless. */
export function retryAfterS(headers: Headers, nowMs: number): number | undefined {
  const value = headerOf(headers, 'retry-after').trim()
  if (/^\d+$/.test(value)) return Number(value)
  const atMs = httpDateMs(value)
  return Number.isNaN(atMs) ? undefined : Math.max(0, Math.ceil((atMs - nowMs) / 1000))
}

/** @returns when the answer expires [ms since the epoch] by max-age, else by Expires (RFC 9111, 4.2.1). */
export function expiresAtMs(headers: Headers, nowMs: number): number | undefined {
  const maxAge = /(?:^|[,\s])max-age="?(\d+)/i.exec(headerOf(headers, 'cache-control'))?.[1]
  if (maxAge !== undefined) {
    const ageS = Number(headerOf(headers, 'age')) || 0
    return nowMs + Math.max(0, Number(maxAge) - ageS) * 1000
  }
  const atMs = httpDateMs(headerOf(headers, 'expires'))
  return Number.isNaN(atMs) ? undefined : atMs
}

/** @returns [ms since the epoch] of an HTTP date such as "Mon, 20 Jul 2020 12:14:53 GMT"; NaN for anything else. */
export function httpDateMs(value: string): number {
  return /^[A-Z][a-z]{2}, \d{2} [A-Z][a-z]{2} \d{4} \d{2}:\d{2}:\d{2} GMT$/.test(value) ? Date.parse(value) : Number.NaN
}
