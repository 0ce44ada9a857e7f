/** Words of the page of the season, in each language. */
import { capital } from '#core/messages/words/capital.ts'
import type { SimpleRule } from '#core/planning/optimiser/simple-rules.ts'

export interface SeasonWords {
  readonly title: string
  readonly sentence: (cut: string, all: string, share: string) => string
  readonly nothingCut: (all: string) => string
  readonly allCut: (all: string) => string
  readonly crop: (crop: string, cut: string, all: string) => string
  readonly cropDone: (crop: string, all: string, date: string) => string
  /** What follows of a crop that is not done. */
  readonly likelyDone: (date: string) => string
  readonly likelyLeft: (area: string, date: string) => string
  readonly noPlan: string
  readonly byDay: string
  readonly today: string
  readonly drawing: (crop: string, parts: readonly string[]) => string
  readonly drawnCut: (cut: string, all: string, date: string, share: string) => string
  readonly drawnDay: (area: string, date: string) => string
  readonly drawnAhead: (share: string, date: string) => string
  readonly key: {
    readonly cut: string
    readonly wet: string
    readonly brittle: string
    readonly unmeasured: string
    readonly ahead: string
    readonly line: string
  }
  readonly doneHelp: string
  readonly loads: string
  readonly noLoads: string
  readonly column: {
    readonly when: string
    readonly area: string
    readonly mass: string
    readonly moisture: string
  }
  readonly older: (count: number) => string
  readonly yields: (crop: string, grain: string, yieldText: string, moisture: string) => string
  readonly saved: string
  readonly savedUnknown: string
  /** @param days how many, with the span they lie in. */
  readonly savedSentence: (money: string, days: number, from: string, to: string, rule: string) => string
  readonly lostSentence: (money: string, days: number, from: string, to: string, rule: string) => string
  readonly savedHelp: string
  readonly rules: { readonly [R in SimpleRule]: string }
  readonly ruleColumn: { readonly rule: string; readonly days: string; readonly money: string }
  readonly skill: string
  readonly noSkill: string
  readonly skillSentence: (checks: number, size: string, inside: string) => string
  /** Forecast wetter or drier than read, by so many points on average. */
  readonly tooWet: (points: string) => string
  readonly tooDry: (points: string) => string
  readonly noBias: string
}

export const seasonEnglish: SeasonWords = {
  title: 'Season',
  sentence: (cut, all, share) => `${cut} of ${all} are off, ${share}.`,
  nothingCut: (all) => `Nothing is off yet: ${all} to go.`,
  allCut: (all) => `All ${all} are off.`,
  crop: (crop, cut, all) => `${capital(crop)}: ${cut} of ${all} off`,
  cropDone: (crop, all, date) => `${capital(crop)}: all ${all} off since ${date}.`,
  likelyDone: (date) => `likely done by ${date}.`,
  likelyLeft: (area, date) => `about ${area} likely still stand after ${date}.`,
  noPlan: 'when it is done is not known yet.',
  byDay: 'Day by day',
  today: 'today',
  drawing: (crop, parts) => `${crop}: ${parts.join('; ')}.`,
  drawnCut: (cut, all, date, share) => `${cut} of ${all} off by ${date}, ${share}`,
  drawnDay: (area, date) => `most on one day ${area}, ${date}`,
  drawnAhead: (share, date) => `likely ${share} by ${date}`,
  key: {
    cut: 'cut, taller: more of it; gold: fit',
    wet: 'cut wet',
    brittle: 'cut brittle',
    unmeasured: 'cut, moisture not told',
    ahead: 'outlined: expected',
    line: 'line: share that is off',
  },
  doneHelp:
    'Expected: the mean over the courses the weather may take, by the plan of this morning. Done: all but a twentieth of what stands today.',
  loads: 'Loads',
  noLoads: 'No load has been told with its weight or moisture. Acres done and tickets are told in the cab.',
  column: { when: 'Cut', area: 'Area', mass: 'Weight', moisture: 'Moisture' },
  older: (count) => `and ${count} before that`,
  yields: (crop, grain, yieldText, moisture) =>
    `${capital(crop)} as weighed: ${[grain, yieldText, moisture].filter((part) => part !== '').join(', ')}.`,
  saved: 'What the plan saved',
  savedUnknown: 'Not known yet: no plan of this season has been held against the simple rules.',
  savedSentence: (money, days, from, to, rule) =>
    `The plans were expected to bring ${money} more than the best simple rule, ${rule}, ${days === 1 ? `on ${to}` : `over ${days} days, ${from} to ${to}`}.`,
  lostSentence: (money, days, from, to, rule) =>
    `The best simple rule, ${rule}, was expected to bring ${money} more than the plans, ${days === 1 ? `on ${to}` : `over ${days} days, ${from} to ${to}`}.`,
  savedHelp:
    "Each day's first plan against a day by the rule, with the same fields, machines and weather; the days after are reckoned alike. Expected when it was made: what the weather then did is not in it.",
  rules: {
    'ripest-first': 'ripest first',
    'driest-first': 'driest first',
    'nearest-first': 'nearest first',
    'fixed-order': 'always in the same order',
    'greedy-by-dollars': 'most money at risk first',
  },
  ruleColumn: { rule: 'Rule', days: 'Days', money: 'Plans bring more' },
  skill: 'How good the forecasts were',
  noSkill: 'Not known yet: no reading has been told that a forecast spoke of.',
  skillSentence: (checks, size, inside) =>
    `Up to two days ahead the forecast of moisture was off by ${size} points (root mean square of ${checks} ${checks === 1 ? 'check' : 'checks'}); ${inside} fell inside the 90% band.`,
  tooWet: (points) => `On average it said ${points} points too wet.`,
  tooDry: (points) => `On average it said ${points} points too dry.`,
  noBias: 'On average it was neither too wet nor too dry.',
}

