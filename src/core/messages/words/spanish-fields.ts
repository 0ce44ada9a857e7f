/** Palabras en español para el trabajo: los campos, las máquinas, el acarreo. */
import type { Headline, SaidBuyer, SaidHauling, SaidLeave, SaidRest, SaidRun, SaidWhy } from '#core/messages/morning.ts'
import type { CropName } from '#core/science/crop.ts'
import { capital } from './capital.ts'
import {
  area,
  bareArea,
  clock,
  dayAndClock,
  dayName,
  daysFromToday,
  grain,
  type Manner,
  moisture,
  money,
  wholeMoisture,
} from './format.ts'
import { chance, count, crop, holdback } from './spanish.ts'
import { theClock } from './spanish-clock.ts'

function whyNone({ ageH, limitH }: Extract<Headline, { kind: 'no-forecast' }>): string {
  if (Number.isNaN(ageH)) return 'ninguna fuente del tiempo respondió'
  if (ageH > limitH) return `lo más nuevo tiene ${Math.round(ageH)} h, más que el límite de ${limitH} h`
  return 'el pronóstico termina antes de esta hora'
}

export function headline(said: Headline, manner: Manner): string {
  switch (said.kind) {
    case 'run':
      return runFirst(said.run, manner)
    case 'done':
      return 'No queda nada por cortar: todos los campos están listos.'
    case 'no-forecast':
      return `Hoy no se nombra ningún campo, falta el pronóstico (${whyNone(said)}). Guíese por la vista, el medidor de mano y el pronóstico local hasta que vuelva.`
    case 'wait': {
      const why = said.reason ? `Hoy: ${holdback(said.reason)}.` : 'Hoy ningún campo está listo.'
      if (said.nextFieldName === undefined) return `En espera. ${why} Sin ventana a la vista en los próximos diez días.`
      return `En espera. ${why} Sigue: ${said.nextFieldName}, ${dayAndClock(said.nextEpochH, manner)} (${chance(said.chance)}).`
    }
  }
}

function runFirst(run: SaidRun, manner: Manner): string {
  const span = `de ${clock(run.startEpochH, manner)} a ${clock(run.endEpochH, manner)}`
  return `Corte ${run.partName}, ${span}. ${runMoisture(run, manner)}`
}

const BRITTLE_WORDS: Partial<Record<CropName, string>> = {
  soybean: 'Quebradiza: las vainas se abren, baje la velocidad del molinete.',
  corn: 'Seco: cuide el maíz desgranado en el cabezal.',
  canola: 'Quebradiza: las vainas se abren, corte en las horas húmedas del día.',
}

function runMoisture(run: SaidRun, manner: Manner): string {
  const start = moisture(run.startMoistureWb, manner)
  const end = moisture(run.endMoistureWb, manner)
  if (Math.abs(run.startMoistureWb - run.endMoistureWb) < 0.15)
    return `${capital(crop(run.crop))} cerca de ${end} todo el tiempo.`
  return `${capital(crop(run.crop))} a ${start} al empezar, ${end} al terminar.`
}

export function work(run: SaidRun, manner: Manner): string {
  const machines = count(run.combines, 'cosechadora corta', 'cosechadoras cortan')
  const share =
    run.areaHa >= run.ofAreaHa * 0.98
      ? `todo, ${area(run.ofAreaHa, manner)}`
      : `${bareArea(run.areaHa, manner)} de ${area(run.ofAreaHa, manner)}`
  const who = run.outfitName === undefined ? '' : `${run.outfitName}: `
  const brittle = run.brittle ? ` ${BRITTLE_WORDS[run.crop] ?? 'Demasiado seco: despacio con el cabezal.'}` : ''
  return `${who}${machines} ${share}: ${grain(run.massT, run.lbPerBu, manner)}, ${count(run.truckLoads, 'camión lleno', 'camiones llenos')}.${through(run.through)}${brittle}`
}

function through(names: readonly string[] | undefined): string {
  if (names === undefined) return ''
  const list = new Intl.ListFormat('es', { type: 'conjunction' }).format(names)
  return ` Corte también ${list}: las humedades son de la carga mezclada.`
}

export function afterwards(run: SaidRun, manner: Manner): string {
  const who = run.outfitName === undefined ? 'Después' : `${run.outfitName} corta`
  return `${who} ${run.partName}, de ${clock(run.startEpochH, manner)} a ${clock(run.endEpochH, manner)}: ${crop(run.crop)} a ${moisture(run.startMoistureWb, manner)}, ${bareArea(run.areaHa, manner)} de ${area(run.ofAreaHa, manner)}.`
}

