/** A line of the log as a person at a terminal reads it. */

/** What the text says already, or what only programs ask for. */
const LEFT_OUT: ReadonlySet<string> = new Set(['level', 'time', 'text', 'stack', 'event'])

/** @param json one line of the log as JSON. */
export function textOf(json: string): string {
  const facts = JSON.parse(json) as Record<string, unknown>
  const { level, time, text, stack } = facts
  const rest = Object.entries(facts)
    .filter(([name]) => !LEFT_OUT.has(name))
    .map(([name, value]) => `${name}=${printed(value)}`)
  const head = [String(time).slice(11, 19), level === 'info' ? '' : String(level).toUpperCase(), oneLine(String(text))]
  const line = [...head.filter((part) => part !== ''), ...rest].join(' ')
  return typeof stack === 'string' ? `${line}\n${stack}\n` : `${line}\n`
}

const printed = (value: unknown): string => {
  const text = String(value)
  return /^[\w./:@-]+$/.test(text) ? text : JSON.stringify(text)
}

/** What came from outside must not look like a line of its own. */
const oneLine = (text: string): string => text.replaceAll(/\p{Cc}+/gu, ' ')
