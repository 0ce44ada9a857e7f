/** English words of the week's plan. */
import type { PlanWords } from './plan-words.ts'

const list = (names: readonly string[]): string => new Intl.ListFormat('en', { type: 'conjunction' }).format(names)
const others = (count: number): string => `moves ${count} other ${count === 1 ? 'field' : 'fields'}`
const price = (costs: string | undefined, gains: string | undefined): string => {
  if (costs !== undefined) return `costs about ${costs}`
  return gains === undefined ? 'costs nothing' : `gains about ${gains}`
}
const priced = (costs: string | undefined, gains: string | undefined, moved: number): string =>
  moved === 0 ? price(costs, gains) : `${price(costs, gains)} and ${others(moved)}`

/** What holds for who knows more than anybody can says so. */
const bound = (most: string): string =>
  `even who knew today’s weather beforehand could save no more than ${most} of that.`

export const englishPlan: PlanWords = {
  sentence: (today, next) => {
    const then = next ? `${next.day} ${list(next.names)}.` : ''
    if (today.length > 0) return `${list(today)} today.${then === '' ? '' : ` ${then}`}`
    return then === '' ? 'Nothing to cut in these days.' : `Nothing today. ${then}`
  },
  worth: (value, short) =>
    `By this plan all that stands is worth about ${value}, ${short} short of what machines without end would bring.`,
  status: {
    proven: (most) => `Proven: ${bound(most)}`,
    good: (most) => `A good plan, not a proven one: a better one may exist, but ${bound(most)}`,
    fallback: (most) =>
      `Made by simple rules, for the solver had no answer: a better plan may exist, but ${bound(most)}`,
  },
  noneBetter: 'No plan does better under this outlook.',
  planned: (day, chance) => `${day}, ${chance}`,
  notInSight: 'not in these days',
  pinned: 'pinned',
  day: (day, chance, keptOff) => (keptOff ? `${day}: kept off` : `${day}: fit ${chance}`),
  later: 'later',
  tail: (left, { early, middle, late, until }) => {
    if (!middle) return `${left} that some stands after these days, not likely fit by ${until}`
    const spread = [early && `one in ten by ${early}`, late ? `nine in ten by ${late}` : `nine in ten not by ${until}`]
    return `${left} that some stands after these days: likely fit about ${middle} (${spread.filter(Boolean).join(', ')})`
  },
  seasonRests: (lastDay, years, few) =>
    `After ${lastDay}: by the weather of ${years} past years at the place${few ? ', too few to show all that can come' : ''}. No forecast reaches there.`,
  keptOff: 'off',
  moveNamed: (name) => `Move ${name}`,
  markerHelp:
    'Drag a tag to another day, or choose it and use the arrow keys: Enter asks what it costs, Escape leaves it.',
  markerOf: (name) => `Day of ${name}`,
  keyPlan: 'bar under a day: how surely some of it is cut then',
  keyTag: 'tag: the likeliest day, with what is cut on it',
  keyPinned: 'dark tag with a pin: you fixed the day',
  keyOff: 'crossed out: kept off',
  conflict: (pins) =>
    pins.length === 1 ? `This pin can’t be kept: ${list(pins)}.` : `These pins can’t all be kept: ${list(pins)}.`,
  because: {
    'no-outfit': 'No outfit has a head for it.',
    'day-off': 'The crew is off that day.',
    'kept-off': 'It is kept off that day.',
    'never-fit': 'It is not likely to be fit at all that day.',
    'not-enough-hours': 'Together they ask for more hours than there are.',
    'beyond-outlook': 'That day can’t be seen yet.',
  },
  change: {
    pin: (name, day) => `${name} on ${day}`,
    someOf: (area, name) => `${area} of ${name}`,
    pinBy: (what, outfit) => `${what}, by ${outfit}`,
    unpin: (name) => `${name} without a pin`,
    keepOff: (name, from, to) =>
      from === to ? `${name} kept off on ${from}` : `${name} kept off from ${from} to ${to}`,
    allow: (name) => `${name} no longer kept off`,
    deadline: (name, day) => `${name} done by ${day}`,
    hours: (outfit, from, to) => `${outfit} from ${from} to ${to}`,
    daysOff: (outfit, days) => (days.length > 0 ? `${outfit} off on ${list(days)}` : `${outfit} without a day off`),
    addOutfit: (outfit) => `${outfit} as one more outfit`,
    dropOutfit: (outfit) => `${outfit} out of the plan`,
    addCart: (outfit) => `one more cart for ${outfit}`,
    addTruck: (outfit) => `one more truck for ${outfit}`,
    takenBack: (what) => `${what}, taken back`,
  },
  would: (what, costs, gains, moved) => `${what} ${priced(costs, gains, moved)}.`,
  cannot: (what) => `${what} can’t be kept.`,
  badWeather: (costs, gains) => `In bad weather it ${price(costs, gains)}.`,
  moved: (name, from, to) => `${name}: ${from ?? 'not in these days'} → ${to ?? 'not in these days'}`,
  movedTitle: 'What moves',
  keep: 'Keep it',
  leave: 'Leave it',
  last: (who, what, when) => `${who}, ${when}: ${what}.`,
  lastCost: (costs, gains, moved) => `It ${priced(costs, gains, moved)}.`,
  undo: 'Undo',
  undoNamed: (what) => `Undo: ${what}`,
  decided: 'What is decided',
  free: 'Free it',
  freeNamed: (name) => `Free ${name}`,
  pinsCost: (money) => `The pins cost about ${money} against a plan without them.`,
  unseen: 'can’t be seen yet',
  why: 'Why so',
  whyOf: (name, reason, perDay) => {
    const because = {
      pinned: 'you pinned it',
      'only-one-fit': 'nothing else is fit for this outfit today',
      'loses-more': 'it loses more by waiting',
      nearer: 'it is the shorter move',
      'longer-window': 'its window is longer today',
      promised: 'the plan said so before, and nothing gains by a change',
      'better-week': 'the week comes out better',
    }[reason]
    return `${name} today: ${because}.${perDay === undefined ? '' : ` Each day of waiting costs about ${perDay}.`}`
  },
  instead: (name, costs) =>
    costs === undefined
      ? `${name} in its place would come out about the same.`
      : `${name} in its place would cost about ${costs}.`,
  moveTitle: 'Change the plan',
  pinForm: 'Put a field on a day',
  field: 'Field',
  on: 'Day',
  keepOffForm: 'Keep a field off',
  from: 'From',
  to: 'To',
  deadlineForm: 'Have a field done by',
  by: 'By',
  tryIt: 'See what it costs',
  crewTitle: 'Crew and machines',
  outfit: 'Outfit',
  starts: 'Starts',
  ends: 'Ends',
  daysOff: 'Days off',
  onlyArea: { us: 'Only so many acres', metric: 'Only so many hectares' },
  all: 'all',
  anyOutfit: 'any',
  outfitForm: 'Add an outfit',
  outfitName: 'Name',
  likeHelp: (outfit) => `The figures are those of ${outfit}: change what is different.`,
  likeOther: (outfit) => `Start with those of ${outfit}`,
  howMany: 'How many',
  combines: 'Combines',
  tank: { us: 'Tank (bu)', metric: 'Tank (L)' },
  unload: { us: 'Unloads (bu/s)', metric: 'Unloads (L/s)' },
  headWidth: { us: 'Head width (ft)', metric: 'Head width (m)' },
  speed: { us: 'Speed (mph)', metric: 'Speed (km/h)' },
  efficiency: 'Field efficiency (%)',
  headFor: 'Heads for',
  carts: 'Carts',
  holds: { us: 'Holds (bu)', metric: 'Holds (L)' },
  roadSpeed: { us: 'On the road (mph)', metric: 'On the road (km/h)' },
  trucks: 'Trucks',
  toForm: 'Look at it',
  oneCart: 'Try one more cart',
  oneTruck: 'Try one more truck',
  moreTitle: 'What one more would be worth',
  moreAsk: 'Reckon what one more hour, cart or truck would be worth',
  more: (what, outfit, money) => {
    const one = { hour: 'One more hour a day', cart: 'One more cart', truck: 'One more truck' }[what]
    return `${one} for ${outfit}: ${money === undefined ? 'worth nothing in these days' : `about ${money}`}.`
  },
  noMore: 'Not known: it takes the solver.',
  busy: 'Planning anew …',
  noAnswer: 'No answer came; nothing was changed.',
  signInToChange: 'Sign in as owner or planner to move fields.',
  history: 'Every plan published, and why it changed',
  historySentence: (count) => (count === 1 ? 'One plan was published.' : `The last ${count} plans, newest first.`),
  reasons: {
    first: 'the first plan',
    'new-morning': 'a new morning',
    'new-weather': 'new weather',
    reading: 'a reading',
    progress: 'what was cut',
  },
  older: 'Older ones',
  noPlans: 'No plan was published yet.',
  nothingMoved: 'No field moved.',
  visits: (names) => (names.length > 0 ? `That day ${list(names)}.` : 'Nothing that day.'),
}
