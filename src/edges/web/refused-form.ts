/** A form that was not taken, shown again: every value as it was typed, and each reason beside its input. */
import { html } from 'hono/html'
import type { Markup } from './layout.ts'

/** A body as `parseBody` reads it with `all`. */
export type Sent = Readonly<Record<string, string | File | (string | File)[]>>

export interface Reason {
  readonly text: string
  /** Names of the inputs it is about; none = the form as a whole. */
  readonly inputs: readonly string[]
}

export interface RefusedForm {
  readonly sent: Sent
  readonly reasons: readonly Reason[]
}

/** What the inputs of a form show: what is known until something was typed and refused. One refused form a page. */
export interface Typed {
  readonly text: (input: string, known: string) => string
  readonly all: (input: string, known: readonly string[]) => readonly string[]
  /** Attributes of an input that is wrong. @param isFirst of several inputs of the name. */
  readonly marks: (input: string, isFirst?: boolean) => Markup | ''
  /** An input, its label around it, with the reason after it. */
  readonly asked: (input: string, label: Markup) => Markup
  /** What is wrong with the form as a whole. */
  readonly whole: () => Markup | ''
}

const WHOLE = 'form'
export const idOfReason = ({ inputs: [first = WHOLE] }: Reason): string => `why-${first}`

export function typedIn(refused: RefusedForm | undefined): Typed {
  const sentAs = (input: string): string[] =>
    [refused?.sent[input] ?? []].flat().filter((one) => typeof one === 'string')
  const about = (input: string) => refused?.reasons.find(({ inputs }) => inputs.includes(input))
  const isOpenedAt = (reason: Reason) => reason === refused?.reasons[0]
  return {
    text: (input, known) => (refused ? (sentAs(input)[0] ?? '') : known),
    all: (input, known) => (refused ? sentAs(input) : known),
    marks: (input, isFirst = true) => {
      const reason = about(input)
      if (!reason) return ''
      const opens = isFirst && isOpenedAt(reason) && reason.inputs[0] === input
      return html` aria-invalid="true" aria-describedby="${idOfReason(reason)}"${opens ? html` autofocus` : ''}`
    },
    asked: (input, label) => {
      const reason = about(input)
      if (reason?.inputs[0] !== input) return label
      return html`<div class="asked">${label}<p class="why" id="${idOfReason(reason)}">${reason.text}</p></div>`
    },
    whole: () => {
      const reason = refused?.reasons.find(({ inputs }) => inputs.length === 0)
      if (!reason) return ''
      return html`<p class="why" id="${idOfReason(reason)}" tabindex="-1"${isOpenedAt(reason) ? html` autofocus` : ''}>${reason.text}</p>`
    },
  }
}

/** Over the page: every reason, and the way to the place where the first stands, where its form is on the page. */
export function refusedNote({ reasons }: RefusedForm, toForm: string | undefined): Markup {
  const [first] = reasons
  return html`<p class="alarm" role="alert" data-said>${[...new Set(reasons.map(({ text }) => text))].join(' ')}${
    first && toForm ? html` <a href="#${idOfReason(first)}">${toForm}</a>` : ''
  }</p>`
}
