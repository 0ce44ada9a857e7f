/** The checked farm file, in the farm's units, becomes the `Farm` in SI. */
import { resolve } from 'node:path'
import { shareInside } from '#core/field/patch-share.ts'
import type { Buyer, Farm, Field, Outfit, Person, UnitSystem, WeatherSource } from '#core/operation/farm.ts'
import { CROP_TRADE, type CropName } from '#core/science/crop.ts'
import { kgPerBushel, tPerHaFromBuPerAcre } from '#core/units/convert.ts'
import { areaHaOf, centreOf } from '#core/units/rings.ts'
import type { BuyerEntry } from './buyers.ts'
import { isMeant } from './checks.ts'
import { dateFrom, isoWeekdays, minuteOf, slug } from './common.ts'
import type { FieldEntry } from './fields.ts'
import { FIRE_DEFAULTS, type WeatherEntry } from './fire.ts'
import { toBaseMap } from './map.ts'
import { toMorning } from './morning.ts'
import type { OutfitEntry } from './outfits.ts'
import { ringsOf } from './outline.ts'
import type { PersonEntry } from './people.ts'
import { toPlanning } from './planning.ts'
import type { FarmFile } from './schema.ts'
import { toSi } from './units.ts'

/**
 * @param file       The farm file, free of faults.
 * @param directory  Directory of the farm file, from which a recorded weather file is looked for.
 */
export function toFarm(file: FarmFile, directory: string): Farm {
  const baseMap = toBaseMap(file.map)
  const { units } = file
  const care = file.fire.care
  return {
    id: file.id ?? slug(file.farm),
    name: file.farm,
    timeZone: file.time_zone,
    units,
    language: file.language,
    home: {
      latDeg: file.home.lat,
      lonDeg: file.home.lon,
      elevationM: toSi(file.home.elevation, 'elevation', units),
    },
    fields: file.fields.map((field) => toField(field, file.buyers, units)),
    outfits: file.outfits.map((outfit) => toOutfit(outfit, units)),
    buyers: file.buyers.map((buyer) => toBuyer(buyer, units)),
    people: file.people.map((person) => toPerson(person, file.language)),
    fireRules: {
      careGustMs: toSi(care.gust ?? FIRE_DEFAULTS[units].gust, 'windSpeed', units),
      careWindMs: toSi(care.wind ?? FIRE_DEFAULTS[units].wind, 'windSpeed', units),
      careRelHumidity: care.humidity / 100,
      careGrassIndex: care.grass_index,
      stopGrassIndex: file.fire.stop.grass_index,
      bans: file.fire.bans.map((ban) => ({ from: dated(ban.from), to: dated(ban.to), text: ban.text })),
    },
    morning: toMorning(file.morning),
    planning: toPlanning(file.planning),
    ...(baseMap && { baseMap }),
    weather: file.weather.map((source) => toSource(source, directory)),
  }
}

/** A date the schema has already accepted. */
function dated(text: string): Temporal.PlainDate {
  const date = dateFrom(text)
  if (!date) throw new Error(`not a date: ${text}`)
  return date
}

function toField(field: FieldEntry, buyers: readonly BuyerEntry[], units: UnitSystem): Field {
  const rings = field.boundary && ringsOf(field.boundary)
  const centre = rings
    ? centreOf(rings)
    : { latDeg: field.centre?.lat ?? Number.NaN, lonDeg: field.centre?.lon ?? Number.NaN }
  const drawnHa = rings ? areaHaOf(rings) : Number.NaN
  const buyer = buyers.find((candidate) => isMeant(field.buyer, candidate))
  return {
    id: field.id ?? slug(field.name),
    name: field.name,
    crop: field.crop,
    // What the farm says it farms counts before what was drawn.
    areaHa: field.area === undefined ? drawnHa : toSi(field.area, 'area', units),
    centre,
    ...(rings && { boundary: rings }),
    plantedOn: dated(field.planted),
    ...(field.maturity_group !== undefined && { maturityGroup: maturityGroupOf(field.maturity_group) }),
    ...(field.relative_maturity !== undefined && { relativeMaturity: field.relative_maturity }),
    ...(field.mature_seen !== undefined && { maturitySeenOn: dated(field.mature_seen) }),
    ...(field.cut !== undefined && { cutOn: dated(field.cut) }),
    ...(field.rows !== undefined && { rowBearingDeg: field.rows % 180 }),
    soil: {
      texture: field.soil.texture,
      drainage: field.soil.drainage,
      ...(field.soil.carries !== undefined && { carryShift: field.soil.carries }),
    },
    followsWheat: field.after_wheat,
    usualYieldTHa: units === 'us' ? tPerHaFromBuPerAcre(field.usual_yield, lbPerBu(field.crop)) : field.usual_yield,
    band: field.band ? { lowWb: field.band.low, highWb: field.band.high } : CROP_TRADE[field.crop].band,
    patches: field.patches.map((patch) => ({
      id: patch.id ?? slug(patch.name),
      name: patch.name,
      ...patchArea(patch, rings),
      kind: patch.kind,
      laterDays: patch.later,
      handling: patch.handling,
    })),
    buyerId: buyer ? (buyer.id ?? slug(buyer.name)) : '',
    haulKm: toSi(field.haul, 'haul', units),
  }
}

