/** English words for one text message: from all that may be said down to what must be. */
import type { Headline, MorningMessage } from '#core/messages/morning.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { chance, holdback } from './english.ts'
import { clock, dayAndClock, dayName, type Manner, moisture, number } from './format.ts'

/** @returns the same message ever shorter; a fire stop stands in all of them. */
export function shortMorning(message: MorningMessage, manner: Manner): readonly string[] {
  const head = headline(message.headline, manner)
  const late = message.dueEpochH === undefined ? '' : ' (late)'
  const fire =
    message.fire.level === 'stop'
      ? ' FIRE STOP, local rules first.'
      : message.tellsFire && message.fire.level === 'care'
        ? ' Fire care.'
        : ''
  const stop = message.fire.level === 'stop' ? fire : ''
  const then = message.after.map(({ partName, outfitName, startEpochH }) =>
    outfitName === undefined
      ? `${partName} ${clock(startEpochH, manner)}`
      : `${outfitName}: ${partName} ${clock(startEpochH, manner)}`,
  )
  const isOneOutfit = message.after.every(({ outfitName }) => outfitName === undefined)
  const next = then.length > 0 ? `${isOneOutfit ? ' Then' : ''} ${then.join(', ')}.` : ''
  const rain =
    message.rain.kind === 'expected'
      ? ` Rain ${dayName(message.rain.startEpochH, manner)} ${chance(message.rain.chance)}.`
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
      return `Run ${run.partName} ${clock(run.startEpochH, manner)}-${clock(run.endEpochH, manner)}, ${CROP_TRADE[run.crop].spoken} ${from} to ${moisture(run.endMoistureWb, manner)}.`
    }
    case 'wait': {
      const why = said.reason ? `: ${holdback(said.reason)}` : ''
      const next =
        said.nextFieldName === undefined
          ? ' No window in sight.'
          : ` Next ${said.nextFieldName} ${dayAndClock(said.nextEpochH, manner)} (${chance(said.chance)}).`
      return `Stand by${why}.${next}`
    }
    case 'done':
      return 'Nothing left to cut.'
    case 'no-forecast':
      return 'No field named today: no usable forecast. Go by eye, hand meter and local forecast.'
  }
}

function shortest(said: Headline, manner: Manner): string {
  if (said.kind === 'run') return `Run ${said.run.partName} ${clock(said.run.startEpochH, manner)}.`
  return said.kind === 'wait' ? 'Stand by.' : headline(said, manner)
}
