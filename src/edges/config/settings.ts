/** The farm file as the page of settings shows it: what was understood, on which line it stands, what is wrong with it by now. */
import type { Farm } from '#core/operation/farm.ts'
import { describeFarm, understoodLines } from './describe.ts'
import { FarmFileError, faultText } from './faults.ts'
import { loadFarm, type ReadFarm } from './load.ts'

export interface UnderstoodSetting {
  readonly text: string
  /** Steps that it is indented by. */
  readonly depth: number
  /** Line of the file, from 1; absent where it stands on none of its own. */
  readonly line?: number
}

/** The file on disk against the one that was read at the start. */
export type FileNow =
  | { readonly kind: 'same' }
  | { readonly kind: 'changed'; readonly warnings: readonly string[] }
  /** As the loader says it, one fault a line. */
  | { readonly kind: 'faulty'; readonly faults: readonly string[] }

export interface FarmSettings {
  readonly understood: string
  readonly lines: readonly UnderstoodSetting[]
  readonly warnings: readonly string[]
  /** Reads the file again. */
  readonly fileNow: () => Promise<FileNow>
}

const INDENT = 2

/** @param path of the file, to look at it again. */
export function settingsOf({ farm, warnings, lineOf }: ReadFarm, path: string): FarmSettings {
  return {
    understood: describeFarm(farm),
    lines: understoodLines(farm).map(({ text, path: place }) => {
      const bare = text.trimStart()
      const line = place && lineOf(place)
      return { text: bare, depth: (text.length - bare.length) / INDENT, ...(line !== undefined && { line }) }
    }),
    warnings: warnings.map(faultText),
    fileNow: () => fileNow(path, farm),
  }
}

async function fileNow(path: string, atStart: Farm): Promise<FileNow> {
  try {
    const { farm, warnings } = await loadFarm(path)
    if (JSON.stringify(farm) === JSON.stringify(atStart)) return { kind: 'same' }
    return { kind: 'changed', warnings: warnings.map(faultText) }
  } catch (failure) {
    if (!(failure instanceof FarmFileError)) throw failure
    return { kind: 'faulty', faults: failure.faults.map(faultText) }
  }
}
