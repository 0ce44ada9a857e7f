/** Takes out of a line of the log what must never stand there, whoever let it slip in. */

const HIDDEN = '[hidden]'
/** A shorter secret would take ordinary words out of the log. */
const SHORTEST_SECRET = 4

/** What looks like a secret whatever its value: what comes before it is kept. */
const PATTERNS: readonly RegExp[] = [
  // User and password of an address (RFC 3986, 3.2.1).
  /([a-z][a-z0-9+.-]*:\/\/)[^\s/@"\\]+(?=@)/gi,
  // RFC 6750, 2.1; RFC 7617.
  /(\b(?:bearer|basic)\s+)[\w.~+/=-]{6,}/gi,
  // Links that carry their own right.
  /(\/(?:join|do|calendar|text)\/)[\w.~%-]{6,}/g,
  /([?&](?:api_?key|key|token|secret|password|signature|auth)=)[^\s&"\\]+/gi,
  /(threshday_session=)[^\s;"\\]+/g,
]

/**
 * @param secrets what is known to be secret, as it is set or kept.
 * @returns the same line, with neither these nor what looks like one.
 */
export function scrubber(secrets: readonly string[]): (line: string) => string {
  const forms = new Set(
    secrets
      .filter((secret) => secret.length >= SHORTEST_SECRET)
      .flatMap((secret) => [encodeURIComponent(secret), ...asJson(secret)]),
  )
  // The longest first: one may be a part of another.
  const known = [...forms].sort((a, b) => b.length - a.length)
  return (line) => {
    const unknown = known.reduce((text, secret) => text.replaceAll(secret, HIDDEN), line)
    return PATTERNS.reduce((text, pattern) => text.replace(pattern, `$1${HIDDEN}`), unknown)
  }
}

/** As it is, and as it stands inside JSON, inside JSON in JSON, and once more. */
function asJson(secret: string): string[] {
  const forms = [secret]
  for (let deep = 1; deep <= 3; deep++) forms.push(JSON.stringify(forms.at(-1)).slice(1, -1))
  return forms
}