export function leave(said: SaidLeave, manner: Manner): string {
  const next =
    said.nextEpochH === undefined
      ? 'aún sin ventana a la vista'
      : `probable ${daysFromToday(said.nextEpochH, manner) === 0 ? `hoy desde ${theClock(said.nextEpochH, manner)}` : `el ${dayName(said.nextEpochH, manner)}`} (${chance(said.chance)})`
  switch (said.reason) {
    case 'later-turn':
      return `${said.partName} también está listo y espera su turno: ${crop(said.crop)} a cerca de ${wholeMoisture(said.moistureWb, manner)}.`
    case 'kept-off':
      return `No entre en ${said.partName}, según el plan: listo, ${crop(said.crop)} a cerca de ${wholeMoisture(said.moistureWb, manner)}.`
    case 'worth-waiting':
      return `${said.partName} también está listo, pero rinde más con el grano menos seco: ${next}.`
    case 'patch-green':
      return `Deje en pie ${said.partName}: todavía cerca de ${wholeMoisture(said.moistureWb, manner)}, ${next}.`
    case 'short-window':
      return `Deje ${said.partName}: la ventana de hoy es muy corta para mudarse, ${next}.`
    case 'no-outfit':
      return `${said.partName} está listo, pero ningún cabezal de la finca corta ${crop(said.crop)}.`
    case 'no-buyer':
      return `${said.partName} está listo, pero su comprador no recibe ${crop(said.crop)}.`
    case 'unripe':
    case 'wet-grain':
      return `Deje ${said.partName}: ${crop(said.crop)} todavía cerca de ${wholeMoisture(said.moistureWb, manner)}, ${next}.`
    default:
      return `Deje ${said.partName}: ${holdback(said.reason)}, ${next}.`
  }
}

export function turns(names: readonly string[]): string {
  const list = new Intl.ListFormat('es', { type: 'conjunction' }).format(names)
  return `También listos, esperan turno: ${list}.`
}

const WHY_WORDS: Record<SaidWhy['reason'], string> = {
  pinned: 'está fijado para hoy',
  'only-one-fit': 'nada más está listo hoy para este equipo',
  'loses-more': 'es el que más pierde si espera',
  nearer: 'es el traslado más corto',
  'longer-window': 'su ventana de hoy es más larga',
  promised: 'estaba previsto para hoy y nada gana con un cambio',
  'better-week': 'la semana sale mejor',
}

export function why(said: SaidWhy, manner: Manner): string {
  const waiting = said.perDayWaiting >= 1 ? `, cerca de ${money(said.perDayWaiting, manner)} al día` : ''
  const instead = said.instead
    ? ` ${said.instead.partName} en su lugar costaría cerca de ${money(said.instead.costs, manner)}.`
    : ''
  const loses = said.reason === 'loses-more' ? waiting : ''
  return `Por qué ${said.partName} primero: ${WHY_WORDS[said.reason]}${loses}.${instead}`
}

export function rest({ fromEpochH, partNames, costs }: SaidRest, manner: Manner): string {
  const list = new Intl.ListFormat('es', { type: 'conjunction' }).format(partNames)
  const stop = Number.isNaN(fromEpochH) ? 'No corte hoy' : `Pare a ${theClock(fromEpochH, manner)}`
  const they = partNames.length === 1 ? 'también está listo, pero rinde' : 'también están listos, pero rinden'
  return `${stop}: ${list} ${they} más otro día, con el grano menos seco. Cortar ${partNames[0]} hoy costaría cerca de ${money(costs, manner)}.`
}

const LIMIT_WORDS: Record<SaidHauling['limitedBy'], string> = {
  combines: '',
  carts: ', así que los carros marcan el paso',
  trucks: ', así que los camiones marcan el paso',
  buyer: ', así que la tolva o la secadora marca el paso',
}

export function hauling(said: SaidHauling): string {
  const short = said.trucksNeeded > said.trucksThere || said.cartsNeeded > said.cartsThere
  const need = `con ${count(said.cartsNeeded, 'carro', 'carros')} y ${count(said.trucksNeeded, 'camión', 'camiones')} no paran`
  const have = `hay ${said.cartsThere} y ${said.trucksThere}`
  const limit = LIMIT_WORDS[said.limitedBy]
  const who = said.outfitName === undefined ? 'Acarreo' : `Acarreo de ${said.outfitName}`
  return `${who}: ${need}${short ? `; ${have}${limit}` : limit}.`
}

export function buyers([first, ...others]: readonly SaidBuyer[], manner: Manner): string {
  if (!first) return ''
  const more = others.map(({ name, closesEpochH }) => `, ${name} hasta ${theClock(closesEpochH, manner)}`)
  return `${first.name} recibe grano hasta ${theClock(first.closesEpochH, manner)}${more.join('')}.`
}
