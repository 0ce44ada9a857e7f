/** Palabras en español para el mensaje de la mañana: oraciones enteras, como en `english.ts`. */
import type {
  Caution,
  Headline,
  SaidAgreement,
  SaidChange,
  SaidConfidence,
  SaidDew,
  SaidDust,
  SaidFire,
  SaidHauling,
  SaidLeave,
  SaidPoorRecord,
  SaidRain,
  SaidRun,
  SaidWeather,
} from '#core/messages/morning.ts'
import type { Holdback } from '#core/outlook/holdback.ts'
import type { CropName } from '#core/science/crop.ts'
import type { Visibility } from '#core/science/dust/sight.ts'
import {
  area,
  bareArea,
  clock,
  dayAndClock,
  dayName,
  daysFromToday,
  distance,
  grain,
  humidity,
  type Manner,
  moisture,
  number,
  rain,
  speed,
  speedRange,
  wholeMoisture,
} from './format.ts'

const CROP_WORDS: Record<CropName, string> = {
  soybean: 'soya',
  corn: 'maíz',
  'wheat-soft': 'trigo',
  'wheat-hard': 'trigo',
  'wheat-durum': 'trigo duro',
  sorghum: 'sorgo',
  barley: 'cebada',
  oats: 'avena',
  canola: 'canola',
  sunflower: 'girasol',
}
export const crop = (name: CropName): string => CROP_WORDS[name]
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

const PLURAL = new Intl.PluralRules('es')
const count = (n: number, one: string, many: string): string => `${n} ${PLURAL.select(n) === 'one' ? one : many}`

/** `7 de 10`. */
export function chance(share: number): string {
  if (Number.isNaN(share)) return 'probabilidad desconocida'
  if (share >= 0.975) return 'casi seguro'
  if (share < 0.05) return 'casi imposible'
  return `${Math.min(9, Math.max(1, Math.round(share * 10)))} de 10`
}

const HOLDBACK_WORDS: Record<Holdback, string> = {
  unknown: 'no se conoce el tiempo',
  unripe: 'todavía no madura',
  'wet-grain': 'grano todavía muy húmedo',
  rain: 'lluvia',
  'wet-plants': 'plantas mojadas',
  'tough-stems': 'tallos y vainas correosos',
  'soft-ground': 'suelo muy blando para cargar',
  'fire-stop': 'alto por fuego',
  wind: 'demasiado viento',
  'buyer-shut': 'comprador cerrado',
  'crew-off': 'cuadrilla fuera',
  dark: 'de noche',
}
export const holdback = (name: Holdback): string => HOLDBACK_WORDS[name]

