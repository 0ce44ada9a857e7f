/** What the outside must supply so that a message reaches a person. */
export interface Letter {
  readonly to: { readonly name: string; readonly address: string }
  readonly subject: string
  readonly text: string
  readonly html: string
  /** The same message keeps its id however often it is tried, so that a mail reader shows it once. */
  readonly messageId: string
}

export interface Mailer {
  /** Resolves when the server has taken it. */
  send(letter: Letter): Promise<void>
  close(): void
}
