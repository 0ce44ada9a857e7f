/** Palabras en español para los avisos: un título y oraciones enteras con motivo, hora, qué hacer y hasta cuándo. */
import type {
  SaidAlert,
  SaidDustAlert,
  SaidFireAlert,
  SaidOverDry,
  SaidPlanChanged,
  SaidRainAlert,
  SaidSources,
} from '#core/messages/alerts/alert.ts'
import type { AlertText } from './english-alerts.ts'
import { clock, dayAndClock, humidity, type Manner, moisture, number, rain, speed } from './format.ts'
import { chance, crop } from './spanish.ts'
import { theClock } from './spanish-clock.ts'
import { compass, line } from './spanish-sky.ts'

const list = (names: readonly string[]): string => new Intl.ListFormat('es', { type: 'conjunction' }).format(names)
const PLURAL = new Intl.PluralRules('es')
const plural = (names: readonly string[], one: string, many: string): string =>
  PLURAL.select(names.length) === 'one' ? one : many
const known = (epochHours: number): boolean => Number.isFinite(epochHours)

export function alertStart(said: SaidAlert, manner: Manner): AlertText {
  switch (said.kind) {
    case 'fire-stop':
      return { title: 'ALTO POR FUEGO', text: fireStop(said, manner) }
    case 'fire-care':
      return { title: 'Cuidado con el fuego', text: fireCare(said, manner) }
    case 'official-warning':
      return {
        title: 'Aviso oficial',
        text: `Aviso oficial de ${said.issuer}: ${said.headline}. Vale hasta: ${dayAndClock(said.untilEpochH, manner)}. Sígalo: vale más que todo esto.`,
      }
    case 'rain':
      return rainComes(said, manner)
    case 'dust':
      return { title: 'El polvo tapa la línea', text: dust(said, manner) }
    case 'too-wet': {
      const again = known(said.fitAgainEpochH)
        ? `Probablemente listo otra vez: ${dayAndClock(said.fitAgainEpochH, manner)}.`
        : 'Aún sin ventana a la vista.'
      return {
        title: 'Grano muy húmedo',
        text: `Muy húmedo en ${list(said.partNames)}: ${crop(said.crop)} a cerca de ${moisture(said.moistureWb, manner)}, su límite es ${moisture(said.limitWb, manner)}. Pare y mida antes de seguir. ${again}`,
      }
    }
    case 'dew':
      return {
        title: `Rocío temprano, cerca de ${theClock(said.closesEpochH, manner)}`,
        text: `El rocío cierra ${list(said.partNames)} cerca de ${theClock(said.closesEpochH, manner)}, no a ${theClock(said.toldEpochH, manner)}. Prevea las últimas cargas para entonces y pare cuando paja y vainas se pongan correosas.`,
      }
    case 'soft-ground': {
      const again = known(said.carriesAgainEpochH)
        ? `Probablemente aguanta otra vez: ${dayAndClock(said.carriesAgainEpochH, manner)}.`
        : 'Aún sin fin a la vista.'
      return {
        title: 'Suelo muy blando',
        text: `Suelo muy blando en ${list(said.partNames)}. No meta carros ni camiones cargados; descargue del lado del camino. ${again}`,
      }
    }
    case 'plan-changed':
      return { title: 'Cambio de plan', text: planChanged(said, manner) }
    case 'over-dry':
      return { title: 'Se está secando de más', text: overDry(said, manner) }
    case 'meter-disagrees':
      return {
        title: 'Una medición no cuadra',
        text: `${said.partName} marca ${moisture(said.readWb, manner)} y se esperaba cerca de ${moisture(said.expectedWb, manner)}. Tome otra muestra en otro lugar; si se repite, compare el medidor con el del comprador.`,
      }
    case 'sources-down':
      return { title: 'Tiempo viejo', text: sources(said, manner) }
  }
}

export function alertEnd(said: SaidAlert): AlertText {
  switch (said.kind) {
    case 'fire-stop':
      return {
        title: 'Fin del alto por fuego',
        text: 'Por el tiempo, terminó el alto por fuego. Antes de seguir: busque humo alrededor, sople la máquina y pregunte si sigue una prohibición local.',
      }
    case 'official-warning':
      return {
        title: 'Fin del aviso',
        text: `Ya no vale: ${said.headline}. Averigüe cómo está la situación local antes de seguir.`,
      }
    case 'rain':
      return {
        title: 'Pasó la lluvia',
        text: `Por ahora no se ve más lluvia${said.partNames.length > 0 ? ` en ${list(said.partNames)}` : ''}. Primero deben secarse las plantas: toque paja y vainas antes de cortar.`,
      }
    case 'dust':
      return {
        title: 'Se aclara el polvo',
        text: `El viento ya no lleva el polvo a lo largo de la línea en ${said.partName}. De todos modos mantenga las máquinas escalonadas.`,
      }
    case 'too-wet':
      return {
        title: 'Otra vez en su rango',
        text: `Ya debe estar bastante seco: ${list(said.partNames)}. Mida antes de empezar.`,
      }
    case 'soft-ground':
      return {
        title: 'El suelo aguanta otra vez',
        text: `El suelo ya debe aguantar en ${list(said.partNames)}. Camínelo antes de entrar.`,
      }
    case 'sources-down':
      return { title: 'Tiempo al día', text: 'Vuelve a llegar el tiempo; el día se calculó de nuevo.' }
    case 'fire-care':
    case 'dew':
    case 'plan-changed':
    case 'over-dry':
    case 'meter-disagrees':
      return { title: 'Terminó', text: 'Terminó un aviso anterior.' }
  }
}

