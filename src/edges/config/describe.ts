/** What was understood of a farm file, in the farm's units, for the farmer to read before he trusts it. */
import { isAbsolute, relative } from 'node:path'
import type {
  BaseMap,
  Buyer,
  Farm,
  Field,
  MorningRule,
  Outfit,
  Person,
  PlanningRule,
  UnitSystem,
  WeatherSource,
} from '#core/operation/farm.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { buPerAcreFromTPerHa, kgPerBushel } from '#core/units/convert.ts'
import { weekdayNames } from './common.ts'
import { fromSi, type Quantity, unitOf } from './units.ts'

/** One thing that was understood. */
export interface UnderstoodLine {
  /** Indented by two spaces a step under what it belongs to; empty between sections. */
  readonly text: string
  /** Where in the file's structure it stands; absent where it stands nowhere by itself. */
  readonly path?: readonly (string | number)[]
}

/** @returns plain text, one thing to a line, without a claim about how much the outfit can cut. */
export const describeFarm = (farm: Farm): string =>
  understoodLines(farm)
    .map(({ text }) => text)
    .join('\n')

/** @param farm as read from its file: the paths are those of the file. */
export function understoodLines(farm: Farm): UnderstoodLine[] {
  const { units, home } = farm
  const totalHa = farm.fields.reduce((sum, field) => sum + field.areaHa, 0)
  const gap = { text: '' }
  return [
    at(['farm'], `${farm.name} (id ${farm.id})`),
    at(
      ['units'],
      `  ${units === 'us' ? 'US' : 'Metric'} units, time zone ${farm.timeZone}, messages in ${languageName(farm.language)}`,
    ),
    at(
      ['home'],
      `  Home ${placeText(home.latDeg, home.lonDeg)}, ${measure(home.elevationM, 'elevation', units)} above the sea`,
    ),
    gap,
    at(['fields'], `Fields: ${farm.fields.length}, together ${measure(totalHa, 'area', units)}`),
    ...farm.fields.flatMap((field, index) => fieldLines(field, farm, ['fields', index])),
    gap,
    at(['outfits'], 'Outfits'),
    ...farm.outfits.flatMap((outfit, index) => outfitLines(outfit, units, ['outfits', index])),
    gap,
    at(['buyers'], 'Buyers'),
    ...farm.buyers.flatMap((buyer, index) => buyerLines(buyer, units, ['buyers', index])),
    gap,
    at(['people'], 'People'),
    ...farm.people.map((person, index) => at(['people', index], personLine(person))),
    gap,
    ...ruleLines(farm),
    gap,
  ]
}

type Path = NonNullable<UnderstoodLine['path']>
const at = (path: Path, text: string): UnderstoodLine => ({ text, path })

function fieldLines(field: Field, farm: Farm, path: Path): UnderstoodLine[] {
  const { units } = farm
  const variety =
    field.maturityGroup !== undefined
      ? `, maturity group ${field.maturityGroup < 0 ? `00${tenths(field.maturityGroup + 1)}` : field.maturityGroup}`
      : field.relativeMaturity !== undefined
        ? `, ${field.relativeMaturity} days`
        : ''
  const yieldText =
    units === 'us'
      ? `${rounded(buPerAcreFromTPerHa(field.usualYieldTHa, CROP_TRADE[field.crop].lbPerBu), 1)} bu/acre`
      : `${rounded(field.usualYieldTHa, 2)} t/ha`
  const buyer = farm.buyers.find(({ id }) => id === field.buyerId)
  const [name, ground, use] = [
    `  ${field.name} (id ${field.id}): ${field.crop}, ${measure(field.areaHa, 'area', units)}, ` +
      `planted ${field.plantedOn}${variety}${field.followsWheat ? ', after wheat' : ''}`,
    `    ${field.boundary ? 'Drawn' : 'By its middle'} at ${placeText(field.centre.latDeg, field.centre.lonDeg)}; ` +
      `${field.soil.texture}, drainage ${field.soil.drainage}` +
      carryText(field.soil.carryShift) +
      (field.rowBearingDeg === undefined ? '' : `; rows ${rounded(field.rowBearingDeg, 0)} degrees from north`),
    `    Cut at ${field.band.lowWb} to ${field.band.highWb} % moisture; usually ${yieldText}; ` +
      `${measure(field.haulKm, 'haul', units)} to ${buyer?.name ?? field.buyerId}`,
  ] as const
  return [
    at(path, name),
    at([...path, field.boundary ? 'boundary' : 'centre'], ground),
    at([...path, 'usual_yield'], use),
    ...(field.maturitySeenOn ? [at([...path, 'mature_seen'], `    Seen mature ${field.maturitySeenOn}`)] : []),
    ...(field.cutOn ? [at([...path, 'cut'], `    Cut ${field.cutOn}: left out of the plan`)] : []),
    ...field.patches.map((patch, index) =>
      at(
        [...path, 'patches', index],
        `    Patch ${patch.name} (id ${patch.id}): ${patch.kind}, ${rounded(patch.share * 100, 1)} % of the field` +
          `${patch.outline ? ' as drawn' : ''}, ${rounded(patch.laterDays, 1)} days later, ` +
          `${patch.handling === 'leave' ? 'left standing' : 'cut through'}`,
      ),
    ),
  ]
}

