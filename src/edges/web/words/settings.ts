/** Words of the page of settings, in each language. The farm file itself is told in English, as `npm run check` tells it. */

export interface SettingsWords {
  readonly sentence: (warnings: number) => string
  readonly faulty: (faults: number) => string
  readonly changed: string
  readonly stillRuns: string
  readonly startAgain: string
  readonly pause: string
  readonly help: string
  readonly line: (line: number) => string
}

export const settingsEnglish: SettingsWords = {
  sentence: (warnings) =>
    warnings === 0
      ? 'The farm file as it was understood.'
      : `The farm file as it was understood; ${warnings} ${warnings === 1 ? 'thing gives' : 'things give'} pause.`,
  faulty: (faults) =>
    faults === 1
      ? 'The farm file has been changed and has a fault.'
      : `The farm file has been changed and has ${faults} faults.`,
  changed: 'The farm file has been changed since the start.',
  stillRuns:
    'The service still runs on the file as it was when it started, shown below. It would not start on the new one:',
  startAgain:
    'The service still runs on the file as it was when it started, shown below. Start it again to use the new one.',
  pause: 'What gives pause',
  help: 'To change something, change the file, look it over with npm run check -- FILE, and start again.',
  line: (line) => `line ${line}`,
}

export const settingsSpanish: SettingsWords = {
  sentence: (warnings) =>
    warnings === 0
      ? 'El archivo de la finca, tal como se entendió.'
      : `El archivo de la finca, tal como se entendió; ${warnings === 1 ? 'una cosa da' : `${warnings} cosas dan`} que pensar.`,
  faulty: (faults) =>
    faults === 1
      ? 'El archivo de la finca cambió y tiene un error.'
      : `El archivo de la finca cambió y tiene ${faults} errores.`,
  changed: 'El archivo de la finca cambió después del arranque.',
  stillRuns: 'El servicio sigue con el archivo como era al arrancar, que está abajo. Con el nuevo no arrancaría:',
  startAgain:
    'El servicio sigue con el archivo como era al arrancar, que está abajo. Para usar el nuevo, arránquelo otra vez.',
  pause: 'Lo que da que pensar',
  help: 'Para cambiar algo, cambie el archivo, revíselo con npm run check -- ARCHIVO y arranque de nuevo. Lo que dice el archivo está en inglés.',
  line: (line) => `línea ${line}`,
}
