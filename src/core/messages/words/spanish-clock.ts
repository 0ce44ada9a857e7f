/** Las horas del reloj con su artículo: `la 1:20`, `las 14:00`. */
import { clock, type Manner } from './format.ts'

/** @param time `1:20`. */
export const withArticle = (time: string): string => `${time.startsWith('1:') ? 'la' : 'las'} ${time}`

/** A los diez minutos más cercanos, como `clock`. */
export const theClock = (epochHours: number, manner: Manner): string => withArticle(clock(epochHours, manner))
