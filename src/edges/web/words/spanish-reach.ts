/** Palabras en español para cómo llegan los mensajes a personas y programas. */
import type { ReachWords } from './reach-words.ts'
import type { Words } from './words.ts'

const devicesSaid = (count: number): string => `${count} ${count === 1 ? 'aparato' : 'aparatos'}`
const failuresSaid = (count: number): string => `${count} ${count === 1 ? 'falla' : 'fallas seguidas'}`

export const spanishReach: ReachWords = {
  title: 'Cómo le llegan los mensajes',
  sentence: (byMail, devices) => {
    if (devices === 0) return byMail ? 'Los mensajes le llegan por correo.' : 'Todavía no le llega ningún mensaje.'
    return byMail
      ? `Los mensajes le llegan por correo y por notas en ${devicesSaid(devices)}.`
      : `Los mensajes le llegan por notas en ${devicesSaid(devices)}.`
  },
  test: 'Enviarme un mensaje de prueba',
  tested: (ways) =>
    ways === 0
      ? 'No hay cómo llegarle: active las notas abajo, o pida que pongan su dirección en el archivo de la finca.'
      : `Un mensaje de prueba va en camino por ${ways} ${ways === 1 ? 'vía' : 'vías'}. Debe llegar en uno o dos minutos.`,
  notesTitle: 'Notas en este aparato',
  notesHelp:
    'Una nota aparece en este teléfono o computadora aunque no haya página abierta: los avisos al momento, los altos por fuego primero.',
  turnOn: 'Activar las notas aquí',
  turnOff: 'Quitar las notas de aquí',
  pushStates: {
    on: 'Las notas están activas en este navegador.',
    off: 'Las notas no están activas en este navegador.',
    denied: 'Este navegador no permite notas de aquí. Permítalas en sus ajustes y vuelva.',
    unsupported:
      'Este navegador no muestra notas. En un iPhone, ponga primero este sitio en la pantalla de inicio y ábralo desde ahí.',
    failed: 'No se pudo: el navegador o su servicio de notas se negó. Intente otra vez o con otro navegador.',
    noScript: 'Para activar las notas hacen falta scripts y una dirección que empiece con https.',
  },
  device: (n, host) => `Aparato ${n}, por ${host}`,
  remove: 'Quitar',
  removeDevice: (n) => `Quitar el aparato ${n}`,
  mailTitle: 'Correo de la mañana',
  mailOn: 'El mensaje de la mañana le llega por correo.',
  mailOff: 'El correo de la mañana terminó para usted. Los avisos siguen, porque pueden ser de fuego.',
  mailEnd: 'Terminar el correo de la mañana',
  mailBegin: 'Enviarlo otra vez cada mañana',
  linksTitle: 'Sus propios enlaces',
  linksHelp:
    'Quien tenga uno de estos enlaces lo puede leer sin entrar: no los comparta. Enlaces nuevos terminan los anteriores.',
  calendar: 'Calendario, para suscribirse',
  text: 'El mensaje de hoy como texto simple',
  shortText: 'Lo mismo en 160 caracteres',
  renewLinks: 'Hacer enlaces nuevos y terminar estos',
  hooks: {
    title: 'Programas que reciben avisos',
    sentence: (count) =>
      count === 0
        ? 'Ningún programa recibe los mensajes de la finca.'
        : `${count} ${count === 1 ? 'programa recibe' : 'programas reciben'} cada mensaje de la finca.`,
    help: 'Cada mensaje se envía como JSON a la dirección, firmado según la especificación Standard Webhooks. La dirección debe empezar con https y estar en la red abierta.',
    address: 'Dirección',
    add: 'Agregar',
    secretOnce: (url) => `El secreto de ${url}, se muestra solo esta vez:`,
    deeds: { test: 'Probar', secret: 'Secreto nuevo', remove: 'Quitar' },
    named: (deed, url) => `${deed}: ${url}`,
    tested: 'Un mensaje de prueba va en camino.',
    faults: {
      address: 'Esa dirección no sirve: debe empezar con https, en el puerto usual, y estar en la red abierta.',
      known: 'Esa dirección ya está en la lista.',
      'too-many': 'Ya hay demasiados. Quite uno primero.',
    },
  },
  ways: {
    title: 'Vías de salida',
    mailBy: (server, from) => `Correo por ${server}, de ${from}`,
    mailPrinted: 'Correo sin servidor, se imprime en la consola (THRESHDAY_SMTP)',
    signedFor: (domain) => `firmado por ${domain}`,
    unsigned: 'sin firma (THRESHDAY_DKIM)',
    hooks: (count) => (count === 0 ? 'Ningún webhook' : `${count} ${count === 1 ? 'webhook' : 'webhooks'}`),
    works: 'funciona',
    paused: (until, failures) =>
      `en pausa hasta ${until} tras ${failuresSaid(failures)}; los altos por fuego sí se intentan`,
    trying: (failures) => `intentando otra vez tras ${failuresSaid(failures)}`,
    testTo: 'Enviar una prueba a',
    morningMail: (wanted) => (wanted ? 'Enviar otra vez el correo de la mañana' : 'Terminar el correo de la mañana'),
    morningMailNamed: (wanted, name) =>
      wanted ? `Enviar otra vez el correo de la mañana a ${name}` : `Terminar el correo de la mañana de ${name}`,
    noMorningMail: 'sin correo de la mañana',
  },
}

export const spanishMessages: Words['messages'] = {
  sentence: (sent, waiting, failed) =>
    `${sent} ${sent === 1 ? 'enviado' : 'enviados'}, ${waiting === 0 ? 'ninguno' : waiting} en espera, ${failed === 0 ? 'ninguno' : failed} sin llegar.`,
  resent: 'Está de nuevo en la cola.',
  test: 'Enviar un mensaje de prueba',
  tested: (ways) =>
    ways === 0
      ? 'No hay cómo llegarle.'
      : `Un mensaje de prueba va en camino por ${ways === 1 ? 'una vía' : `${ways} vías`}.`,
  reachedTitle: 'A quién se llega, y cómo',
  notReached: 'no se llega: no hay dirección anotada',
  column: { when: 'Cuándo', what: 'Qué', to: 'A', state: 'Estado' },
  kinds: {
    morning: 'Mensaje de la mañana',
    evening: 'Adelanto de mañana',
    alert: 'Aviso',
    problem: 'Problema desde una cabina',
    test: 'Prueba',
  },
  channels: { mail: 'correo', push: 'nota en el teléfono', webhook: 'webhook' },
  states: {
    waiting: 'en espera',
    sending: 'enviándose',
    sent: 'enviado',
    dead: 'falló del todo',
    lapsed: 'tarde, sin enviar',
  },
  resend: 'Enviar de nuevo',
  resendNamed: (what, name) => `Enviar de nuevo: ${what} a ${name}`,
}