/** A patch that was drawn has the share its outline has of the field's. */
function patchArea({ share, outline }: FieldEntry['patches'][number], boundary: Field['boundary']) {
  const ring = outline && ringsOf(outline)[0]
  if (!ring) return { share: share ?? Number.NaN }
  return { share: shareInside(boundary ?? [], ring), outline: ring }
}

const lbPerBu = (crop: CropName): number => CROP_TRADE[crop].lbPerBu

/** Group 00 comes before 0: it is -1, and 00.5 is -0.5. */
const maturityGroupOf = (group: number | string): number =>
  typeof group === 'number' ? group : Number(group.slice(1)) - 1

function toOutfit(outfit: OutfitEntry, units: UnitSystem): Outfit {
  return {
    id: outfit.id ?? slug(outfit.name),
    name: outfit.name,
    combines: outfit.combines.flatMap((combine) =>
      alike(combine).map((name) => ({
        name,
        tankL: toSi(combine.tank, 'tank', units),
        unloadLPerS: toSi(combine.unload, 'unload', units),
        heads: combine.heads.map((head) => ({
          crops: head.crops,
          widthM: toSi(head.width, 'headWidth', units),
          speedMs: toSi(head.speed, 'fieldSpeed', units),
          efficiency: head.efficiency,
        })),
      })),
    ),
    carts: outfit.carts.flatMap((cart) =>
      alike(cart).map((name) => ({
        name,
        capacityL: toSi(cart.size, 'load', units),
        unloadLPerS: toSi(cart.unload, 'unload', units),
      })),
    ),
    trucks: outfit.trucks.flatMap((truck) =>
      alike(truck).map((name) => ({
        name,
        capacityL: toSi(truck.size, 'load', units),
        roadSpeedMs: toSi(truck.speed, 'roadSpeed', units),
      })),
    ),
    crewHours: { startMinute: minuteOf(outfit.hours.from), endMinute: minuteOf(outfit.hours.to) },
    daysOff: isoWeekdays(outfit.days_off),
  }
}

const alike = ({ name, count }: { readonly name: string; readonly count: number }): string[] =>
  count === 1 ? [name] : Array.from({ length: count }, (_, i) => `${name} ${i + 1}`)

function toBuyer(buyer: BuyerEntry, units: UnitSystem): Buyer {
  const tonnesPerUnit = (crop: CropName) => (units === 'us' ? kgPerBushel(lbPerBu(crop)) / 1000 : 1)
  const { daily_limit: daily, hourly_limit: hourly, dryer } = buyer
  // Bushels of a limit are weighed as those of the first crop.
  const limitT = tonnesPerUnit(buyer.pays[0]!.crop)
  return {
    id: buyer.id ?? slug(buyer.name),
    name: buyer.name,
    hours: { openMinute: minuteOf(buyer.hours.from), closeMinute: minuteOf(buyer.hours.to) },
    closedOn: isoWeekdays(buyer.closed),
    ...(daily !== undefined && { dailyT: daily * limitT }),
    ...(hourly !== undefined && { pitTPerH: hourly * limitT }),
    ...(dryer && { dryer: { tPointsPerH: dryer.takes * limitT * dryer.points, wetBinT: dryer.wet_bin * limitT } }),
    turnaroundMin: buyer.turnaround,
    terms: buyer.pays.map((pay) => ({
      crop: pay.crop,
      pricePerT: pay.price / tonnesPerUnit(pay.crop),
      standardMoistureWb: pay.moisture ?? CROP_TRADE[pay.crop].standardMoistureWb,
      shrinkPerPoint: pay.shrink,
      dockPerPoint: pay.dock,
      dryingPerTPoint: pay.drying / tonnesPerUnit(pay.crop),
      ...(pay.refuse_above !== undefined && { refuseAboveWb: pay.refuse_above }),
    })),
  }
}

function toPerson(person: PersonEntry, language: Person['language']): Person {
  const quiet = person.quiet_hours
  return {
    id: person.id ?? slug(person.name),
    name: person.name,
    role: person.role,
    language: person.language ?? language,
    ...(person.email !== undefined && { email: person.email }),
    ...(quiet && { quietHours: { startMinute: minuteOf(quiet.from), endMinute: minuteOf(quiet.to) } }),
  }
}

function toSource(source: WeatherEntry[number], directory: string): WeatherSource {
  if (source.use === 'open-aggregator' && source.server !== undefined)
    return { kind: source.use, server: source.server.replace(/\/*$/, '/') }
  if (source.use !== 'recorded') return { kind: source.use }
  const midnight = Temporal.PlainDate.from(source.day).toPlainDateTime()
  return {
    kind: 'recorded',
    file: resolve(directory, source.file),
    ...(source.years !== undefined && { years: resolve(directory, source.years) }),
    clock: midnight.add({ minutes: minuteOf(source.time) }),
    credit: source.credit,
    licence: source.licence,
  }
}