export function headline(said: Headline, manner: Manner): string {
  switch (said.kind) {
    case 'run':
      return runFirst(said.run, manner)
    case 'done':
      return 'No queda nada por cortar: todos los campos están listos.'
    case 'no-forecast':
      return `Hoy no se nombra ningún campo, falta el pronóstico (${said.reason}). Guíese por la vista, el medidor de mano y el pronóstico local hasta que vuelva.`
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

export const oldWeather = (ageH: number, manner: Manner): string =>
  `Tiempo viejo: ${number(ageH, 0, manner)} h, mire primero el cielo.`

export const late = (dueEpochH: number, nowEpochH: number, manner: Manner): string =>
  `Llega tarde: tocaba a las ${clock(dueEpochH, manner)}, se hizo a las ${clock(nowEpochH, manner)} con el tiempo conocido entonces.`

export function work(run: SaidRun, manner: Manner): string {
  const machines = count(run.combines, 'cosechadora corta', 'cosechadoras cortan')
  const share =
    run.areaHa >= run.ofAreaHa * 0.98
      ? `todo, ${area(run.ofAreaHa, manner)}`
      : `${bareArea(run.areaHa, manner)} de ${area(run.ofAreaHa, manner)}`
  const brittle = run.brittle ? ` ${BRITTLE_WORDS[run.crop] ?? 'Demasiado seco: despacio con el cabezal.'}` : ''
  return `${machines} ${share}: ${grain(run.massT, run.lbPerBu, manner)}, ${count(run.truckLoads, 'camión lleno', 'camiones llenos')}.${brittle}`
}

export function afterwards(run: SaidRun, manner: Manner): string {
  return `Después ${run.partName}, de ${clock(run.startEpochH, manner)} a ${clock(run.endEpochH, manner)}: ${crop(run.crop)} a ${moisture(run.startMoistureWb, manner)}, ${bareArea(run.areaHa, manner)} de ${area(run.ofAreaHa, manner)}.`
}

export function leave(said: SaidLeave, manner: Manner): string {
  const next =
    said.nextEpochH === undefined
      ? 'aún sin ventana a la vista'
      : `probable ${daysFromToday(said.nextEpochH, manner) === 0 ? `hoy desde las ${clock(said.nextEpochH, manner)}` : `el ${dayName(said.nextEpochH, manner)}`} (${chance(said.chance)})`
  switch (said.reason) {
    case 'later-turn':
      return `${said.partName} también está listo y espera su turno: ${crop(said.crop)} a cerca de ${wholeMoisture(said.moistureWb, manner)}.`
    case 'patch-green':
      return `Deje en pie ${said.partName}: todavía cerca de ${wholeMoisture(said.moistureWb, manner)}, ${next}.`
    case 'short-window':
      return `Deje ${said.partName}: la ventana de hoy es muy corta para mudarse, ${next}.`
    case 'no-outfit':
      return `${said.partName} está listo, pero ningún cabezal de la finca corta ${crop(said.crop)}.`
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

export function dew(said: SaidDew, manner: Manner): string {
  const on = Number.isNaN(said.onEpochH) ? undefined : clock(said.onEpochH, manner)
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
        ? `Plantas secas hasta que la lluvia las moje a las ${on}.`
        : `Plantas secas desde el amanecer; el rocío vuelve a las ${on}.`
    case 'dries': {
      const off = clock(said.offEpochH, manner)
      const start = said.rainBefore ? `Las plantas se secan de la lluvia a las ${off}` : `El rocío se va a las ${off}`
      if (!on) return said.rainBefore ? `${start}.` : `${start}; no vuelve antes de medianoche.`
      if (said.rainAfter) return `${start}, otra vez mojadas por lluvia a las ${on}.`
      return said.rainBefore ? `${start}, con rocío otra vez a las ${on}.` : `${start} y vuelve a las ${on}.`
    }
  }
}

export function rainLine(said: SaidRain, manner: Manner): string {
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
  if (daysFromToday(epochHours, manner) === 0) return `hoy desde las ${clock(epochHours, manner)}`
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
      return `Cuidado con el fuego desde las ${clock(said.fromEpochH, manner)}: ${facts}. Sople la máquina en cada llenado, rastra y agua listas en el campo, primero las reglas locales.`
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
  const rows =
    said.rowBearingDeg !== undefined && (said.rowsOffBestDeg ?? 0) > 45
      ? `Los surcos van ${line(said.rowBearingDeg)}, casi con el viento: espere visibilidad ${sight(said.rowsSight)} a lo largo.`
      : `Corte ${line(said.preferBearingDeg)} para que el polvo salga de la línea.`
  return `${wind}. ${rows} ${gap}${doubled}`
}

const SIGHT_WORDS: Record<Visibility, string> = { clear: 'regular', thin: 'escasa', poor: 'mala', blind: 'nula' }
const sight = (visibility: Visibility | undefined): string => SIGHT_WORDS[visibility ?? 'poor']

const LIMIT_WORDS: Record<SaidHauling['limitedBy'], string> = {
  combines: '',
  carts: ', así que los carros marcan el paso',
  trucks: ', así que los camiones marcan el paso',
  buyer: ', así que el comprador marca el paso',
}

export function hauling(said: SaidHauling, manner: Manner): string {
  const short = said.trucksNeeded > said.trucksThere || said.cartsNeeded > said.cartsThere
  const need = `con ${count(said.cartsNeeded, 'carro', 'carros')} y ${count(said.trucksNeeded, 'camión', 'camiones')} no paran`
  const have = `hay ${said.cartsThere} y ${said.trucksThere}`
  const limit = LIMIT_WORDS[said.limitedBy]
  const close = Number.isNaN(said.buyerClosesEpochH)
    ? ''
    : ` ${said.buyerName} recibe grano hasta las ${clock(said.buyerClosesEpochH, manner)}.`
  return `Acarreo: ${need}${short ? `; ${have}${limit}` : limit}.${close}`
}

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
        ? `Desde ayer: ${said.partName} abre a las ${clock(said.toEpochH, manner)}, no a las ${clock(said.fromEpochH, manner)}.`
        : `Desde ayer: ${said.partName} cierra a las ${clock(said.toEpochH, manner)}, no a las ${clock(said.fromEpochH, manner)}.`
    case 'rain':
      return said.chance > said.wasChance
        ? `Desde ayer: la probabilidad de lluvia en tres días sube de ${chance(said.wasChance)} a ${chance(said.chance)}.`
        : `Desde ayer: la probabilidad de lluvia en tres días baja de ${chance(said.wasChance)} a ${chance(said.chance)}.`
  }
}

export function confidence(said: SaidConfidence, manner: Manner): string {
  const basis = said.measured ? '' : ' Aún sin medición: pruebe antes de abrir el campo.'
  return `Seguridad: la ventana se sostiene ${chance(said.chance)}, humedad entre ${moisture(said.lowWb, manner)} y ${moisture(said.highWb, manner)} (8 de 10).${basis}${said.poorRecord ? poorRecord(said.poorRecord, manner) : ''}`
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
  return `Tiempo ${age}, ${said.source}${said.agreement ? `, ${agreement(said.agreement)}` : ''}; ${spread}.`
}

const DIFFERS = { temperature: 'la temperatura', humidity: 'la humedad', rain: 'la lluvia' } as const
const SMALL_NUMBERS = ['ninguna', 'una', 'dos', 'tres', 'cuatro'] as const

function agreement({ sources, differs }: SaidAgreement): string {
  const those = `${SMALL_NUMBERS[sources] ?? sources} fuentes`
  if (differs.length === 0) return `${those} coinciden`
  const list = new Intl.ListFormat('es', { type: 'conjunction' }).format(differs.map((name) => DIFFERS[name]))
  return `${those} difieren hoy en ${list}`
}

const CAUTION_WORDS: Record<Caution, string> = {
  'eyes-first': 'Esto es un consejo: primero lo que usted ve en el campo.',
  'screen-lags': 'Las posiciones en pantalla llegan tarde: nunca maneje por ellas.',
  'fire-local-rules': 'Las prohibiciones y reglas locales de fuego valen más que todo esto.',
  'fire-clean':
    'Limpie el compartimiento del motor al menos cada día; deje enfriar 15 minutos antes de cargar combustible.',
  'fire-away': 'Si se prende: lejos del cultivo en pie, apague el motor, bájese, llame y solo después use el extintor.',
  'dust-stop': '¿Perdió de vista la otra máquina? Pare y llame antes de moverse.',
  'power-lines': 'Mire arriba: sinfines y tubos de descarga bajo las líneas eléctricas.',
}
export const caution = (code: Caution): string => CAUTION_WORDS[code]

/** Palabra delante de una línea del correo que no empieza por lo que trata. */
export const labels: Readonly<Record<string, string>> = {
  'weather-today': 'Cielo',
  official: 'Oficial',
  fire: 'Fuego',
  dust: 'Polvo',
  change: 'Cambió',
}

export function pictureAlt(
  runs: readonly { readonly name: string; readonly from: string; readonly to: string }[],
): string {
  const list = new Intl.ListFormat('es', { type: 'conjunction' })
  return `El día dibujado: ${list.format(runs.map(({ name, from, to }) => `${name} de ${from} a ${to}`))}.`
}
