/** Lo que falló con una fuente del tiempo, en español. */
import type { FaultFacts, Silence, SourceFault } from '#app/source-fault.ts'

const NAMES: Readonly<Record<string, string>> = {
  temperature: 'la temperatura',
  humidity: 'la humedad',
  rain: 'la lluvia',
  wind: 'el viento',
  gusts: 'las ráfagas',
  'wind direction': 'la dirección del viento',
  sunlight: 'la luz del sol',
  all: 'todo',
}

const AGAIN = 'Se le preguntará otra vez'
const UNUSED = 'Nada de eso se usó'

export function spanishFault({ source, where, facts }: SourceFault): string {
  const [what, cure] = said(facts)
  return `${source}: ${what} (${where}). ${cure}`
}

function said(facts: FaultFacts): [what: string, cure: string] {
  switch (facts.kind) {
    case 'unreachable':
      return [silence(facts.silence), `${AGAIN}; si esto sigue, revise la red y la página de estado de la fuente.`]
    case 'refused':
      return [`respondió ${facts.status}${facts.said === '' ? '' : `, “${facts.said}”`}`, cureOfStatus(facts.status)]
    case 'unreadable':
      return unreadable(facts.why)
    case 'unit-unknown':
      return [
        `${facts.variable} viene en una unidad desconocida, “${facts.unit}”`,
        `${UNUSED}. Avise de esto para que se agregue la unidad.`,
      ]
    case 'too-old':
      return [
        `lo que tiene es de hace ${Math.round(facts.ageH)} h, el límite es de ${facts.limitH} h`,
        'Se usa otra fuente si la hay; mire el cielo y un pronóstico de su confianza.',
      ]
    case 'too-thin':
      return [
        `solo en el ${Math.floor(facts.knownShare * 100)}% de las horas se conoce ${NAMES[facts.variable] ?? facts.variable}`,
        `${UNUSED}; se usa otra fuente si la hay.`,
      ]
  }
}

function silence(told: Silence | undefined): string {
  switch (told?.why) {
    case 'slow':
      return `tardó más de ${told.afterS} s en total`
    case 'no-connection':
      return `no aceptó la conexión en ${told.afterS} s`
    case 'no-start':
      return `no empezó a responder en ${told.afterS} s`
    case 'stopped':
      return `se detuvo más de ${told.afterS} s a media respuesta`
    case 'no-name':
      return 'no tiene dirección: su nombre no se puede resolver'
    case 'left':
      return 'ya no se esperó su respuesta'
    case undefined:
      return 'no se puede alcanzar'
  }
}

function unreadable(why: Extract<FaultFacts, { kind: 'unreadable' }>['why']): [what: string, cure: string] {
  switch (why) {
    case 'no-station':
      return ['no conoce ninguna estación cerca de este lugar', 'El pronóstico tiene que bastar.']
    case 'sent-on':
      return ['manda a otra dirección que no es segura, o demasiadas veces', `${UNUSED}; ${AGAIN.toLowerCase()}.`]
    case 'issued-when':
      return [
        'dice que su pronóstico se emitió en el futuro, o no dice cuándo',
        `${UNUSED}. Revise el reloj de esta máquina.`,
      ]
    case undefined:
      return [
        'su respuesta no se puede leer',
        `${UNUSED}; ${AGAIN.toLowerCase()}. Si esto sigue, la fuente cambió la forma de sus respuestas.`,
      ]
  }
}

function cureOfStatus(status: number): string {
  if (status === 429) return 'Demasiadas preguntas: espere, y pregunte menos seguido.'
  if (status === 401 || status === 403)
    return 'Revise la dirección de contacto en los ajustes (nos presenta ante la fuente) y la clave, si hace falta una.'
  if (status === 404 || status === 422) return 'Revise las coordenadas: puede que la fuente no cubra este lugar.'
  if (status >= 500) return `La fuente tiene problemas; ${AGAIN.toLowerCase()}.`
  return 'Revise los ajustes de esta fuente.'
}
