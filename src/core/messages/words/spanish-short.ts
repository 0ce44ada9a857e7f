/** Palabras en español para un solo mensaje de texto: de todo lo que cabe decir a lo indispensable. */
import type { Headline, MorningMessage } from '#core/messages/morning.ts'
import { clock, dayAndClock, dayName, type Manner, moisture, number } from './format.ts'
import { chance, crop, holdback } from './spanish.ts'

export function shortMorning(message: MorningMessage, manner: Manner): readonly string[] {
  const head = headline(message.headline, manner)
  const late = message.dueEpochH === undefined ? '' : ' (llega tarde)'
  const fire =
    message.fire.level === 'stop'
      ? ' ALTO POR FUEGO, primero las reglas locales.'
      : message.tellsFire && message.fire.level === 'care'
        ? ' Cuidado con el fuego.'
        : ''
  const stop = message.fire.level === 'stop' ? fire : ''
  const then = message.after.map(({ partName, outfitName, startEpochH }) =>
    outfitName === undefined
      ? `${partName} ${clock(startEpochH, manner)}`
      : `${outfitName}: ${partName} ${clock(startEpochH, manner)}`,
  )
  const isOneOutfit = message.after.every(({ outfitName }) => outfitName === undefined)
  const next = then.length > 0 ? `${isOneOutfit ? ' Sigue' : ''} ${then.join(', ')}.` : ''
  const rain =
    message.rain.kind === 'expected'
      ? ` Lluvia ${dayName(message.rain.startEpochH, manner)} ${chance(message.rain.chance)}.`
      : ''
  return [
    `${head}${late}${next}${fire}${rain}`,
    `${head}${late}${next}${fire}`,
    `${head}${late}${fire}`,
    `${head}${stop}`,
    `${shortest(message.headline, manner)}${stop}`,
  ]
}

function headline(said: Headline, manner: Manner): string {
  switch (said.kind) {
    case 'run': {
      const { run } = said
      const from = number(run.startMoistureWb, 1, manner)
      return `Corte ${run.partName} ${clock(run.startEpochH, manner)}-${clock(run.endEpochH, manner)}, ${crop(run.crop)} ${from} a ${moisture(run.endMoistureWb, manner)}.`
    }
    case 'wait': {
      const why = said.reason ? `: ${holdback(said.reason)}` : ''
      const next =
        said.nextFieldName === undefined
          ? ' Sin ventana a la vista.'
          : ` Sigue ${said.nextFieldName} ${dayAndClock(said.nextEpochH, manner)} (${chance(said.chance)}).`
      return `En espera${why}.${next}`
    }
    case 'done':
      return 'No queda nada por cortar.'
    case 'no-forecast':
      return 'Hoy sin campo: no hay pronóstico utilizable. Guíese por vista, medidor y pronóstico local.'
  }
}

function shortest(said: Headline, manner: Manner): string {
  if (said.kind === 'run') return `Corte ${said.run.partName} ${clock(said.run.startEpochH, manner)}.`
  return said.kind === 'wait' ? 'En espera.' : headline(said, manner)
}
