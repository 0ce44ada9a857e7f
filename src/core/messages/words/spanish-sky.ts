/** Palabras en español para el cielo sobre el trabajo: rocío, lluvia, fuego, viento y polvo. */
import type { SaidDust, SaidFire } from '#core/messages/morning.ts'
import type { DewTimes, RainAhead } from '#core/outlook/day-weather.ts'
import type { Visibility } from '#core/science/dust/sight.ts'
import { clock, dayName, daysFromToday, distance, humidity, type Manner, rain, speed, speedRange } from './format.ts'
import { chance } from './spanish.ts'
import { theClock } from './spanish-clock.ts'

export function dew(said: DewTimes, manner: Manner): string {
  const on = Number.isNaN(said.onEpochH) ? undefined : theClock(said.onEpochH, manner)
  switch (said.kind) {
    case 'unknown':
      return 'Rocío: no se sabe.'
    case 'wet':
      return said.rainBefore
        ? 'La lluvia mantiene mojadas las plantas todo el día.'
        : 'Las plantas siguen mojadas todo el día.'
    case 'dry':
      if (!on) return 'Hoy no hay rocío que esperar.'
      return said.rainAfter
        ? `Plantas secas hasta que la lluvia las moje a ${on}.`
        : `Plantas secas desde el amanecer; el rocío vuelve a ${on}.`
    case 'dries': {
      const off = theClock(said.offEpochH, manner)
      const start = said.rainBefore ? `Las plantas se secan de la lluvia a ${off}` : `El rocío se va a ${off}`
      if (!on) return said.rainBefore ? `${start}.` : `${start}; no vuelve antes de medianoche.`
      if (said.rainAfter) return `${start}, otra vez mojadas por lluvia a ${on}.`
      return said.rainBefore ? `${start}, con rocío otra vez a ${on}.` : `${start} y vuelve a ${on}.`
    }
  }
}

export function rainLine(said: RainAhead, manner: Manner): string {
  switch (said.kind) {
    case 'unknown':
      return 'Lluvia: no se sabe.'
    case 'none-in-sight':
      return `Sin lluvia a la vista antes del ${dayName(said.untilEpochH, manner)}.`
    case 'expected':
      return `Lluvia ${dayPart(said.startEpochH, manner)}: ${chance(said.chance)}, cerca de ${rain(said.amountMm, manner)} si llega.`
  }
}

/** `el domingo por la noche`, `hoy desde las 14:00`. */
function dayPart(epochHours: number, manner: Manner): string {
  if (daysFromToday(epochHours, manner) === 0) return `hoy desde ${theClock(epochHours, manner)}`
  const hour = Number(clock(epochHours, manner).split(':')[0])
  const part = hour < 5 ? 'de madrugada' : hour < 12 ? 'por la mañana' : hour < 18 ? 'por la tarde' : 'por la noche'
  return `el ${dayName(epochHours, manner)} ${part}`
}

export function fire(said: SaidFire, manner: Manner): string {
  const straw = said.strawUnder ? ', paja seca bajo el cultivo' : ''
  const facts = `humedad del aire hasta ${humidity(said.relHumidity, manner)}${Number.isNaN(said.gustMs) ? '' : `, ráfagas hasta ${speed(said.gustMs, manner)}`}${straw}`
  switch (said.level) {
    case 'unknown':
      return 'Fuego: no se conoce el tiempo; cuídese como en un día seco y ventoso. Primero las reglas locales.'
    case 'ordinary':
      return `Fuego: cuidado normal (${facts}).`
    case 'care':
      return `Cuidado con el fuego desde ${theClock(said.fromEpochH, manner)}: ${facts}. Sople la máquina en cada llenado, rastra y agua listas en el campo, primero las reglas locales.`
    case 'stop':
      return said.banText
        ? `ALTO POR FUEGO: ${said.banText}. No corte, no acarree por el rastrojo ni estacione caliente sobre paja. Primero las reglas locales.`
        : `ALTO POR FUEGO de ${clock(said.fromEpochH, manner)} a ${clock(said.untilEpochH, manner)}: ${facts}. No corte en esas horas; primero las reglas locales.`
  }
}

export const officialUnread: string = 'No se pudieron leer los avisos oficiales: consúltelos antes de empezar.'

const COMPASS = ['norte', 'noreste', 'este', 'sureste', 'sur', 'suroeste', 'oeste', 'noroeste'] as const

const LINES = ['norte-sur', 'noreste-suroeste', 'este-oeste', 'noroeste-sureste'] as const

export const compass = (deg: number): string => COMPASS[Math.round(deg / 45) % 8]!

export const line = (deg: number): string => LINES[Math.round(deg / 45) % 4]!

export function dust(said: SaidDust, manner: Manner): string {
  const doubled = said.doubled ? ' La paja de trigo dobla el polvo.' : ''
  if (said.calm) {
    return `Viento casi en calma: el polvo se queda donde se levanta. Separe las máquinas y espere cuando no vea.${doubled}`
  }
  const wind = `Viento del ${compass(said.windFromDeg)}, ${speedRange(said.windLowMs, said.windHighMs, manner)}`
  const gap = said.staggerFails
    ? 'No siga a otra máquina dentro de su polvo.'
    : `Mantenga las máquinas escalonadas al menos ${distance(said.staggerM, manner)}, del lado de donde viene el viento.`
  return `${wind}. ${passes(said)} ${gap}${doubled}`
}

/** Hacia dónde van las pasadas: a través del viento si son libres, por los surcos donde los hay. */
function passes(said: SaidDust): string {
  if (said.rows === undefined) return `Corte ${line(said.preferBearingDeg)} para que el polvo salga de la línea.`
  const rows = `Los surcos van ${line(said.rows.bearingDeg)}`
  const expect = `espere visibilidad ${SIGHT_WORDS[said.rows.sight]} a lo largo.`
  switch (said.rows.lie) {
    case 'across':
      return `${rows}, a través del viento: el polvo sale de la línea.`
    case 'aslant':
      return `${rows}, al sesgo del viento: ${expect}`
    case 'along':
      return `${rows}, a lo largo del viento: ${expect}`
  }
}

const SIGHT_WORDS: Record<Visibility, string> = { clear: 'regular', thin: 'escasa', poor: 'mala', blind: 'nula' }
