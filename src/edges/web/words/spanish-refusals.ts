/** Por qué no se tomó lo que alguien contó, en español: de lo que pasó, no de la oración en inglés. */
import type { RecordFault, Spoken } from '#app/record-faults.ts'
import { withArticle } from '#core/messages/words/spanish-clock.ts'
import type { UnitSystem } from '#core/operation/farm.ts'
import { HA_PER_ACRE } from '#core/units/convert.ts'
import { zonedAt } from '#core/units/time.ts'
import { localeOf, shortDate } from '#edges/web/when.ts'

const ES = { language: 'es' } as const
const list = (names: readonly string[]): string => new Intl.ListFormat('es', { type: 'conjunction' }).format(names)
const number = (value: number): string => value.toLocaleString(localeOf(ES), { maximumFractionDigits: 1 })
const day = (date: Temporal.PlainDate): string => shortDate(date, ES)
const dayOfYear = (date: Temporal.PlainDate): string =>
  date.toLocaleString(localeOf(ES), { day: 'numeric', month: 'short', year: 'numeric' })

/** A una décima, en la unidad de la finca. */
const area = (ha: number, units: UnitSystem): string =>
  units === 'us' ? `${number(ha / HA_PER_ACRE)} acres` : `${number(ha)} ha`

export function spanishRefusal(fault: RecordFault, { timeZone, units }: Spoken): string {
  const date = (epochH: number) => zonedAt(epochH, timeZone).toPlainDate()
  const clock = (epochH: number) => {
    const { hour, minute } = zonedAt(epochH, timeZone)
    return withArticle(`${hour}:${String(minute).padStart(2, '0')}`)
  }
  const when = (epochH: number) => `${day(date(epochH))} a ${clock(epochH)}`
  switch (fault.code) {
    case 'unknown-field':
      return `Ningún lote se llama “${fault.said}”. Lotes de aquí: ${list(fault.known)}.`
    case 'unknown-patch':
      return fault.known.length === 0
        ? `${fault.fieldName} no tiene partes, así que ninguna se llama “${fault.said}”.`
        : `${fault.fieldName} no tiene ninguna parte que se llame “${fault.said}”. Sus partes: ${list(fault.known)}.`
    case 'unknown-outfit':
      return `Ningún equipo se llama “${fault.said}”. Equipos de aquí: ${list(fault.known)}.`
    case 'unknown-record':
      return `Nada se anotó nunca con la clave “${fault.said}”.`
    case 'already-replaced':
      return `Lo anotado como “${fault.key}” ya se corrigió con “${fault.by}”. Corrija esto último.`
    case 'key-taken':
      return `La clave “${fault.key}” ya es de otra cosa: la anotó ${fault.by} para el ${when(fault.atEpochH)}. Mande esto con otra clave, o como corrección de aquello.`
    case 'moisture-impossible':
      return `${number(fault.said)}% no es la humedad de un cultivo en pie: va de ${fault.lowest} a ${fault.highest}% en base húmeda.`
    case 'time-unreadable':
      return `“${fault.said}” no es una hora. Escriba año-mes-día y la hora del reloj de la finca, así: 2010-09-28 14:05.`
    case 'time-ahead':
      return `El ${when(fault.atEpochH)} todavía no llega; ahora es el ${when(fault.nowEpochH)}.`
    case 'before-planting':
      return `El ${dayOfYear(date(fault.atEpochH))} es antes de la siembra de este cultivo, el ${dayOfYear(fault.plantedOn)}.`
    case 'part-finished':
      return `${fault.partName} se terminó el ${when(fault.finishedEpochH)}: ya no queda nada en pie. Si no es así, corrija ese corte.`
    case 'area-impossible':
      return Number.isNaN(fault.areaHa)
        ? 'Diga cuánto se cortó, o que está todo cortado.'
        : `No se pueden cortar ${area(fault.areaHa, units)}; tiene que ser más que nada.`
    case 'area-too-large':
      return `${area(fault.areaHa, units)} es más de lo que queda en pie ahí, ${area(fault.standingHa, units)}.`
    case 'mass-impossible':
      return `De esa superficie no pueden haber salido ${number(fault.massT)} t de grano.`
    case 'offset-impossible':
      return `Un medidor que erra por ${number(fault.said)} puntos está roto: se admiten hasta ${fault.largest}, de más o de menos.`
    case 'error-impossible':
      return `${number(fault.said)} puntos no es el error de un medidor: es más de 0 y no más de ${fault.largest}.`
    case 'days-impossible':
      return `${number(fault.said)} días no es lo que se atrasa una madurez: es más de 0 y no más de ${fault.largest}.`
    case 'who-missing':
      return 'Diga quién lo cuenta.'
    case 'key-impossible':
      return `“${fault.said}” no sirve de clave: de 1 a ${fault.longest} caracteres, sin espacios en las puntas.`
    case 'share-impossible':
      return `${fault.said.toLocaleString(localeOf(ES), { maximumFractionDigits: 3 })} no es una proporción que quepa: todas las partes de un lote juntas son más de 0 y menos de 1.`
    case 'patch-exists':
      return `Ya hay una parte que se llama “${fault.said}”.`
    case 'patch-measured':
      return `“${fault.said}” tiene lecturas o cortes propios, así que se queda.`
    case 'name-impossible':
      return `“${fault.said}” no es un nombre: le falta una letra o una cifra.`
    case 'boundary-missing':
      return `${fault.fieldName} no tiene el contorno dibujado, así que el de una parte no dice cuánto es. Dé la proporción.`
    case 'changed-meanwhile':
      return `Otra persona cambió ${fault.fieldName} en este momento. Mírelo y pruebe de nuevo.`
    case 'date-past':
      return `El ${day(fault.said)} ya pasó.`
    case 'dates-turned':
      return `El ${day(fault.from)} es después del ${day(fault.to)}: primero va el primer día.`
    case 'hours-impossible':
      return 'La cuadrilla empieza antes de terminar, y todo en un mismo día.'
    case 'weekday-impossible':
      return `${fault.said} no es un día de la semana: 1 es lunes, 7 es domingo.`
    case 'outfit-exists':
      return `Ya hay un equipo que se llama “${fault.said}”.`
    case 'nothing-stands':
      return `Ya no queda nada en pie de ${fault.partName}, así que no hay nada que planear ahí.`
    case 'cut-through':
      return `${fault.partName} se corta de corrido con ${fault.fieldName}, en la misma carga, y no tiene plan propio. Decida por ${fault.fieldName}; para planear esa parte sola, que se deje en pie (“handling: leave” en el archivo de la finca).`
    case 'row-unreadable':
      return 'Una línea del archivo no se puede leer.'
  }
}