function outfitLines(outfit: Outfit, units: UnitSystem, path: Path): UnderstoodLine[] {
  // An entry with a count stands for several machines: where each of them is written is told by the list.
  const [combines, carts, trucks]: Path[] = [
    [...path, 'combines'],
    [...path, 'carts'],
    [...path, 'trucks'],
  ]
  return [
    at(
      path,
      `  ${outfit.name} (id ${outfit.id}): works ${hoursText(outfit.crewHours)}${offText(outfit.daysOff, 'off')}`,
    ),
    ...outfit.combines.flatMap((combine) => [
      at(
        combines!,
        `    Combine ${combine.name}: tank ${measure(combine.tankL, 'tank', units)}, ` +
          `unloads ${measure(combine.unloadLPerS, 'unload', units)}`,
      ),
      ...combine.heads.map((head) =>
        at(
          combines!,
          `      Head for ${head.crops.join(', ')}: ${measure(head.widthM, 'headWidth', units)} at ` +
            `${measure(head.speedMs, 'fieldSpeed', units)}, efficiency ${rounded(head.efficiency * 100, 0)} %`,
        ),
      ),
    ]),
    ...outfit.carts.map((cart) =>
      at(
        carts!,
        `    Cart ${cart.name}: ${measure(cart.capacityL, 'load', units)}, ` +
          `unloads ${measure(cart.unloadLPerS, 'unload', units)}`,
      ),
    ),
    ...outfit.trucks.map((truck) =>
      at(
        trucks!,
        `    Truck ${truck.name}: ${measure(truck.capacityL, 'load', units)} at ` +
          measure(truck.roadSpeedMs, 'roadSpeed', units),
      ),
    ),
  ]
}

function buyerLines(buyer: Buyer, units: UnitSystem, path: Path): UnderstoodLine[] {
  const tonnesPerUnit = (crop: keyof typeof CROP_TRADE) =>
    units === 'us' ? kgPerBushel(CROP_TRADE[crop].lbPerBu) / 1000 : 1
  // Limits are weighed as the first crop is.
  const first = buyer.terms[0]!.crop
  const amount = (t: number) => rounded(t / tonnesPerUnit(first), 0)
  const limits = [
    ...(buyer.dailyT === undefined ? [] : [`takes ${amount(buyer.dailyT)} ${unitOf('dailyLimit', units)} a day`]),
    ...(buyer.pitTPerH === undefined
      ? []
      : [`${amount(buyer.pitTPerH)} ${unitOf('hourlyLimit', units)} through the pit`]),
    ...(buyer.dryer
      ? [
          `dries ${amount(buyer.dryer.tPointsPerH)} ${unitOf('hourlyLimit', units)} by a point, ` +
            `holds ${amount(buyer.dryer.wetBinT)} ${unitOf('wetBin', units)} wet`,
        ]
      : []),
  ]
  const weighed = limits.length > 0 && units === 'us' ? ` (weighed as ${first})` : ''
  const limit = limits.map((text) => `, ${text}`).join('') + weighed
  const hours = { startMinute: buyer.hours.openMinute, endMinute: buyer.hours.closeMinute }
  return [
    at(
      path,
      `  ${buyer.name} (id ${buyer.id}): open ${hoursText(hours)}${offText(buyer.closedOn, 'closed')}${limit}, ` +
        `${buyer.turnaroundMin} minutes a truck`,
    ),
    ...buyer.terms.map((terms, index) =>
      at(
        [...path, 'pays', index],
        `    ${terms.crop}: ${(terms.pricePerT * tonnesPerUnit(terms.crop)).toFixed(2)} a ${units === 'us' ? 'bushel' : 'tonne'} ` +
          `at ${terms.standardMoistureWb} %; each point above: ${terms.shrinkPerPoint} % of weight, ` +
          `${terms.dockPerPoint} % of price, drying ${rounded(terms.dryingPerTPoint * tonnesPerUnit(terms.crop), 3)}` +
          (terms.refuseAboveWb === undefined ? '' : `; refused above ${terms.refuseAboveWb} %`),
      ),
    ),
  ]
}

function personLine(person: Person): string {
  const quiet = person.quietHours ? `, quiet ${hoursText(person.quietHours)}` : ''
  return `  ${person.name} (id ${person.id}): ${person.role}, ${languageName(person.language)}, ${person.email ?? 'no email'}${quiet}`
}

