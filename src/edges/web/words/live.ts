/** Words of a page that is no longer the newest. */
import type { Language } from '#core/operation/farm.ts'

export interface LiveWords {
  readonly making: string
  readonly look: string
  readonly newer: string
  readonly show: string
}

export const LIVE: { readonly [L in Language]: LiveWords } = {
  en: {
    making: 'Something was told since; a newer plan is being made.',
    look: 'Look again',
    newer: 'There is a newer plan.',
    show: 'Show it',
  },
  es: {
    making: 'Hay datos nuevos; se está haciendo otro plan.',
    look: 'Mirar otra vez',
    newer: 'Hay un plan más nuevo.',
    show: 'Verlo',
  },
}
