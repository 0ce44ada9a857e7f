/** The farm file as the page of settings shows it: what was understood, on which line it stands, what is wrong with it by now. */
import type { FarmSettings, FileNow } from '#app/settings-port.ts'
import type { Farm } from '#core/operation/farm.ts'
import { describeFarm, understoodLines } from './describe.ts'
import { FarmFileError, faultText } from './faults.ts'
import { loadFarm, type ReadFarm } from './load.ts'

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