function ruleLines(farm: Farm): UnderstoodLine[] {
  const { fireRules: fire, units } = farm
  return [
    at(
      ['fire'],
      `Fire: care from gusts of ${measure(fire.careGustMs, 'windSpeed', units)}, wind of ` +
        `${measure(fire.careWindMs, 'windSpeed', units)}, humidity of ${rounded(fire.careRelHumidity * 100, 0)} % or less, ` +
        `grass index ${fire.careGrassIndex}; stop from grass index ${fire.stopGrassIndex}.`,
    ),
    { text: '  A local ban or warning outranks all of this.' },
    ...fire.bans.map((ban, index) => at(['fire', 'bans', index], `  Ban ${ban.from} to ${ban.to}: ${ban.text}`)),
    at(['morning'], morningLine(farm.morning)),
    ...planningLine(farm.planning).map((text) => at(['planning'], text)),
    ...mapLines(farm.baseMap).map((text) => at(['map'], text)),
    at(['weather'], `Weather from ${farm.weather.map(sourceText).join(', then ')}.`),
    ...farm.weather.flatMap((source, index) => termsOf(source).map((text) => at(['weather', index], text))),
  ]
}

function morningLine({ minute, beforeRun, eveningMinute, weatherAgeLimitH }: MorningRule): string {
  const when = beforeRun
    ? `${beforeRun.leadMinutes} minutes before the first run, from ${clock(beforeRun.earliestMinute)} to ${clock(minute)}`
    : `at ${clock(minute)}`
  const evening = eveningMinute === undefined ? '' : `; outlook on tomorrow for the planner at ${clock(eveningMinute)}`
  return `Morning message ${when}${evening}; weather older than ${weatherAgeLimitH} hours names no field.`
}

function planningLine(rule: PlanningRule | undefined): string[] {
  if (!rule) return []
  const { outfitsPerField, fieldsPerDay, aversion } = rule
  const bad = aversion
    ? `; the worst ${rounded(aversion.tail * 100, 0)} % of outcomes count ${rounded(aversion.weight * 100, 0)} % against the mean`
    : ''
  const outfits = outfitsPerField === 1 ? 'one outfit' : `${outfitsPerField} outfits`
  const fields = fieldsPerDay === 1 ? 'one field' : `${fieldsPerDay} fields`
  return [`Plan: at most ${outfits} in a field and ${fields} a day for an outfit${bad}.`]
}

const mapLines = (map: BaseMap | undefined): string[] =>
  map ? [`Map tiles from ${map.tileUrl}, to zoom ${map.deepestZoom}, credit: ${map.credit}`] : []

const sourceText = (source: WeatherSource): string =>
  source.kind === 'recorded'
    ? `the recorded file ${shownPath(source.file)}, begun at ${source.clock.toString({ smallestUnit: 'minute' })}`
    : source.kind

/** What the farm has agreed to by switching on a supplier with terms of its own. */
function termsOf(source: WeatherSource): string[] {
  if (source.kind === 'recorded') {
    const years = source.years === undefined ? [] : [`    Earlier years from ${shownPath(source.years)}`]
    return [`  ${source.credit}; licence: ${source.licence}`, ...years]
  }
  if (source.kind !== 'open-aggregator') return []
  const host =
    source.server === undefined
      ? '    Its free hosts are for non-commercial use only; a farm that sells grain needs a key (set ' +
        'THRESHDAY_AGGREGATOR_KEY) or a server of its own (server: in this file).'
      : `    Asked at your own server, ${source.server}`
  return [
    '  open-aggregator is Open-Meteo, licence CC BY 4.0, credited wherever it is used; terms at open-meteo.com/en/terms',
    host,
  ]
}

/** From where the program was started, where it lies below. */
function shownPath(path: string): string {
  const shown = relative('', path)
  return shown.startsWith('..') || isAbsolute(shown) ? path : shown
}

/** As the field's ground was said to carry beside others of its texture. */
const carryText = (shift: number | undefined): string =>
  shift === undefined || shift === 0 ? '' : `; carries ${shift > 0 ? 'better' : 'worse'} than its like (${shift})`

const languageName = (language: Farm['language']): string => (language === 'es' ? 'Spanish' : 'English')

const measure = (si: number, quantity: Quantity, units: UnitSystem): string =>
  `${rounded(fromSi(si, quantity, units), 1)} ${unitOf(quantity, units)}`

/** Rounded for reading, without zeros at the end. */
const rounded = (value: number, digits: number): string => String(Number(value.toFixed(digits)))

const tenths = (value: number): string => (value < 0.05 ? '' : value.toFixed(1).slice(1))

const placeText = (latDeg: number, lonDeg: number): string =>
  `${Math.abs(latDeg).toFixed(4)} ${latDeg < 0 ? 'S' : 'N'}, ${Math.abs(lonDeg).toFixed(4)} ${lonDeg < 0 ? 'W' : 'E'}`

const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`

const hoursText = (hours: { readonly startMinute: number; readonly endMinute: number }): string =>
  `${clock(hours.startMinute)} to ${clock(hours.endMinute)}`

const offText = (days: readonly number[], word: string): string =>
  days.length === 0 ? '' : `, ${word} ${weekdayNames(days).join(' and ')}`
