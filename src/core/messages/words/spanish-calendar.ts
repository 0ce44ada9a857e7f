/** Palabras en español para el calendario. */
import type { SaidEntry } from '#core/messages/calendar.ts'
import { capital } from './capital.ts'
import type { EntryText } from './english-calendar.ts'
import { type Manner, moisture } from './format.ts'
import { crop as cropWord, holds } from './spanish.ts'

export function entry(said: SaidEntry, manner: Manner): EntryText {
  const crop = cropWord(said.crop)
  const span = Number.isFinite(said.startMoistureWb + said.endMoistureWb)
    ? ` a ${moisture(said.startMoistureWb, manner)} al empezar, ${moisture(said.endMoistureWb, manner)} al terminar`
    : ''
  const sure = Number.isNaN(said.chance)
    ? 'Ese día todavía no hay ventana a la vista.'
    : `${capital(holds(said.chance))}.`
  const advice = 'Esto es un consejo: primero lo que usted ve en el campo y las reglas locales de fuego.'
  switch (said.kind) {
    case 'run':
      return { summary: `Corte ${said.partName}`, description: `Toca cortar: ${crop}${span}. ${sure} ${advice}` }
    case 'pin':
      return {
        summary: `${said.partName}, fijo`,
        description: `Fijado para este día por quien planea: ${crop}${span}. ${sure} ${advice}`,
      }
    case 'window':
      return {
        summary: `${said.partName} probablemente listo`,
        description: `Probablemente listo: ${crop}${span}. ${sure} ${advice}`,
      }
  }
}

export const calendarName = (farmName: string): string => `${farmName}: cosecha`