export const alertDigest = (first: string, others: number): string => `${first}, y ${others} más`

export const unacknowledged = (sinceEpochH: number, manner: Manner): AlertText => ({
  title: 'Alto por fuego sin confirmar',
  text: `Nadie ha confirmado el alto por fuego de ${theClock(sinceEpochH, manner)}. Llame a la cuadrilla.`,
})

export const test = (farmName: string, nowEpochH: number, manner: Manner): AlertText => ({
  title: 'Mensaje de prueba',
  text: `Esta es una prueba de ${farmName}, enviada a ${theClock(nowEpochH, manner)}. Si la lee, los mensajes le llegan.`,
})

export const acknowledgeHere = (url: string): string => `Confirme que lo leyó: ${url}`

function fireFacts({ relHumidity, gustMs }: SaidFireAlert, manner: Manner): string {
  const air = known(relHumidity) ? `humedad del aire hasta ${humidity(relHumidity, manner)}` : 'aire seco'
  return known(gustMs) ? `${air}, ráfagas hasta ${speed(gustMs, manner)}` : air
}

function fireStop(said: SaidFireAlert, manner: Manner): string {
  const until = known(said.untilEpochH) ? `, más o menos hasta: ${dayAndClock(said.untilEpochH, manner)}` : ''
  const why = said.banText ?? fireFacts(said, manner)
  return `ALTO POR FUEGO ahora${until}. Motivo: ${why}. Pare de cortar, estacione en suelo limpio con el motor apagado, agua y rastra a la mano. Primero las prohibiciones y reglas locales.`
}

function fireCare(said: SaidFireAlert, manner: Manner): string {
  const until = known(said.untilEpochH) ? `, más o menos hasta: ${dayAndClock(said.untilEpochH, manner)}` : ''
  return `Cuidado con el fuego${until}. Motivo: ${fireFacts(said, manner)}. Sople la máquina en cada llenado, agua y rastra listas en el campo. Primero las reglas locales.`
}

function rainComes(said: SaidRainAlert, manner: Manner): AlertText {
  const when = said.arrivesEpochH <= manner.nowEpochH ? 'ahora' : `cerca de ${theClock(said.arrivesEpochH, manner)}`
  const amount = known(said.amountMm) ? `, cerca de ${rain(said.amountMm, manner)}` : ''
  const until = known(said.endsEpochH) ? `, probable hasta: ${dayAndClock(said.endsEpochH, manner)}` : ''
  return {
    title: `Lluvia ${when}`,
    text: `Lluvia ${when} en ${list(said.partNames)}: ${chance(said.chance)}${amount}${until}. Ponga el grano cortado a cubierto y tape camiones y carros.`,
  }
}

function dust(said: SaidDustAlert, manner: Manner): string {
  const wind = known(said.windFromDeg)
    ? `viento del ${compass(said.windFromDeg)}, ${speed(said.windMs, manner)}`
    : 'casi sin viento'
  const turn =
    said.rowsFixed || !known(said.preferBearingDeg)
      ? 'Separe las máquinas.'
      : `Corte ${line(said.preferBearingDeg)} y separe las máquinas.`
  return `El polvo se queda en la línea en ${said.partName}: ${wind}. ${turn} ¿Perdió de vista la otra máquina? Pare y llame antes de moverse. Revise otra vez a ${theClock(said.untilEpochH, manner)}.`
}

function planChanged(said: SaidPlanChanged, manner: Manner): string {
  const change = said.outfitName === undefined ? 'Cambio de plan' : `Cambio de plan de ${said.outfitName}`
  if (!said.now) return `${change}: ${said.was} ya no va hoy. En espera.`
  const span = `de ${clock(said.now.startEpochH, manner)} a ${clock(said.now.endEpochH, manner)}`
  return `${change}: sigue ${said.now.partName}, ${span}, en lugar de ${said.was}. Avise a carros y camiones.`
}

function overDry(said: SaidOverDry, manner: Manner): string {
  const when =
    said.leavesEpochH <= manner.nowEpochH ? 'desde ya' : `más o menos desde: ${dayAndClock(said.leavesEpochH, manner)}`
  const move = plural(said.partNames, 'Adelántelo', 'Adelántelos')
  return `Se seca de más en ${list(said.partNames)}: ${crop(said.crop)} bajo ${moisture(said.lowWb, manner)}, ${when}. ${move}, o corte con la humedad de la mañana y la tarde, despacio con el cabezal: la pérdida crece cada día.`
}

function sources(said: SaidSources, manner: Manner): string {
  const age = known(said.ageH) ? `El tiempo es de hace ${number(said.ageH, 0, manner)} h` : 'No hay datos del tiempo'
  return `${age} y ninguna fuente da más nuevo. Pasadas ${number(said.limitH, 0, manner)} h no se nombra ningún campo. Guíese por la vista, el medidor de mano y el pronóstico local.`
}