export const seasonSpanish: SeasonWords = {
  title: 'Temporada',
  sentence: (cut, all, share) => `Van ${cut} de ${all}, el ${share}.`,
  nothingCut: (all) => `Todavía no se ha cortado nada: faltan ${all}.`,
  allCut: (all) => `Está todo cortado: ${all}.`,
  crop: (crop, cut, all) => `${capital(crop)}: van ${cut} de ${all}`,
  cropDone: (crop, all, date) => `${capital(crop)}: todo cortado desde el ${date}, ${all}.`,
  likelyDone: (date) => `lo más probable es terminar el ${date}.`,
  likelyLeft: (area, date) => `lo más probable es que después del ${date} queden cerca de ${area}.`,
  noPlan: 'todavía no se sabe cuándo termina.',
  byDay: 'Día por día',
  today: 'hoy',
  drawing: (crop, parts) => `${crop}: ${parts.join('; ')}.`,
  drawnCut: (cut, all, date, share) => `van ${cut} de ${all} al ${date}, el ${share}`,
  drawnDay: (area, date) => `lo más en un día ${area}, el ${date}`,
  drawnAhead: (share, date) => `lo más probable el ${share} al ${date}`,
  key: {
    cut: 'cortado, más alto: más; dorado: listo',
    wet: 'cortado húmedo',
    brittle: 'cortado quebradizo',
    unmeasured: 'cortado, humedad sin decir',
    ahead: 'contorno: se espera',
    line: 'línea: parte ya cortada',
  },
  doneHelp:
    'Se espera: la media de los cursos que puede tomar el tiempo, según el plan de esta mañana. Terminar: todo menos la vigésima parte de lo que queda hoy.',
  loads: 'Cargas',
  noLoads: 'Nadie ha dicho el peso ni la humedad de una carga. El área cortada y los boletos se dicen en la cabina.',
  column: { when: 'Cortado', area: 'Área', mass: 'Peso', moisture: 'Humedad' },
  older: (count) => `y ${count} antes`,
  yields: (crop, grain, yieldText, moisture) =>
    `${capital(crop)}, según la báscula: ${[grain, yieldText, moisture].filter((part) => part !== '').join(', ')}.`,
  saved: 'Lo que ahorró el plan',
  savedUnknown: 'Todavía no se sabe: ningún plan de esta temporada se ha comparado con las reglas sencillas.',
  savedSentence: (money, days, from, to, rule) =>
    `Se esperaba que los planes dieran ${money} más que la mejor regla sencilla, ${rule}, ${days === 1 ? `el ${to}` : `en ${days} días, del ${from} al ${to}`}.`,
  lostSentence: (money, days, from, to, rule) =>
    `Se esperaba que la mejor regla sencilla, ${rule}, diera ${money} más que los planes, ${days === 1 ? `el ${to}` : `en ${days} días, del ${from} al ${to}`}.`,
  savedHelp:
    'El primer plan de cada día contra un día según la regla, con los mismos lotes, máquinas y tiempo; los días que siguen se cuentan igual. Es lo que se esperaba al hacerlo: lo que luego hizo el tiempo no está incluido.',
  rules: {
    'ripest-first': 'el más maduro primero',
    'driest-first': 'el más seco primero',
    'nearest-first': 'el más cercano primero',
    'fixed-order': 'siempre en el mismo orden',
    'greedy-by-dollars': 'donde más dinero se arriesga primero',
  },
  ruleColumn: { rule: 'Regla', days: 'Días', money: 'Los planes dan más' },
  skill: 'Qué tan buenos fueron los pronósticos',
  noSkill: 'Todavía no se sabe: no se ha dicho ninguna lectura de la que hablara un pronóstico.',
  skillSentence: (checks, size, inside) =>
    `Hasta con dos días de anticipo el pronóstico de humedad erró por ${size} puntos (media cuadrática de ${checks} ${checks === 1 ? 'comparación' : 'comparaciones'}); el ${inside} cayó dentro de la franja del 90%.`,
  tooWet: (points) => `En promedio dijo ${points} puntos de más.`,
  tooDry: (points) => `En promedio dijo ${points} puntos de menos.`,
  noBias: 'En promedio no dijo ni de más ni de menos.',
}
