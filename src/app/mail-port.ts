/** A letter as the outbox keeps it: all that a mail server is handed, save who sends it. */
export interface Letter {
  readonly to: { readonly name: string; readonly address: string }
  readonly subject: string
  readonly text: string
  readonly html: string
  /** Where one click, without a login, ends these letters. */
  readonly unsubscribeUrl?: string
  /** Pictures that the HTML names by `cid:`. */
  readonly pictures?: readonly Picture[]
}

export interface Picture {
  readonly cid: string
  readonly mediaType: 'image/png'
  readonly base64: string
}
