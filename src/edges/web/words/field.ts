/** Words of the page of one field beyond those every page has, in each language. */

export interface FieldWords {
  readonly next: (when: string, chance: string, moisture: string) => string
  readonly noneNext: string
  readonly fitFrom: (when: string, chance: string) => string
  readonly closes: (held: string) => string
  readonly patchSummary: (heading: string, now: string, next: string) => string
  readonly nextShort: (when: string, chance: string) => string
  readonly chartLabel: (name: string, since: string, now: string, readings: number) => string
  readonly chartKey: { readonly now: string; readonly line: string; readonly spread: string; readonly band: string }
  readonly chartMarks: { readonly windows: string; readonly readings: string; readonly doubted: string }
  readonly decisions: string
  readonly noDecisions: string
  readonly toWeek: string
  readonly pin: (date: string) => string
  readonly pinArea: (area: string, date: string) => string
  readonly keepOff: (from: string, to: string) => string
  readonly keepOffDay: (date: string) => string
  readonly deadline: (date: string) => string
  readonly unpin: string
  readonly allow: string
  readonly over: string
  readonly skill: string
  readonly noSkill: string
  readonly cutSoFar: string
  readonly off: (area: string, all: string) => string
}

export const fieldEnglish: FieldWords = {
  next: (when, chance, moisture) => `Next window ${when}: holds ${chance}, ${moisture}.`,
  noneNext: 'No window in sight.',
  fitFrom: (when, chance) => `fit from ${when}, ${chance}`,
  closes: (held) => `closes with ${held}`,
  patchSummary: (heading, now, next) => `${heading}: about ${now} now, ${next}`,
  nextShort: (when, chance) => `next window ${when}, ${chance}`,
  chartLabel: (name, since, now, readings) =>
    `${name}: moisture since ${since}, ${now} now, and over the days ahead; ${readings === 1 ? '1 reading' : `${readings} readings`}. The windows are in the table below.`,
  chartKey: {
    now: 'broken line: now',
    line: 'line: likeliest moisture',
    spread: 'shaded: 8 in 10 lie in it',
    band: 'pale band: fit to cut',
  },
  chartMarks: {
    windows: 'gold bar: window, thicker when surer',
    readings: 'dot: reading',
    doubted: 'ring: doubted reading',
  },
  decisions: 'Decided',
  noDecisions: 'Nothing: the plan is free to choose.',
  toWeek: "Change it on the week's page",
  pin: (date) => `cut on ${date}`,
  pinArea: (area, date) => `cut ${area} on ${date}`,
  keepOff: (from, to) => `keep off from ${from} to ${to}`,
  keepOffDay: (date) => `keep off on ${date}`,
  deadline: (date) => `to be cut by ${date}`,
  unpin: 'day left open again',
  allow: 'may be cut any day again',
  over: 'over',
  skill: 'How good the forecasts were here',
  noSkill: 'Not known yet: no reading of this field has been told that a forecast spoke of.',
  cutSoFar: 'Came off',
  off: (area, all) => `${area} of ${all}`,
}

export const fieldSpanish: FieldWords = {
  next: (when, chance, moisture) => `Próxima ventana ${when}: se sostiene ${chance}, ${moisture}.`,
  noneNext: 'Ninguna ventana a la vista.',
  fitFrom: (when, chance) => `listo desde ${when}, ${chance}`,
  closes: (held) => `luego: ${held}`,
  patchSummary: (heading, now, next) => `${heading}: cerca de ${now} ahora, ${next}`,
  nextShort: (when, chance) => `próxima ventana ${when}, ${chance}`,
  chartLabel: (name, since, now, readings) =>
    `${name}: humedad desde el ${since}, ${now} ahora, y en los días que vienen; ${readings === 1 ? '1 lectura' : `${readings} lecturas`}. Las ventanas están en la tabla de abajo.`,
  chartKey: {
    now: 'línea cortada: ahora',
    line: 'línea: la humedad más probable',
    spread: 'sombra: 8 de 10 caen en ella',
    band: 'franja clara: listo para cortar',
  },
  chartMarks: {
    windows: 'barra dorada: ventana, más gruesa cuanto más segura',
    readings: 'punto: lectura',
    doubted: 'anillo: lectura dudosa',
  },
  decisions: 'Decidido',
  noDecisions: 'Nada: el plan elige libremente.',
  toWeek: 'Cambiarlo en la página de la semana',
  pin: (date) => `cortar el ${date}`,
  pinArea: (area, date) => `cortar ${area} el ${date}`,
  keepOff: (from, to) => `no entrar del ${from} al ${to}`,
  keepOffDay: (date) => `no entrar el ${date}`,
  deadline: (date) => `cortar a más tardar el ${date}`,
  unpin: 'el día queda abierto otra vez',
  allow: 'se puede cortar cualquier día otra vez',
  over: 'pasado',
  skill: 'Qué tan buenos fueron aquí los pronósticos',
  noSkill: 'Todavía no se sabe: no se ha dicho ninguna lectura de este lote de la que hablara un pronóstico.',
  cutSoFar: 'Cosechado',
  off: (area, all) => `${area} de ${all}`,
}
