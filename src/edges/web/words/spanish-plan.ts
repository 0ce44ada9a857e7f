/** Palabras en español del plan de la semana. */
import type { PlanWords } from './plan-words.ts'

const list = (names: readonly string[]): string => new Intl.ListFormat('es', { type: 'conjunction' }).format(names)
const others = (count: number): string => `mueve ${count} ${count === 1 ? 'lote' : 'lotes'} más`
const price = (costs: string | undefined, gains: string | undefined): string => {
  if (costs !== undefined) return `cuesta cerca de ${costs}`
  return gains === undefined ? 'no cuesta nada' : `gana cerca de ${gains}`
}
const priced = (costs: string | undefined, gains: string | undefined, moved: number): string =>
  moved === 0 ? price(costs, gains) : `${price(costs, gains)} y ${others(moved)}`

/** Lo que vale para quien sabe más de lo que nadie puede saber lo dice. */
const bound = (most: string): string => `ni quien supiera de antemano el tiempo de hoy ahorraría más de ${most} de eso.`

export const spanishPlan: PlanWords = {
  sentence: (today, next) => {
    const then = next ? `El ${next.day}, ${list(next.names)}.` : ''
    if (today.length > 0) return `Hoy ${list(today)}.${then === '' ? '' : ` ${then}`}`
    return then === '' ? 'Nada que cortar en estos días.' : `Hoy nada. ${then}`
  },
  worth: (value, short) =>
    `Con este plan, lo que queda en pie vale cerca de ${value}, ${short} menos que con máquinas sin límite.`,
  status: {
    proven: (most) => `Probado: ${bound(most)}`,
    good: (most) => `Un buen plan, no probado: puede haber uno mejor, pero ${bound(most)}`,
    fallback: (most) =>
      `Hecho con reglas simples, porque el cálculo no dio respuesta: puede haber uno mejor, pero ${bound(most)}`,
  },
  noneBetter: 'Ningún plan rinde más con este pronóstico.',
  planned: (day, chance) => `${day}, ${chance}`,
  notInSight: 'no en estos días',
  pinned: 'fijado',
  day: (day, chance, keptOff) => (keptOff ? `${day}: no se entra` : `${day}: listo, ${chance}`),
  later: 'después',
  tail: (left, { early, middle, late, until }) => {
    if (!middle) return `${left} de que algo quede en pie después de estos días, sin fecha probable hasta el ${until}`
    const spread = [
      early && `una de diez para el ${early}`,
      late ? `nueve de diez para el ${late}` : `nueve de diez no antes del ${until}`,
    ]
    return `${left} de que algo quede en pie después de estos días: probable hacia el ${middle} (${spread.filter(Boolean).join(', ')})`
  },
  seasonRests: (lastDay, years, few) =>
    `Después del ${lastDay}: según el tiempo de ${years} años pasados en el lugar${few ? ', muy pocos para mostrar todo lo posible' : ''}. Ningún pronóstico llega hasta allí.`,
  keptOff: 'no',
  moveNamed: (name) => `Mover ${name}`,
  markerHelp:
    'Arrastre una etiqueta a otro día, o elíjala y use las flechas: Enter pregunta qué cuesta, Escape la deja.',
  markerOf: (name) => `Día de ${name}`,
  keyPlan: 'barra bajo un día: qué tan seguro es que algo se corte',
  keyTag: 'etiqueta: el día más probable, con lo que se corta',
  keyPinned: 'etiqueta oscura con alfiler: usted fijó el día',
  keyOff: 'tachado: no se entra',
  conflict: (pins) =>
    pins.length === 1
      ? `Este día fijado no se puede: ${list(pins)}.`
      : `Estos días fijados no caben todos: ${list(pins)}.`,
  because: {
    'no-outfit': 'Ningún equipo tiene cabezal para eso.',
    'day-off': 'La cuadrilla descansa ese día.',
    'kept-off': 'Ese día no se entra.',
    'never-fit': 'No es probable que esté listo ese día.',
    'not-enough-hours': 'Juntos piden más horas de las que hay.',
    'beyond-outlook': 'Ese día aún no se ve.',
  },
  change: {
    pin: (name, day) => `${name} el ${day}`,
    someOf: (area, name) => `${area} de ${name}`,
    pinBy: (what, outfit) => `${what}, con ${outfit}`,
    unpin: (name) => `${name} sin día fijo`,
    keepOff: (name, from, to) =>
      from === to ? `${name} sin entrar el ${from}` : `${name} sin entrar del ${from} al ${to}`,
    allow: (name) => `${name} otra vez libre`,
    deadline: (name, day) => `${name} terminado a más tardar el ${day}`,
    hours: (outfit, from, to) => `${outfit} de ${from} a ${to}`,
    daysOff: (outfit, days) =>
      days.length > 0 ? `${outfit} descansa ${list(days.map((day) => `el ${day}`))}` : `${outfit} sin descanso`,
    addOutfit: (outfit) => `${outfit} como un equipo más`,
    dropOutfit: (outfit) => `${outfit} fuera del plan`,
    addCart: (outfit) => `un carro más para ${outfit}`,
    addTruck: (outfit) => `un camión más para ${outfit}`,
    takenBack: (what) => `${what}, retirado`,
  },
  would: (what, costs, gains, moved) =>
    `${what.charAt(0).toUpperCase()}${what.slice(1)}: ${priced(costs, gains, moved)}.`,
  cannot: (what) => `${what}: no se puede.`,
  badWeather: (costs, gains) => `Con mal tiempo ${price(costs, gains)}.`,
  moved: (name, from, to) => `${name}: ${from ?? 'no en estos días'} → ${to ?? 'no en estos días'}`,
  movedTitle: 'Qué se mueve',
  keep: 'Que quede así',
  leave: 'Dejarlo como estaba',
  last: (who, what, when) => `${who}, ${when}: ${what}.`,
  lastCost: (costs, gains, moved) =>
    `${price(costs, gains).charAt(0).toUpperCase()}${priced(costs, gains, moved).slice(1)}.`,
  undo: 'Deshacer',
  undoNamed: (what) => `Deshacer: ${what}`,
  decided: 'Lo decidido',
  free: 'Soltarlo',
  freeNamed: (name) => `Soltar ${name}`,
  pinsCost: (money) => `Los días fijados cuestan cerca de ${money} frente a un plan sin ellos.`,
  unseen: 'aún no se ve',
  why: 'Por qué así',
  whyOf: (name, reason, perDay) => {
    const because = {
      pinned: 'usted lo fijó',
      'only-one-fit': 'nada más está listo hoy para este equipo',
      'loses-more': 'pierde más si espera',
      nearer: 'es el traslado más corto',
      'longer-window': 'su ventana de hoy es más larga',
      promised: 'el plan ya lo decía y nada gana con un cambio',
      'better-week': 'la semana sale mejor',
    }[reason]
    return `${name} hoy: ${because}.${perDay === undefined ? '' : ` Cada día de espera cuesta cerca de ${perDay}.`}`
  },
  instead: (name, costs) =>
    costs === undefined ? `${name} en su lugar saldría casi igual.` : `${name} en su lugar costaría cerca de ${costs}.`,
  moveTitle: 'Cambiar el plan',
  pinForm: 'Poner un lote en un día',
  field: 'Lote',
  on: 'Día',
  keepOffForm: 'No entrar a un lote',
  from: 'Desde',
  to: 'Hasta',
  deadlineForm: 'Tener un lote terminado',
  by: 'A más tardar',
  tryIt: 'Ver qué cuesta',
  crewTitle: 'Cuadrilla y máquinas',
  outfit: 'Equipo',
  starts: 'Empieza',
  ends: 'Termina',
  daysOff: 'Descanso',
  onlyArea: { us: 'Solo tantos acres', metric: 'Solo tantas hectáreas' },
  all: 'todo',
  anyOutfit: 'cualquiera',
  outfitForm: 'Agregar un equipo',
  outfitName: 'Nombre',
  likeHelp: (outfit) => `Las cifras son las de ${outfit}: cambie lo que sea distinto.`,
  likeOther: (outfit) => `Empezar con las de ${outfit}`,
  howMany: 'Cantidad',
  combines: 'Cosechadoras',
  tank: { us: 'Tolva (bu)', metric: 'Tolva (L)' },
  unload: { us: 'Descarga (bu/s)', metric: 'Descarga (L/s)' },
  headWidth: { us: 'Ancho del cabezal (pies)', metric: 'Ancho del cabezal (m)' },
  speed: { us: 'Velocidad (mph)', metric: 'Velocidad (km/h)' },
  efficiency: 'Eficiencia de campo (%)',
  headFor: 'Cabezales para',
  carts: 'Carros',
  holds: { us: 'Capacidad (bu)', metric: 'Capacidad (L)' },
  roadSpeed: { us: 'En camino (mph)', metric: 'En camino (km/h)' },
  trucks: 'Camiones',
  toForm: 'Ir a corregirlo',
  oneCart: 'Probar un carro más',
  oneTruck: 'Probar un camión más',
  moreTitle: 'Qué valdría uno más',
  moreAsk: 'Calcular qué valdría una hora, un carro o un camión más',
  more: (what, outfit, money) => {
    const one = { hour: 'Una hora más al día', cart: 'Un carro más', truck: 'Un camión más' }[what]
    return `${one} para ${outfit}: ${money === undefined ? 'no vale nada en estos días' : `cerca de ${money}`}.`
  },
  noMore: 'No se sabe: hace falta el cálculo.',
  busy: 'Calculando el plan …',
  noAnswer: 'No hubo respuesta; nada cambió.',
  signInToChange: 'Entre como dueño o planificador para mover lotes.',
  history: 'Todos los planes publicados, y por qué cambiaron',
  historySentence: (count) =>
    count === 1 ? 'Se publicó un plan.' : `Los últimos ${count} planes, el más nuevo primero.`,
  reasons: {
    first: 'el primer plan',
    'new-morning': 'una mañana nueva',
    'new-weather': 'tiempo nuevo',
    reading: 'una lectura',
    progress: 'lo cortado',
  },
  older: 'Más viejos',
  noPlans: 'Aún no se publicó ningún plan.',
  nothingMoved: 'Ningún lote se movió.',
  visits: (names) => (names.length > 0 ? `Ese día ${list(names)}.` : 'Nada ese día.'),
}
