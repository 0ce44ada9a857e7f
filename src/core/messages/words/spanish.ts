/** Palabras en español para el mensaje de la mañana: oraciones enteras, como en `english.ts`. */
import type { Caution } from '#core/messages/morning.ts'
import type { Holdback } from '#core/outlook/holdback.ts'
import type { CropName } from '#core/science/crop.ts'

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

const PLURAL = new Intl.PluralRules('es')

export const count = (n: number, one: string, many: string): string => `${n} ${PLURAL.select(n) === 'one' ? one : many}`

/** Desde aquí una probabilidad es casi segura, y debajo de la otra, casi nula. */
const SURE_SHARE = 0.975
const HARDLY_SHARE = 0.05

/** `7 de 10`. */
export function chance(share: number): string {
  if (Number.isNaN(share)) return 'probabilidad desconocida'
  if (share >= SURE_SHARE) return 'casi seguro'
  if (share < HARDLY_SHARE) return 'casi imposible'
  return `${Math.min(9, Math.max(1, Math.round(share * 10)))} de 10`
}

/** Cuán seguro es que la ventana se sostenga, como cláusula. */
export function holds(share: number): string {
  if (Number.isNaN(share)) return 'no se sabe si la ventana se sostiene'
  if (share >= SURE_SHARE) return 'es casi seguro que la ventana se sostiene'
  if (share < HARDLY_SHARE) return 'la ventana difícilmente se sostiene'
  return `la ventana se sostiene ${chance(share)}`
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
