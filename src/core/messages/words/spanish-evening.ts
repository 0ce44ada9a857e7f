/** Palabras en español para el adelanto de mañana. */
import type { CouldChange, EveningMessage, SaidMeasure, SaidTomorrow } from '#core/messages/evening.ts'
import { clock, dayAndClock, type Manner, moisture, weekday } from './format.ts'
import { chance, crop, holdback } from './spanish.ts'

const list = (names: readonly string[]): string => new Intl.ListFormat('es', { type: 'conjunction' }).format(names)

export function eveningTitle(message: EveningMessage, manner: Manner): string {
  const [first] = message.likely
  if (first) {
    return `Mañana probablemente ${first.partName}, de ${clock(first.startEpochH, manner)} a ${clock(first.endEpochH, manner)} (${chance(first.chance)}).`
  }
  const why = message.heldBy ? `: ${holdback(message.heldBy)}` : ''
  return `Mañana no se ve ningún campo listo${why}.`
}

export const tomorrowField = (said: SaidTomorrow, manner: Manner): string =>
  `${said.partName}, el ${weekday(said.startEpochH, manner)} de ${clock(said.startEpochH, manner)} a ${clock(said.endEpochH, manner)}: ${chance(said.chance)}, ${crop(said.crop)} a cerca de ${moisture(said.startMoistureWb, manner)} al empezar, entre ${moisture(said.lowWb, manner)} y ${moisture(said.highWb, manner)} durante el día (8 de 10).`

const DIFFERS = { temperature: 'la temperatura', humidity: 'la humedad', rain: 'la lluvia' } as const

export function couldChange(said: CouldChange, manner: Manner): string {
  switch (said.kind) {
    case 'rain':
      return `Lluvia hasta mañana por la noche: ${chance(said.chance)}.`
    case 'moisture':
      return said.side === 'wetter'
        ? `${said.partName} más húmedo que ${moisture(said.limitWb, manner)} cuando abra su ventana: ${chance(said.chance)}.`
        : `${said.partName} más seco que ${moisture(said.limitWb, manner)} cuando abra su ventana: ${chance(said.chance)}.`
    case 'window':
      return `${said.partName} espera a que esto pase, hasta cerca de ${dayAndClock(said.untilEpochH, manner)}: ${holdback(said.heldBy)}.`
    case 'fire':
      return said.level === 'stop'
        ? `Probable alto por fuego desde ${dayAndClock(said.fromEpochH, manner)}; primero las reglas locales.`
        : `Cuidado con el fuego desde ${dayAndClock(said.fromEpochH, manner)}; primero las reglas locales.`
    case 'sources':
      return `Las fuentes del tiempo difieren en ${list(said.differs.map((name) => DIFFERS[name]))}.`
  }
}

export const changesIntro: string = 'Qué podría cambiarlo:'

export const measureFirst = (measure: readonly SaidMeasure[]): string =>
  `Mida primero por la mañana: ${list(measure.map(({ partName, turns }) => `${partName} (cambia la decisión ${chance(turns)})`))}.`

export const eveningEnd: string =
  'Esto es un adelanto, no una orden: el mensaje de la mañana lo reemplaza. Primero lo que usted ve en el campo.'
