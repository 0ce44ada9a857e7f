/** `hello`: a test message, to see whether messages reach a person or a program. */
import { parseArgs } from 'node:util'
import type { Carried } from '#app/outbox.ts'
import { CHANNELS, type Channel } from '#app/outbox-port.ts'

export interface HelloCommand {
  readonly name: 'hello'
  readonly farm: string | undefined
  /** Id or name of a person; everybody and every program when absent. */
  readonly to: string | undefined
  /** The only way to try; all when absent. */
  readonly by: Channel | undefined
}

export const HELLO_USAGE = `  npm run hello -- [--to PERSON] [--by mail|push|webhook] [--farm FILE]
                                                   a test message at once, and what became of it
`

/** @throws with what is wrong. */
export function readHello(args: readonly string[]): HelloCommand {
  const { values } = parseArgs({
    args: [...args],
    options: { farm: { type: 'string' }, to: { type: 'string' }, by: { type: 'string' } },
  })
  const by = CHANNELS.find((channel) => channel === values.by)
  if (values.by !== undefined && by === undefined) {
    throw new Error(`--by "${values.by}" is none of the ways there are: ${CHANNELS.join(', ')}`)
  }
  if (values.to !== undefined && by === 'webhook') {
    throw new Error('webhooks go to programs, not to a person: leave --to out')
  }
  return { name: 'hello', farm: values.farm, to: values.to, by }
}

/** A line for each message, with what the other side said. */
export function printHello({ sent, postponed, dead }: Carried): string {
  const failed = [...postponed, ...dead]
  const lines = [
    ...sent.map(({ channel, target }) => `${channel} to ${target}: taken`),
    ...failed.map(({ parcel, reason }) => `${parcel.channel} to ${parcel.target}: failed, ${reason}`),
  ]
  return lines.length > 0
    ? `${lines.toSorted().join('\n')}\n`
    : 'Nobody is reached that way: no address in the farm file, no device or program signed up.\n'
}
