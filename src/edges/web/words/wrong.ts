/** What is wrong with what was typed or chosen in a form, and what would be right. */
import type { Language } from '#core/operation/farm.ts'

export interface WrongWords {
  readonly number: string
  readonly most: (most: number) => string
  readonly count: (least: number, most: number) => string
  readonly name: string
  readonly crops: string
  readonly time: string
  readonly choice: string
  /** Characters. */
  readonly long: (most: number) => string
}

export const WRONG: { readonly [L in Language]: WrongWords } = {
  en: {
    number: 'Write a number above 0, like 12.5.',
    most: (most) => `Write a number above 0, at most ${most.toLocaleString('en-US')}.`,
    count: (least, most) => `Write a whole number, ${least} to ${most}.`,
    name: 'A name needs a letter or a digit, and has at most 100 characters.',
    crops: 'Tick at least one crop.',
    time: 'Write a time of the day like 07:30.',
    choice: 'Choose one of those that are there.',
    long: (most) => `At most ${most} characters.`,
  },
  es: {
    number: 'Escriba un número mayor que 0, como 12.5.',
    most: (most) => `Escriba un número mayor que 0, a lo más ${most.toLocaleString('es-US')}.`,
    count: (least, most) => `Escriba un número entero, de ${least} a ${most}.`,
    name: 'A un nombre no le puede faltar una letra o una cifra, y tiene a lo más 100 caracteres.',
    crops: 'Marque al menos uno.',
    time: 'Escriba una hora del día, como 07:30.',
    choice: 'Elija entre lo que hay.',
    long: (most) => `A lo más ${most} caracteres.`,
  },
}
