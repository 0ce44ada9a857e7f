/** The farm file as it was understood, for whoever shows it. */

export interface FarmSettings {
  /** In plain text, as `npm run check` prints it. */
  readonly understood: string
  /** The same, line by line. */
  readonly lines: readonly UnderstoodSetting[]
  /** Faults that do not keep it from being used, one a line. */
  readonly warnings: readonly string[]
  /** Reads the file again. */
  readonly fileNow: () => Promise<FileNow>
}

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
