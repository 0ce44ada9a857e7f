/** Palabras en español para la confianza: qué cambió, cuán seguro, de qué tiempo. */
import type { SaidAgreement, SaidChange, SaidConfidence, SaidPoorRecord, SaidWeather } from '#core/messages/morning.ts'
import { RECORDED } from '#core/units/weather.ts'
import { type Manner, moisture, number } from './format.ts'
import { chance, holds } from './spanish.ts'
import { theClock } from './spanish-clock.ts'

export const oldWeather = (ageH: number, manner: Manner): string =>
  `Tiempo viejo: ${number(ageH, 0, manner)} h, mire primero el cielo.`

export const late = (dueEpochH: number, nowEpochH: number, manner: Manner): string =>
  `Llega tarde: tocaba a ${theClock(dueEpochH, manner)}, se hizo a ${theClock(nowEpochH, manner)} con el tiempo conocido entonces.`

export function change(said: SaidChange, manner: Manner): string {
  switch (said.kind) {
    case 'no-yesterday':
      return 'Primer mensaje: todavía no hay con qué comparar.'
    case 'nothing':
      return 'Nada de peso ha cambiado desde ayer.'
    case 'first-field':
      return `Desde ayer: ${said.now} va primero en lugar de ${said.was}.`
    case 'moisture':
      return `Desde ayer: ${said.partName} está a ${moisture(said.toWb, manner)}, se esperaba ${moisture(said.fromWb, manner)}.`
    case 'window-moved':
      return said.edge === 'opens'
        ? `Desde ayer: ${said.partName} abre a ${theClock(said.toEpochH, manner)}, no a ${theClock(said.fromEpochH, manner)}.`
        : `Desde ayer: ${said.partName} cierra a ${theClock(said.toEpochH, manner)}, no a ${theClock(said.fromEpochH, manner)}.`
    case 'rain':
      return said.chance > said.wasChance
        ? `Desde ayer: la probabilidad de lluvia en tres días sube de ${chance(said.wasChance)} a ${chance(said.chance)}.`
        : `Desde ayer: la probabilidad de lluvia en tres días baja de ${chance(said.wasChance)} a ${chance(said.chance)}.`
  }
}

export function confidence(said: SaidConfidence, manner: Manner): string {
  const basis = said.measured ? '' : ' Aún sin medición: pruebe antes de abrir el campo.'
  return `Seguridad: ${holds(said.chance)}, humedad entre ${moisture(said.lowWb, manner)} y ${moisture(said.highWb, manner)} (8 de 10).${basis}${said.poorRecord ? poorRecord(said.poorRecord, manner) : ''}`
}

/** Un sesgo menor no merece palabra [puntos]. */
const SAID_BIAS_WB = 0.5

function poorRecord({ inside90, biasWb }: SaidPoorRecord, manner: Manner): string {
  const points = number(Math.abs(biasWb), 1, manner)
  const lean =
    Math.abs(biasWb) < SAID_BIAS_WB
      ? ''
      : `, en promedio ${points} puntos demasiado ${biasWb > 0 ? 'húmedos' : 'secos'}`
  return ` Últimamente los pronósticos fallaron: ${Math.round(10 * inside90)} de 10 mediciones cayeron en el rango previsto para 9 de 10${lean}. Mida antes de confiar en ellos.`
}

export function weather(said: SaidWeather, manner: Manner): string {
  if (said.members === 0) return 'Tiempo: ninguno que se pueda usar.'
  const age = said.ageH < 1 ? 'de hace menos de 1 h' : `de hace ${number(said.ageH, 0, manner)} h`
  const spread =
    said.spread === 'ensemble'
      ? `${said.members} cursos del propio conjunto del servicio`
      : said.spread === 'grown'
        ? `${said.members} cursos hechos según lo que suelen errar los pronósticos`
        : 'un solo curso'
  const source = said.source === RECORDED ? 'tiempo grabado' : said.source
  return `Tiempo ${age}, ${source}${said.agreement ? `, ${agreement(said.agreement)}` : ''}; ${spread}.`
}

const DIFFERS = { temperature: 'la temperatura', humidity: 'la humedad', rain: 'la lluvia' } as const

const SMALL_NUMBERS = ['ninguna', 'una', 'dos', 'tres', 'cuatro'] as const

function agreement({ sources, differs }: SaidAgreement): string {
  const those = `${SMALL_NUMBERS[sources] ?? sources} fuentes`
  if (differs.length === 0) return `${those} coinciden`
  const list = new Intl.ListFormat('es', { type: 'conjunction' }).format(differs.map((name) => DIFFERS[name]))
  return `${those} difieren hoy en ${list}`
}
