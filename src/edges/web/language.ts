/** In which language an asker is answered who may not have signed in. */
import type { Context } from 'hono'
import { parseAccept } from 'hono/utils/accept'
import type { Farm, Language } from '#core/operation/farm.ts'
import type { Who } from './sign-in/guard.ts'

const SPOKEN: ReadonlySet<string> = new Set<Language>(['en', 'es'])
const isSpoken = (tag: string): tag is Language => SPOKEN.has(tag)

/** His own, where he signed in; else the one that his browser likes best of ours (RFC 9110, 12.5.4); else the farm's. */
export function languageOf(context: Context, farm: Pick<Farm, 'language'>): Language {
  // Absent where the request was refused before anybody looked who asks.
  const who: Who | undefined = context.get('who')
  return who?.account?.language ?? liked(context.req.header('accept-language') ?? '') ?? farm.language
}

const liked = (header: string): Language | undefined =>
  parseAccept(header)
    .filter(({ q }) => q > 0)
    .map(({ type }) => type.split('-')[0]!.toLowerCase())
    .find(isSpoken)
